-- Airworthiness directives and service bulletins, whom they are about, and what was judged.

-- The texts themselves, as files that rows name by their SHA-256: behind the same walls.
create table directive_file (
  operator_id uuid not null references operator,
  sha256 text not null check (sha256 ~ '^[0-9a-f]{64}$'),
  name text not null check (length(name) between 1 and 80),
  bytes bytea not null check (octet_length(bytes) between 1 and 10485760),
  added_at timestamptz not null,
  added_by uuid not null references person,
  primary key (operator_id, sha256)
);
call as_walled('directive_file');
call as_append_only('directive_file');

-- A directive or bulletin, known by the id of its first row; the newest row counts, from the day it
-- takes effect (happened_on). supersedes names those that it takes the place of.
create table directive (
  like filed_row including all,
  directive_id uuid not null,
  revises uuid,
  issuer text not null check (length(trim(issuer)) between 1 and 80),
  number text not null check (length(trim(number)) between 1 and 60),
  kind text not null check (kind in ('directive', 'bulletin')),
  mandatory boolean not null,
  revision text not null default '' check (length(revision) <= 40),
  effective_on date not null,
  title text not null check (length(trim(title)) between 1 and 120),
  text_reference text not null default '' check (length(text_reference) <= 300),
  file_sha256 text,
  supersedes uuid[] not null default '{}',
  withdrawn boolean not null default false,
  foreign key (operator_id, file_sha256) references directive_file
);
call as_filed('directive');
alter table directive add unique (operator_id, revises),
  add foreign key (operator_id, directive_id) references directive (operator_id, id),
  add foreign key (operator_id, revises) references directive (operator_id, id);
create index directive_of_entry on directive (operator_id, directive_id, ledger_seq desc);

-- One paragraph: whom it is about and what is to be done by when. needs_modification: about those
-- only that have (or, absent, have not) this modification; a person judges it.
create table directive_paragraph (
  like filed_row including all,
  paragraph_id uuid not null,
  directive_id uuid not null,
  revises uuid,
  label text not null check (length(label) <= 20),
  title text not null check (length(trim(title)) between 1 and 90),
  about text not null check (about in ('aircraft', 'component')),
  names text[] not null check (cardinality(names) between 1 and 100),
  serials text not null check (length(serials) between 1 and 8000),
  modification text not null default '' check (length(modification) <= 120),
  modification_present boolean not null default true,
  rule jsonb not null,
  forbids text not null default 'any flight' check (length(forbids) between 1 and 60),
  tolerance_source text not null default '',
  tolerance_condition text not null default '',
  terminates uuid[] not null default '{}',
  optional boolean not null default false,
  withdrawn boolean not null default false,
  foreign key (operator_id, directive_id) references directive (operator_id, id)
);
call as_filed('directive_paragraph');
alter table directive_paragraph add unique (operator_id, revises),
  add foreign key (operator_id, paragraph_id) references directive_paragraph (operator_id, id),
  add foreign key (operator_id, revises) references directive_paragraph (operator_id, id);
create index paragraph_of_entry on directive_paragraph (operator_id, paragraph_id, ledger_seq desc);
create index paragraph_of_directive on directive_paragraph (operator_id, directive_id);

-- What was judged of one paragraph for one aircraft or component, as both were that day. For a
-- component, aircraft_id is what it was fitted to; rests_on says whether the judgement follows it.
create table directive_assessment (
  like filed_row including all,
  paragraph_id uuid not null,
  paragraph_row uuid not null,
  revision text not null,
  effective_on date not null,
  aircraft_id uuid,
  component_id uuid,
  subject_name text not null,
  subject_serial text not null,
  rests_on text not null check (rests_on in ('part', 'installation')),
  verdict text not null check (verdict in ('applies', 'does-not', 'waived')),
  why text not null default '' check (length(why) <= 500),
  last_day date,
  requirement_id uuid,
  foreign key (operator_id, paragraph_id) references directive_paragraph (operator_id, id),
  foreign key (operator_id, paragraph_row) references directive_paragraph (operator_id, id),
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, requirement_id) references requirement,
  check (aircraft_id is not null or component_id is not null),
  check (verdict = 'applies' or length(trim(why)) > 0),
  check ((last_day is not null) = (verdict = 'waived')),
  check (requirement_id is null or verdict = 'applies')
);
call as_filed('directive_assessment');
create index assessment_of_paragraph on directive_assessment (operator_id, paragraph_id);
create index assessment_of_aircraft on directive_assessment (operator_id, aircraft_id);
create index assessment_of_component on directive_assessment (operator_id, component_id);
create index assessment_of_requirement on directive_assessment (operator_id, requirement_id)
  where requirement_id is not null;

-- Another way of complying, as approved by whoever may; for one aircraft, or for all.
create table alternative_method (
  like filed_row including all,
  directive_id uuid not null,
  aircraft_id uuid,
  words text not null check (length(trim(words)) between 1 and 500),
  approved_by text not null check (length(trim(approved_by)) between 1 and 120),
  reference text not null check (length(trim(reference)) between 1 and 120),
  foreign key (operator_id, directive_id) references directive (operator_id, id),
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_filed('alternative_method');
create index method_of_directive on alternative_method (operator_id, directive_id);

-- Which source was looked through for new directives, up to which day of publication, when next.
create table directive_search (
  like filed_row including all,
  source text not null check (length(trim(source)) between 1 and 120),
  searched_through date not null,
  next_on date,
  remark text not null default '' check (length(remark) <= 500)
);
call as_filed('directive_search');

-- Part numbers as two people write them: letters and digits alone.
create index component_by_part on component
  (operator_id, (regexp_replace(upper(part_number), '[^A-Z0-9]', '', 'g')));
