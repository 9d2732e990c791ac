-- Records about defects that are taken away again, and deferrals copied from old papers. The new
-- columns are null where nothing of the kind is said: a line that the ledger has keeps its hash.

-- A row that takes away what it corrects; what is filed anew afterwards names that row, so that of
-- two people who do so at once one is told.
alter table rectification
  add voided boolean check (voided),
  add after_voided uuid,
  add foreign key (operator_id, after_voided) references rectification (operator_id, id);
drop index rectified_once;
create unique index rectified_once on rectification (
  operator_id,
  defect_entry_id,
  coalesce(after_voided, '00000000-0000-0000-0000-000000000000'::uuid)
) where corrects is null;

alter table event_inspection
  add voided boolean check (voided),
  add after_voided uuid,
  add foreign key (operator_id, after_voided) references event_inspection (operator_id, id);
drop index inspected_once;
create unique index inspected_once on event_inspection (
  operator_id,
  event_entry_id,
  coalesce(after_voided, '00000000-0000-0000-0000-000000000000'::uuid)
) where corrects is null;

alter table abnormal_event add voided boolean check (voided);

-- Which paper it was copied from, and who signed that: a transcription is not a certification.
alter table deferral
  add transcribed_from text check (length(trim(transcribed_from)) between 1 and 200),
  add signed_by text check (length(signed_by) <= 120);
