-- What the planner knows of flights is from before many were filed at once, as by an operator who
-- is new here: until PostgreSQL looks again by itself, it reads them all for each. Only the owner of
-- a table may have it looked at, hence the function; it gives nothing away and changes no row.
-- It names no schema: a restore moves it to another.
create function measure_flights() returns void
  language plpgsql security definer set search_path = pg_catalog as
$$
declare
  flights regclass;
begin
  for flights in
    select c.oid from pg_class c
    where c.relname = 'flight' and c.relkind = 'r' and c.relowner = current_user::regrole
  loop
    execute format('analyze %s', flights);
  end loop;
end
$$;
revoke execute on function measure_flights() from public;
grant execute on function measure_flights() to "${appUser}";
