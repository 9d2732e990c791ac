-- A rule profile lists in words what pilots may do: a task is one of these, no longer a code. Rows
-- that have a code keep it.
do $$
declare
  short text;
begin
  select conname into strict short from pg_constraint where conrelid = 'pilot_work'::regclass
    and contype = 'c' and pg_get_constraintdef(oid) like '%length(task)%';
  execute format('alter table pilot_work drop constraint %I', short);
end
$$;
alter table pilot_work add check (length(trim(task)) between 1 and 120);
