-- By what a component is found when a directive names a part number and a run of serial numbers:
-- the letters and digits of the part number (ComponentSheet.partKey), and the serial's number where
-- it has exactly one run of digits among letters and signs that can be read. Null where it is
-- anything else: whether such a one is named, only a closer look tells (directives.Serials).
-- Columns, not indexes on the expressions: behind walls the database uses an index only by
-- comparisons that it knows to tell nothing.
drop index component_by_part;
alter table component
  add column part_key text generated always as
    (regexp_replace(upper(part_number collate "C"), '[^A-Z0-9]', '', 'g')) stored,
  add column serial_number bigint generated always as
    (case when serial ~ '^[A-Za-z ./#()-]*[0-9]{1,18}[A-Za-z ./#()-]*$'
        and upper(serial collate "C") !~ 'UNKNOWN|ILLEGIBLE'
      then cast(regexp_replace(serial, '[^0-9]', '', 'g') as bigint) end) stored;
create index component_by_part on component (operator_id, part_key, serial_number);
