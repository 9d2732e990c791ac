-- Whose a requirement is stands in the row "requirement", which is no filed row: each revision says
-- it too from now on, and so does its line in the ledger. Null in revisions filed before.
alter table requirement_revision
  add column of_programme_id uuid,
  add column of_aircraft_id uuid,
  add column of_component_id uuid,
  add column of_part_number text check (length(of_part_number) between 1 and 60),
  add column of_subject text check (of_subject in ('aircraft', 'engine', 'propeller', 'component')),
  add constraint revision_of_one check (
    num_nonnulls(of_programme_id, of_aircraft_id, of_component_id, of_part_number)
      = case when of_subject is null then 0 else 1 end);
