-- A programme is issued in revisions. What is filed of its requirements after one was issued belongs
-- to that one, and binds an aircraft once that takes the revision up.

create table programme_revision (
  like filed_row including all,
  programme_id uuid not null,
  number text not null check (length(trim(number)) between 1 and 40),
  approved_by text not null check (length(trim(approved_by)) between 1 and 120),
  reference text not null default '' check (length(reference) <= 300),
  foreign key (operator_id, programme_id) references programme (operator_id, id)
);
call as_filed('programme_revision');
create index revision_of_programme on programme_revision (operator_id, programme_id, ledger_seq);

alter table requirement_revision
  add column programme_revision uuid,
  add foreign key (operator_id, programme_revision) references programme_revision (operator_id, id);

alter table programme_adoption
  add column programme_revision uuid,
  add foreign key (operator_id, programme_revision) references programme_revision (operator_id, id);

-- Where a component's own meter was replaced: the reading is the old one's last, and this is what
-- the new one showed then.
alter table component_meter_reading add column replaced_by bigint check (replaced_by >= 0);
