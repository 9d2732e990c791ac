-- Records that the next one of their kind used to put right: they can be taken away whole as well, so
-- that one filed of the wrong aircraft, or by mistake, counts no more and nothing must be said instead.

create procedure pg_temp.can_be_taken_away_too(filed regclass) language plpgsql as
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

call pg_temp.can_be_taken_away_too('licence');
call pg_temp.can_be_taken_away_too('equipment');
call pg_temp.can_be_taken_away_too('break_explanation');
call pg_temp.can_be_taken_away_too('stated_rate');
call pg_temp.can_be_taken_away_too('programme_adoption');
call pg_temp.can_be_taken_away_too('requirement_exclusion');
call pg_temp.can_be_taken_away_too('directive_assessment');
call pg_temp.can_be_taken_away_too('defect_triage');
call pg_temp.can_be_taken_away_too('defect_repeat');
call pg_temp.can_be_taken_away_too('reading_limit');
call pg_temp.can_be_taken_away_too('pilot_work_rule');

drop procedure pg_temp.can_be_taken_away_too;
