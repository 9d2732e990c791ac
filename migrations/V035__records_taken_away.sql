-- Records that were filed by mistake and are taken away whole, with nothing in their place. The new
-- columns are null where nothing of the kind is said: a line that the ledger has keeps its hash.

create procedure pg_temp.can_be_taken_away(filed regclass) language plpgsql as
$$
declare
  never text;
begin
  execute format('alter table %s add voided boolean check (voided),'
    || ' add check (voided is null or corrects is not null)', filed);
  for never in select conname from pg_constraint where conrelid = filed and contype = 'c'
      and pg_get_constraintdef(oid) = 'CHECK ((corrects IS NULL))' loop
    execute format('alter table %s drop constraint %I', filed, never);
  end loop;
end
$$;

call pg_temp.can_be_taken_away('alternative_method');
call pg_temp.can_be_taken_away('directive_search');
call pg_temp.can_be_taken_away('deferral_extension');
call pg_temp.can_be_taken_away('safety_occurrence');
call pg_temp.can_be_taken_away('occurrence_report');
call pg_temp.can_be_taken_away('line_inspection');
call pg_temp.can_be_taken_away('line_deferral');
call pg_temp.can_be_taken_away('check_flight');
call pg_temp.can_be_taken_away('pilot_work');
call pg_temp.can_be_taken_away('preflight_inspection');
call pg_temp.can_be_taken_away('acceptance');

-- What is filed anew after one was taken away names the row that took it away, so that of two people
-- who do so at once one is told.
alter table occurrence_report add after_voided uuid,
  add foreign key (operator_id, after_voided) references occurrence_report (operator_id, id);
drop index reported_once;
create unique index reported_once on occurrence_report (
  operator_id, occurrence_id, coalesce(after_voided, '00000000-0000-0000-0000-000000000000'::uuid)
) where corrects is null;

alter table deferral_extension add after_voided uuid,
  add foreign key (operator_id, after_voided) references deferral_extension (operator_id, id);
drop index extended_once;
create unique index extended_once on deferral_extension (
  operator_id, deferral_id, last_day,
  coalesce(after_voided, '00000000-0000-0000-0000-000000000000'::uuid)
) where corrects is null;

alter table line_inspection add after_voided uuid,
  add foreign key (operator_id, after_voided) references line_inspection (operator_id, id);
alter table line_inspection drop constraint line_inspection_operator_id_line_work_id_key;
create unique index inspected_line_once on line_inspection (
  operator_id, line_work_id, coalesce(after_voided, '00000000-0000-0000-0000-000000000000'::uuid)
) where corrects is null;

alter table line_deferral add after_voided uuid,
  add foreign key (operator_id, after_voided) references line_deferral (operator_id, id);
alter table line_deferral drop constraint line_deferral_operator_id_line_entry_id_key;
create unique index left_open_once on line_deferral (
  operator_id, line_entry_id, coalesce(after_voided, '00000000-0000-0000-0000-000000000000'::uuid)
) where corrects is null;

alter table check_flight add after_voided uuid,
  add foreign key (operator_id, after_voided) references check_flight (operator_id, id);
drop index checked_once;
create unique index checked_once on check_flight (
  operator_id, release_id, coalesce(after_voided, '00000000-0000-0000-0000-000000000000'::uuid)
) where satisfactory and corrects is null;

-- Whoever takes a second look away need not be who took it.
do $$
declare
  own text;
begin
  select conname into strict own from pg_constraint where conrelid = 'line_inspection'::regclass
    and contype = 'c' and pg_get_constraintdef(oid) = 'CHECK ((inspected_by = recorded_by))';
  execute format('alter table line_inspection drop constraint %I', own);
end
$$;
alter table line_inspection add check (inspected_by = recorded_by or voided is not null);
