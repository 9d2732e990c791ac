-- A requirement may belong to a part number: every component of that number carries it, wherever it
-- is. Such a requirement is about a component.
alter table requirement add column part_number text check (length(part_number) between 1 and 60);
alter table requirement drop constraint requirement_check, drop constraint requirement_check1;
alter table requirement
  add constraint requirement_of_one
    check (num_nonnulls(programme_id, aircraft_id, component_id, part_number) = 1),
  add constraint requirement_about_component
    check ((component_id is not null or part_number is not null) = (subject = 'component'));
create index requirement_of_part_number on requirement (operator_id, lower(part_number));
