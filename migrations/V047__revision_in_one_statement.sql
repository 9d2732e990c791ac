-- Which revision an aircraft has, within its operator's walls, in one statement and without a
-- transaction around it: all that a page needs to know which is kept by it.
create function revision_of(asked_operator uuid, asked_aircraft uuid) returns bigint
  language plpgsql as
$$
declare
  spoken_for text := coalesce(current_setting('trestle.operator', true), '');
  found bigint;
begin
  perform set_config('trestle.operator', asked_operator::text, true);
  select r.revision into found from aircraft_revision r where r.aircraft_id = asked_aircraft;
  perform set_config('trestle.operator', spoken_for, true);
  return found;
end
$$;
