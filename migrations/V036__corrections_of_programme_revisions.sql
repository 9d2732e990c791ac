-- What a programme's revision should have said: the row names the revision as it was issued, which
-- requirements and adoptions go on to refer to. Null in a row that issues one.
alter table programme_revision
  add entry_id uuid,
  add foreign key (operator_id, entry_id) references programme_revision (operator_id, id),
  add check ((entry_id is null) = (corrects is null));
create index programme_revision_of_entry on programme_revision (operator_id, entry_id)
  where entry_id is not null;
