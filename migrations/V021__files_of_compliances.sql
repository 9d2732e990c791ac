-- The paper itself with the record that names it: a certificate, a policy, a release.

create table compliance_file (
  operator_id uuid not null references operator,
  sha256 text not null check (sha256 ~ '^[0-9a-f]{64}$'),
  name text not null check (length(name) between 1 and 80),
  media_type text not null check (media_type in ('application/pdf', 'image/jpeg', 'image/png')),
  bytes bytea not null check (octet_length(bytes) between 1 and 10485760),
  added_at timestamptz not null,
  added_by uuid not null references person,
  primary key (operator_id, sha256)
);
call as_walled('compliance_file');
call as_append_only('compliance_file');

alter table compliance
  add column file_sha256 text,
  add foreign key (operator_id, file_sha256) references compliance_file;
