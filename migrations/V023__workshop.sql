-- Work orders: what is to be done to one aircraft, what was done, by whom, and what was said of the
-- aircraft afterwards. The state of an order is derived from its rows and stands in no column.

-- An order; its number is given once in an operator's year.
create table work_order (
  like filed_row including all,
  aircraft_id uuid not null,
  entry_id uuid not null,
  year int not null check (year between 1900 and 2200),
  number int not null check (number > 0),
  title text not null check (length(trim(title)) between 1 and 120),
  customer text not null default '' check (length(customer) <= 120),
  place text not null default '' check (length(place) <= 120),
  planned_from date,
  planned_to date,
  needs_approval boolean not null,
  foreign key (operator_id, aircraft_id) references aircraft,
  check (planned_to >= planned_from),
  check ((corrects is null) = (entry_id = id))
);
call as_filed('work_order');
create unique index work_order_number on work_order (operator_id, year, number)
  where corrects is null;
create index work_order_of_aircraft on work_order (operator_id, aircraft_id);
create index work_order_entry on work_order (operator_id, entry_id);

-- Issued to the hangar, approved by the owner, started, cancelled: each once.
create table work_order_step (
  like filed_row including all,
  aircraft_id uuid not null,
  order_entry_id uuid not null,
  step text not null check (step in ('issued', 'approved', 'started', 'cancelled')),
  remark text not null default '' check (length(remark) <= 500),
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, order_entry_id) references work_order (operator_id, id),
  check (step <> 'cancelled' or length(trim(remark)) > 0),
  check (corrects is null)
);
call as_filed('work_order_step');
alter table work_order_step add unique (operator_id, order_entry_id, step);

-- What a requirement's inspection looks at, by group; revised as a whole. tasks: a list of
-- {"group", "title", "data", "independent"}.
create table task_list (
  like filed_row including all,
  requirement_id uuid not null,
  revises uuid,
  tasks jsonb not null check (jsonb_typeof(tasks) = 'array'),
  approved_by text not null check (length(trim(approved_by)) between 1 and 120),
  foreign key (operator_id, requirement_id) references requirement,
  check (corrects is null)
);
call as_filed('task_list');
create unique index task_list_revised_once on task_list (
  operator_id,
  requirement_id,
  coalesce(revises, '00000000-0000-0000-0000-000000000000'::uuid)
);

-- One thing to be done. What it comes from: a requirement on its subject, a task of such a line
-- (parent_line), a defect, a finding or a line put off (from_line), a discrepancy of an aircraft
-- that was found not airworthy (from_release, from_ordinal), or nothing but its own words. Flight
-- and engine controls are always inspected by a second person.
create table work_line (
  like filed_row including all,
  aircraft_id uuid not null,
  order_entry_id uuid not null,
  entry_id uuid not null,
  ordinal int not null check (ordinal > 0),
  origin text not null check (origin in
    ('requirement', 'task', 'defect', 'finding', 'put-off', 'discrepancy', 'free')),
  requirement_id uuid,
  component_id uuid,
  inspection boolean not null default false,
  defect_entry_id uuid,
  parent_line uuid,
  from_line uuid,
  from_release uuid,
  from_ordinal int,
  title text not null check (length(trim(title)) between 1 and 300),
  area text not null check (area in ('whole-aircraft', 'fuselage', 'cabin', 'engine', 'gear', 'wing',
    'empennage', 'propeller', 'radio', 'flight-controls', 'engine-controls', 'other')),
  data_reference text not null default '' check (length(data_reference) <= 200),
  rating text not null default '' check (length(rating) <= 60),
  independent boolean not null,
  voided boolean check (voided),
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, order_entry_id) references work_order (operator_id, id),
  foreign key (operator_id, requirement_id) references requirement,
  check ((corrects is null) = (entry_id = id)),
  check (voided is null or corrects is not null),
  check (independent or area not in ('flight-controls', 'engine-controls')),
  check ((requirement_id is not null) = (origin = 'requirement')),
  check ((parent_line is not null) = (origin = 'task')),
  check ((defect_entry_id is not null) = (origin = 'defect')),
  check ((from_line is not null) = (origin in ('finding', 'put-off'))),
  check ((from_release is not null and from_ordinal is not null) = (origin = 'discrepancy'))
);
call as_filed('work_line');
alter table work_line
  add foreign key (operator_id, parent_line) references work_line (operator_id, id),
  add foreign key (operator_id, from_line) references work_line (operator_id, id);
create unique index work_line_ordinal on work_line (operator_id, order_entry_id, ordinal)
  where corrects is null;
create index work_line_of_order on work_line (operator_id, order_entry_id);
create index work_line_entry on work_line (operator_id, entry_id);
create index work_line_of_aircraft on work_line (operator_id, aircraft_id);

-- What was done about a line, signed. times: the totals of the aircraft and of what is fitted to it
-- at that moment. A correction is a row of its own, signed too; one that takes the work away opens
-- the line again, and what is signed anew names it: of two people who sign one line, one is told.
create table line_work (
  like filed_row including all,
  aircraft_id uuid not null,
  line_entry_id uuid not null,
  outcome text not null check (outcome in ('done', 'finding', 'not-applicable')),
  words text not null check (length(trim(words)) between 1 and 4000),
  data_reference text not null default '' check (length(data_reference) <= 200),
  data_revision text not null default '' check (length(data_revision) <= 60),
  times jsonb not null,
  worked_by uuid not null references person,
  worker_name text not null check (length(worker_name) between 1 and 120),
  performed_by text not null default '' check (length(performed_by) <= 120),
  licence_number text not null check (length(licence_number) between 1 and 60),
  licence_kind text not null,
  found_defect uuid,
  compliance_id uuid,
  voided boolean check (voided),
  after_voided uuid,
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, line_entry_id) references work_line (operator_id, id),
  foreign key (operator_id, compliance_id) references compliance (operator_id, id),
  check (worked_by = recorded_by),
  check (found_defect is null or outcome = 'finding'),
  check (outcome = 'not-applicable' or data_reference <> '')
);
call as_filed('line_work');
alter table line_work
  add foreign key (operator_id, after_voided) references line_work (operator_id, id),
  add unique (operator_id, id, worked_by);
create unique index worked_once on line_work (
  operator_id,
  line_entry_id,
  coalesce(after_voided, '00000000-0000-0000-0000-000000000000'::uuid)
) where corrects is null;
create index work_on_aircraft on line_work (operator_id, aircraft_id);

-- The independent inspection of one signed doing: by a person who did not do it.
create table line_inspection (
  like filed_row including all,
  aircraft_id uuid not null,
  line_work_id uuid not null,
  worked_by uuid not null,
  inspected_by uuid not null references person,
  inspector_name text not null check (length(inspector_name) between 1 and 120),
  words text not null check (length(trim(words)) between 1 and 1000),
  licence_number text not null check (length(licence_number) between 1 and 60),
  licence_kind text not null,
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, line_work_id, worked_by) references line_work (operator_id, id, worked_by),
  check (inspected_by <> worked_by),
  check (inspected_by = recorded_by),
  check (corrects is null)
);
call as_filed('line_inspection');
alter table line_inspection add unique (operator_id, line_work_id);
create index line_inspection_of_aircraft on line_inspection (operator_id, aircraft_id);

-- An open line that the release leaves open, on somebody's authority.
create table line_deferral (
  like filed_row including all,
  aircraft_id uuid not null,
  line_entry_id uuid not null,
  why text not null check (length(trim(why)) between 1 and 1000),
  authority text not null check (length(trim(authority)) between 1 and 120),
  reference text not null check (length(trim(reference)) between 1 and 200),
  last_day date not null,
  licence_number text not null check (length(licence_number) between 1 and 60),
  licence_kind text not null,
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, line_entry_id) references work_line (operator_id, id),
  check (last_day >= happened_on),
  check (corrects is null)
);
call as_filed('line_deferral');
alter table line_deferral add unique (operator_id, line_entry_id);
create index line_deferral_of_aircraft on line_deferral (operator_id, aircraft_id);

-- A part that came off, went on, or was used up, and the paper that came with it. A component of the
-- records names its fitment, and the removal that ended it.
create table part_use (
  like filed_row including all,
  aircraft_id uuid not null,
  line_entry_id uuid not null,
  movement text not null check (movement in ('off', 'on', 'used')),
  part_class text not null
    check (part_class in ('component', 'standard-part', 'material', 'owner-produced')),
  description text not null check (length(trim(description)) between 1 and 120),
  part_number text not null default '' check (length(part_number) <= 60),
  serial text not null default '' check (length(serial) <= 60),
  batch text not null default '' check (length(batch) <= 60),
  quantity numeric(12, 3) not null check (quantity > 0),
  unit text not null default '' check (length(unit) <= 20),
  evidence text not null default '' check (length(evidence) <= 200),
  place text not null default '' check (length(place) <= 120),
  component_id uuid,
  fitment_id uuid,
  removal_id uuid,
  voided boolean check (voided),
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, line_entry_id) references work_line (operator_id, id),
  foreign key (operator_id, fitment_id) references fitment (operator_id, id),
  foreign key (operator_id, removal_id) references removal (operator_id, id),
  check (voided is null or corrects is not null),
  check (removal_id is null or (movement = 'off' and fitment_id is not null)),
  check (fitment_id is null or component_id is not null),
  check (movement <> 'used' or component_id is null)
);
call as_filed('part_use');
create index part_use_of_line on part_use (operator_id, line_entry_id);
create index part_use_of_aircraft on part_use (operator_id, aircraft_id);

-- What was certified of the aircraft when its work was over: released, or not airworthy with the
-- signed and dated list of what was found (14 CFR 43.11(a)(5) and (b)). Either closes the order.
create table work_release (
  like filed_row including all,
  aircraft_id uuid not null,
  order_entry_id uuid not null,
  airworthy boolean not null,
  statement text not null check (length(trim(statement)) > 0),
  discrepancies text[] not null,
  completed_on date not null,
  check_flight text not null default '' check (length(check_flight) <= 300),
  times jsonb not null,
  remarks text not null default '' check (length(remarks) <= 1000),
  releaser_name text not null check (length(releaser_name) between 1 and 120),
  licence_number text not null check (length(licence_number) between 1 and 60),
  licence_kind text not null,
  profile_name text not null,
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, order_entry_id) references work_order (operator_id, id),
  check (airworthy = (cardinality(discrepancies) = 0)),
  check (airworthy or check_flight = ''),
  check (corrects is null)
);
call as_filed('work_release');
alter table work_release add unique (operator_id, order_entry_id);
create index work_release_of_aircraft on work_release (operator_id, aircraft_id);
alter table work_line add foreign key (operator_id, from_release)
  references work_release (operator_id, id);

-- A check flight as its pilot logged it (14 CFR 91.407(b)); until a satisfactory one, no passengers.
create table check_flight (
  like filed_row including all,
  aircraft_id uuid not null,
  release_id uuid not null,
  words text not null check (length(trim(words)) between 1 and 2000),
  satisfactory boolean not null,
  pilot_name text not null check (length(pilot_name) between 1 and 120),
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, release_id) references work_release (operator_id, id),
  check (corrects is null)
);
call as_filed('check_flight');
create unique index checked_once on check_flight (operator_id, release_id) where satisfactory;
create index check_flight_of_aircraft on check_flight (operator_id, aircraft_id);

-- An authority's permit to fly an aircraft that is held, on conditions, until its end; the day it
-- was given up before that.
create table flight_permit (
  like filed_row including all,
  aircraft_id uuid not null,
  number text not null check (length(trim(number)) between 1 and 60),
  issued_by text not null check (length(trim(issued_by)) between 1 and 120),
  conditions text not null check (length(trim(conditions)) between 1 and 1000),
  first_day date not null,
  last_day date not null,
  voided boolean check (voided),
  foreign key (operator_id, aircraft_id) references aircraft,
  check (last_day >= first_day),
  check (voided is null or corrects is not null)
);
call as_filed('flight_permit');
create index flight_permit_of_aircraft on flight_permit (operator_id, aircraft_id);

-- A rule profile may count the next interval from the release: the inspection keeps its own day, and
-- the release states from which day limits by the calendar count.
do $$
declare
  narrow text;
begin
  select conname into strict narrow from pg_constraint
    where conrelid = 'compliance'::regclass and contype = 'c'
      and pg_get_constraintdef(oid) like '%counts_from IS NULL%';
  execute format('alter table compliance drop constraint %I', narrow);
end
$$;
alter table compliance add check (counts_from is null or kind = 'baseline' or counts_from >= happened_on);
