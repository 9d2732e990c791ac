-- Defects: what was found wrong, with its pictures; abnormal events; what was done; what came back;
-- and the safety occurrences that some of them are.

-- Numbers that an operator gives out without a gap: "No. 231". The row stays locked until the
-- commit, so a number that was not used after all is given again.
create table numbering (
  operator_id uuid not null references operator,
  series text not null check (series ~ '^[a-z][a-z-]{0,39}$'),
  last bigint not null check (last > 0),
  primary key (operator_id, series)
);
call as_walled('numbering');

-- Files that records name by their SHA-256: kept with the records, behind the same walls.
-- source_sha256 is of the file as it came, before place data were taken out of it.
create table attachment (
  operator_id uuid not null references operator,
  sha256 text not null check (sha256 ~ '^[0-9a-f]{64}$'),
  source_sha256 text not null check (source_sha256 ~ '^[0-9a-f]{64}$'),
  media_type text not null check (media_type in ('image/jpeg', 'image/png')),
  width int not null check (width > 0),
  height int not null check (height > 0),
  bytes bytea not null check (octet_length(bytes) between 1 and 20971520),
  thumbnail bytea not null check (octet_length(thumbnail) between 1 and 1048576),
  added_at timestamptz not null,
  added_by uuid not null references person,
  primary key (operator_id, sha256)
);
call as_walled('attachment');
call as_append_only('attachment');
create index attachment_of_source on attachment (operator_id, source_sha256);

-- A defect keeps its entry_id, its number and the moment it was found through every correction.
create table defect (
  like filed_row including all,
  aircraft_id uuid not null,
  entry_id uuid not null,
  number bigint not null check (number > 0),
  words text not null check (length(trim(words)) between 1 and 2000),
  chapter text not null default '' check (chapter ~ '^([0-9]{2})?$'),
  chapter_from text not null check (chapter_from in ('', 'reporter', 'words')),
  place text not null default '' check (length(place) <= 120),
  phase text not null default '' check (length(phase) <= 40),
  component_id uuid,
  judgement text not null check (judgement in ('must-not-fly', 'can-fly')),
  noticed_by text not null default '' check (length(noticed_by) <= 40),
  indication_missed boolean not null default false,
  indication_place text not null default '' check (length(indication_place) <= 120),
  flight_entry_id uuid,
  photos text[] not null default '{}',
  foreign key (operator_id, aircraft_id) references aircraft,
  check ((chapter = '') = (chapter_from = ''))
);
call as_filed('defect');
create index defect_of_aircraft on defect (operator_id, aircraft_id, happened_on);
create index defect_of_entry on defect (operator_id, entry_id);
create index defect_of_component on defect (operator_id, component_id) where component_id is not null;
create index defect_of_flight on defect (operator_id, flight_entry_id) where flight_entry_id is not null;
create unique index one_defect_a_number on defect (operator_id, number) where corrects is null;

-- What an engineer did about a defect, to which data, under which licence: it closes the defect.
-- Copied from old papers it says so, and who signed them: a transcription is not a certification.
create table rectification (
  like filed_row including all,
  aircraft_id uuid not null,
  defect_entry_id uuid not null,
  done text not null check (length(trim(done)) between 1 and 4000),
  data_reference text not null check (length(data_reference) <= 200),
  licence_number text not null check (length(licence_number) <= 60),
  licence_kind text not null,
  transcribed_from text not null default '' check (length(transcribed_from) <= 200),
  signed_by text not null default '' check (length(signed_by) <= 120),
  foreign key (operator_id, aircraft_id) references aircraft,
  check (transcribed_from <> '' or length(trim(data_reference)) > 0 and licence_number <> '')
);
call as_filed('rectification');
create index rectification_of_defect on rectification (operator_id, defect_entry_id);
-- Of two engineers who close one defect at once, one is told.
create unique index rectified_once on rectification (operator_id, defect_entry_id)
  where corrects is null;

-- A person's word that a defect is an earlier one come back, or that it is not; the newest counts.
create table defect_repeat (
  like filed_row including all,
  aircraft_id uuid not null,
  defect_entry_id uuid not null,
  earlier_entry_id uuid not null,
  same boolean not null,
  remark text not null default '' check (length(remark) <= 500),
  foreign key (operator_id, aircraft_id) references aircraft,
  check (defect_entry_id <> earlier_entry_id)
);
call as_filed('defect_repeat');
create index repeat_of_defect on defect_repeat (operator_id, defect_entry_id);
create index repeat_of_earlier on defect_repeat (operator_id, earlier_entry_id);

-- The operator's own list of abnormal events: over what is shipped, by code; the newest row counts.
create table abnormal_event_kind (
  like filed_row including all,
  code text not null check (code ~ '^[a-z0-9][a-z0-9-]{0,59}$'),
  name text not null check (length(trim(name)) between 1 and 80),
  inspection text not null check (length(trim(inspection)) between 1 and 200),
  withdrawn boolean not null default false
);
call as_filed('abnormal_event_kind');
create index event_kind_of_code on abnormal_event_kind (operator_id, code, ledger_seq desc);

-- Something happened to the aircraft; it keeps the words its kind had that day.
create table abnormal_event (
  like filed_row including all,
  aircraft_id uuid not null,
  entry_id uuid not null,
  number bigint not null check (number > 0),
  kind_code text not null,
  kind_name text not null,
  inspection text not null,
  words text not null check (length(trim(words)) between 1 and 2000),
  flight_entry_id uuid,
  photos text[] not null default '{}',
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_filed('abnormal_event');
create index event_of_aircraft on abnormal_event (operator_id, aircraft_id, happened_on);
create index event_of_entry on abnormal_event (operator_id, entry_id);
create unique index one_event_a_number on abnormal_event (operator_id, number) where corrects is null;

-- The inspection an abnormal event asks for, certified.
create table event_inspection (
  like filed_row including all,
  aircraft_id uuid not null,
  event_entry_id uuid not null,
  found text not null check (length(trim(found)) between 1 and 4000),
  data_reference text not null check (length(trim(data_reference)) between 1 and 200),
  licence_number text not null check (length(licence_number) between 1 and 60),
  licence_kind text not null,
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_filed('event_inspection');
create unique index inspected_once on event_inspection (operator_id, event_entry_id)
  where corrects is null;

-- A defect is a safety occurrence to be reported to somebody by some moment, or (not reportable) a
-- person has looked and it is none.
create table safety_occurrence (
  like filed_row including all,
  aircraft_id uuid not null,
  defect_entry_id uuid not null,
  reportable boolean not null,
  kind text not null default '' check (length(kind) <= 60),
  report_to text not null default '' check (length(report_to) <= 120),
  due_at timestamptz,
  remark text not null default '' check (length(remark) <= 1000),
  foreign key (operator_id, aircraft_id) references aircraft,
  check (not reportable or (kind <> '' and report_to <> '')),
  check (reportable or remark <> '')
);
call as_filed('safety_occurrence');
create index occurrence_of_defect on safety_occurrence (operator_id, defect_entry_id);

-- The report of an occurrence was sent.
create table occurrence_report (
  like filed_row including all,
  aircraft_id uuid not null,
  occurrence_id uuid not null,
  reference text not null default '' check (length(reference) <= 200),
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, occurrence_id) references safety_occurrence (operator_id, id)
);
call as_filed('occurrence_report');
create unique index reported_once on occurrence_report (operator_id, occurrence_id)
  where corrects is null;
