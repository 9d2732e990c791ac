-- Whether a pilot may do small work on an aircraft: never on one that is flown for hire (14 CFR
-- 43.3(g) leaves out parts 121, 129 and 135). The newest row counts; without one nothing is allowed.
create table pilot_work_rule (
  like filed_row including all,
  aircraft_id uuid not null,
  flown_for_hire boolean not null,
  authority text not null check (length(trim(authority)) between 1 and 200),
  foreign key (operator_id, aircraft_id) references aircraft,
  check (corrects is null)
);
call as_filed('pilot_work_rule');
create index pilot_work_rule_of_aircraft on pilot_work_rule (operator_id, aircraft_id);

-- Work that a pilot did and signed, of the short list.
create table pilot_work (
  like filed_row including all,
  aircraft_id uuid not null,
  rule_id uuid not null,
  task text not null check (length(task) between 1 and 40),
  words text not null check (length(trim(words)) between 1 and 2000),
  data_reference text not null check (length(trim(data_reference)) between 1 and 200),
  times jsonb not null,
  pilot_name text not null check (length(pilot_name) between 1 and 120),
  licence_number text not null check (length(licence_number) between 1 and 60),
  licence_kind text not null,
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, rule_id) references pilot_work_rule (operator_id, id),
  check (corrects is null)
);
call as_filed('pilot_work');
create index pilot_work_of_aircraft on pilot_work (operator_id, aircraft_id);
