-- A record of work may name several files: a certificate, and pictures of what was found. The first
-- stays in file_sha256, the others follow it here.
alter table compliance
  add column more_files text[],
  add check (more_files is null
    or file_sha256 is not null and cardinality(more_files) between 1 and 9);
