-- Which rules an operator goes by, and an aircraft where it differs: each row says all of it, the
-- newest counts, none is changed. "ended": the aircraft goes by its operator's again.

create table rule_profile_revision (
  like filed_row including all,
  aircraft_id uuid,
  revises uuid,
  started_from text not null check (started_from ~ '^[a-z][a-z0-9-]{0,39}$'),
  says jsonb not null,
  document text not null default '' check (length(document) <= 200),
  approved_by text not null check (length(trim(approved_by)) between 1 and 120),
  ended boolean not null default false,
  foreign key (operator_id, aircraft_id) references aircraft,
  check (length(trim(reason)) > 0),
  check (not ended or (aircraft_id is not null and revises is not null))
);
call as_filed('rule_profile_revision');
alter table rule_profile_revision
  add foreign key (operator_id, revises) references rule_profile_revision (operator_id, id);
-- Of two people who revise the same one, or choose the first one, at once, one is told.
create unique index rule_profile_revised_once
  on rule_profile_revision (operator_id, aircraft_id, revises) nulls not distinct;
