-- Records that came from another operator. What is filed anew from them are rows of their own kinds;
-- here stands where it came from, as it came.

-- One pack that was taken in. The head is the other operator's, signed with a key that came in the
-- pack: whose key that is, no row here can tell.
create table taken_pack (
  like filed_row including all,
  aircraft_id uuid,
  component_id uuid,
  subject text not null check (length(subject) between 1 and 300),
  from_operator uuid not null,
  from_name text not null check (length(from_name) between 1 and 120),
  format_version int not null check (format_version > 0),
  file_sha256 text not null check (file_sha256 ~ '^[0-9a-f]{64}$'),
  manifest_sha256 text not null check (manifest_sha256 ~ '^[0-9a-f]{64}$'),
  head text not null check (length(head) between 1 and 1000),
  lines int not null check (lines > 0),
  filed int not null check (filed >= 0),
  foreign key (operator_id, aircraft_id) references aircraft,
  check (num_nonnulls(aircraft_id, component_id) = 1),
  check (corrects is null)
);
call as_filed('taken_pack');
alter table taken_pack add unique (operator_id, manifest_sha256);
create index taken_pack_of_aircraft on taken_pack (operator_id, aircraft_id);

-- Each line as the other operator's ledger has it, with the way from its leaf to the root of the
-- pack's head (32 bytes a hash): so a change of any shows. people are names here, not members.
create table taken_record (
  operator_id uuid not null references operator,
  pack_id uuid not null,
  seq bigint not null check (seq > 0),
  kind text not null check (length(kind) between 1 and 60),
  record_id uuid not null,
  recorded_at timestamptz not null,
  recorded_by text not null check (length(recorded_by) between 1 and 120),
  json text not null,
  leaf bytea not null check (length(leaf) = 32),
  path bytea not null check (length(path) % 32 = 0),
  filed boolean not null,
  primary key (operator_id, pack_id, seq),
  foreign key (operator_id, pack_id) references taken_pack (operator_id, id)
);
call as_walled('taken_record');
call as_append_only('taken_record');
create index taken_record_of_record on taken_record (operator_id, record_id);

-- Packs between their upload and the decision to take them in, in pieces. Not filed: removed when
-- they are taken in, set aside or forgotten.
create table pack_upload (
  operator_id uuid not null references operator,
  id uuid not null,
  uploaded_at timestamptz not null,
  uploaded_by uuid not null references person,
  bytes bigint not null check (bytes > 0),
  sha256 text not null check (sha256 ~ '^[0-9a-f]{64}$'),
  primary key (operator_id, id)
);
call as_walled('pack_upload');

create table pack_upload_piece (
  operator_id uuid not null,
  upload_id uuid not null,
  ordinal int not null check (ordinal >= 0),
  bytes bytea not null check (octet_length(bytes) between 1 and 1048576),
  primary key (operator_id, upload_id, ordinal),
  foreign key (operator_id, upload_id) references pack_upload (operator_id, id) on delete cascade
);
call as_walled('pack_upload_piece');
