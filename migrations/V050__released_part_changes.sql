-- The release to service after a part was changed without a work order, as its certificate is named.
-- Null where nobody named one, and where the part was changed on a line of an order: its release is
-- the order's own.
alter table fitment add column released text check (length(released) between 1 and 200);
alter table removal add column released text check (length(released) between 1 and 200);
