-- What must be done, how often, and when it was done.

create table programme (
  like filed_row including all,
  name text not null check (length(name) between 1 and 120),
  type_name text not null default '',
  source_reference text not null default ''
);
call as_filed('programme');

-- Which programme an aircraft follows, from when; the newest row counts.
create table programme_adoption (
  like filed_row including all,
  aircraft_id uuid not null,
  programme_id uuid not null,
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, programme_id) references programme (operator_id, id)
);
call as_filed('programme_adoption');
create index adoption_of_aircraft on programme_adoption (operator_id, aircraft_id, ledger_seq desc);

-- A requirement of a type's programme, of one aircraft, or of one component; what it says is in its
-- revisions. A limit "with" another requirement stands in the rule itself.
create table requirement (
  operator_id uuid not null references operator,
  id uuid not null,
  programme_id uuid,
  aircraft_id uuid,
  component_id uuid,
  subject text not null check (subject in ('aircraft', 'engine', 'propeller', 'component')),
  primary key (operator_id, id),
  foreign key (operator_id, programme_id) references programme (operator_id, id),
  foreign key (operator_id, aircraft_id) references aircraft,
  check (num_nonnulls(programme_id, aircraft_id, component_id) = 1),
  check ((component_id is not null) = (subject = 'component'))
);
call as_walled('requirement');
call as_append_only('requirement');
create index requirement_of_programme on requirement (operator_id, programme_id);
create index requirement_of_aircraft on requirement (operator_id, aircraft_id);
create index requirement_of_component on requirement (operator_id, component_id);

-- effective_on is the origin "effective"; tolerance_source the text of a directive or limitation that
-- itself gives the tolerance.
create table requirement_revision (
  like filed_row including all,
  requirement_id uuid not null,
  revises uuid,
  title text not null check (length(title) between 1 and 120),
  kind text not null check (kind in
    ('inspection', 'service', 'lubrication', 'overhaul', 'life-limit', 'limitation', 'document',
      'directive', 'other')),
  rule jsonb not null,
  effective_on date not null,
  force text not null check (force in ('mandatory', 'recommended')),
  forbids text not null default 'any flight' check (length(forbids) between 1 and 60),
  covers uuid[] not null default '{}',
  tolerance_condition text not null default '',
  tolerance_source text not null default '',
  source_reference text not null default '',
  labour_minutes int check (labour_minutes between 0 and 1000000),
  downtime_hours int check (downtime_hours between 0 and 100000),
  approved_by text not null default '',
  withdrawn boolean not null default false,
  foreign key (operator_id, requirement_id) references requirement
);
call as_filed('requirement_revision');
alter table requirement_revision add unique (operator_id, revises);
create index revision_of_requirement on requirement_revision (operator_id, requirement_id, ledger_seq desc);

-- A programme's requirement that one registration does not carry, and why.
create table requirement_exclusion (
  like filed_row including all,
  requirement_id uuid not null,
  aircraft_id uuid not null,
  ended boolean not null default false,
  approved_by text not null default '',
  foreign key (operator_id, requirement_id) references requirement,
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_filed('requirement_exclusion');
create index exclusion_of_aircraft on requirement_exclusion (operator_id, aircraft_id);

-- The work was done (or, as a baseline, where counting starts). Readings are what the signer wrote;
-- counts_from is a baseline's date for the limits by the calendar, where it is not the day it was
-- stated.
create table compliance (
  like filed_row including all,
  requirement_id uuid not null,
  aircraft_id uuid,
  component_id uuid,
  kind text not null check (kind in ('done', 'baseline')),
  readings jsonb not null default '{}',
  work_reference text not null default '',
  certified_by text not null default '',
  licence_number text not null default '',
  transcribed_from text not null default '',
  complete boolean not null default true,
  counts_from date,
  remarks text not null default '',
  void boolean not null default false,
  foreign key (operator_id, requirement_id) references requirement,
  foreign key (operator_id, aircraft_id) references aircraft,
  check (aircraft_id is not null or component_id is not null),
  check (counts_from is null or kind = 'baseline'),
  check (not void or corrects is not null)
);
call as_filed('compliance');
create index compliance_of_requirement on compliance (operator_id, requirement_id);
create index compliance_of_aircraft on compliance (operator_id, aircraft_id);
create index compliance_of_component on compliance (operator_id, component_id);

-- One occurrence of one limit (the one that was due next at the moment it was granted), put off by
-- someone entitled to; allowed_by is the text of a directive or limitation that itself allows it.
create table granted_extension (
  like filed_row including all,
  requirement_id uuid not null,
  aircraft_id uuid,
  component_id uuid,
  limit_path text not null,
  due_at bigint,
  due_on date,
  new_due_at bigint,
  new_due_on date,
  approved_by text not null check (length(trim(approved_by)) > 0),
  reference text not null check (length(trim(reference)) > 0),
  allowed_by text not null default '',
  void boolean not null default false,
  foreign key (operator_id, requirement_id) references requirement,
  check (num_nonnulls(new_due_at, new_due_on) = 1),
  check (aircraft_id is not null or component_id is not null),
  check (not void or corrects is not null)
);
call as_filed('granted_extension');
create index extension_of_requirement on granted_extension (operator_id, requirement_id);
