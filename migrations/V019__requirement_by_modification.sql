-- A requirement may apply only where a modification is embodied, or only where it is not.
alter table requirement_revision
  add column modification text check (length(modification) between 1 and 40),
  add column modification_present boolean,
  add check ((modification is null) = (modification_present is null));
