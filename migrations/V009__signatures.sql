-- A signature: who signed which statement over what content, under which licence, and when.

-- "signed" is the canonical JSON (RFC 8785) of the statement and the content as they were shown,
-- "sha256" its hash: the database keeps the two in agreement. A record may be signed by several
-- persons in turn (work done, then an independent inspection): the ordinal tells which is which.
create table signature (
  like filed_row including all,
  aircraft_id uuid,
  signs_kind text not null check (signs_kind ~ '^[a-z][a-z0-9-]{0,39}$'),
  signs_record uuid not null,
  ordinal int not null default 1 check (ordinal between 1 and 99),
  person_id uuid not null references person,
  person_name text not null check (length(person_name) between 1 and 120),
  role text not null check (role in ('owner', 'controller', 'pilot', 'engineer')),
  licence_number text not null default '',
  licence_kind text not null default '',
  statement text not null check (length(trim(statement)) between 1 and 4000),
  signed text not null,
  sha256 text not null,
  foreign key (operator_id, aircraft_id) references aircraft,
  check ((licence_number = '') = (licence_kind = '')),
  check (recorded_by = person_id),
  check (corrects is null),
  check (sha256 = encode(sha256(convert_to(signed, 'UTF8')), 'hex'))
);
call as_filed('signature');
alter table signature add unique (operator_id, signs_record, ordinal);
