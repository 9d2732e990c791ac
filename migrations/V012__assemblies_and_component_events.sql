-- Parts that travel with a larger part, what is stated of a part number, what happens to a component
-- besides fitting, and a component's own meter.

alter table component add column owner text check (length(owner) between 1 and 120);

-- A component is fitted to a position of an aircraft, or to a place in another component.
alter table fitment
  alter column aircraft_id drop not null,
  alter column position_code drop not null,
  add column assembly_id uuid,
  add column place text check (length(place) between 1 and 60),
  add check (num_nonnulls(aircraft_id, position_code) = 2 and num_nonnulls(assembly_id, place) = 0
    or num_nonnulls(aircraft_id, position_code) = 0 and num_nonnulls(assembly_id, place) = 2),
  add check (assembly_id is distinct from component_id);
create index fitment_of_assembly on fitment (operator_id, assembly_id);

-- What the fitments and removals that stand amount to, kept by triggers and never written by hand.
create table fitted_span (
  operator_id uuid not null references operator,
  fitment_id uuid not null,
  component_id uuid not null,
  holder_id uuid not null,
  place text not null,
  in_component boolean not null,
  during tstzrange not null,
  primary key (operator_id, fitment_id)
);
call as_walled('fitted_span');
create index fitted_span_of_component on fitted_span (operator_id, component_id);
create index fitted_span_in_holder on fitted_span (operator_id, holder_id);

-- Reckons the span of the fitment that a row is a correction of, or is.
create function keep_fitted_span(operator uuid, fitment_row uuid) returns void language plpgsql as
$$
declare
  first_id uuid;
  stands fitment;
  gone timestamptz;
begin
  with recursive back as (
    select id, corrects from fitment where operator_id = operator and id = fitment_row
    union all
    select f.id, f.corrects from fitment f join back on f.id = back.corrects
      where f.operator_id = operator)
  select id into first_id from back where corrects is null;
  with recursive chain as (
    select f.* from fitment f where f.operator_id = operator and f.id = first_id
    union all
    select f.* from fitment f join chain on f.corrects = chain.id where f.operator_id = operator)
  select * into stands from chain order by ledger_seq desc limit 1;
  if stands.void then
    delete from fitted_span where operator_id = operator and fitment_id = first_id;
    return;
  end if;
  with recursive chain as (
    select id from fitment where operator_id = operator and id = first_id
    union all
    select f.id from fitment f join chain on f.corrects = chain.id where f.operator_id = operator)
  select r.happened_at into gone from removal r
    where r.operator_id = operator and r.fitment_id in (select id from chain) and not r.void
      and not exists (select 1 from removal n where n.operator_id = operator and n.corrects = r.id)
    order by r.ledger_seq desc limit 1;
  insert into fitted_span
    values (operator, first_id, stands.component_id,
      coalesce(stands.aircraft_id, stands.assembly_id),
      coalesce(stands.position_code, stands.place),
      stands.assembly_id is not null,
      tstzrange(stands.happened_at, gone, '[)'))
    on conflict (operator_id, fitment_id) do update
      set during = excluded.during, holder_id = excluded.holder_id, place = excluded.place,
        in_component = excluded.in_component, component_id = excluded.component_id;
end
$$;

-- The usual row is no correction, and names no corrected one: then there is no chain to follow.
create function fitment_filed() returns trigger language plpgsql as
$$
begin
  if new.corrects is null then
    insert into fitted_span
      values (new.operator_id, new.id, new.component_id,
        coalesce(new.aircraft_id, new.assembly_id), coalesce(new.position_code, new.place),
        new.assembly_id is not null, tstzrange(new.happened_at, null, '[)'));
  else
    perform keep_fitted_span(new.operator_id, new.id);
  end if;
  return null;
end
$$;

create function removal_filed() returns trigger language plpgsql as
$$
begin
  if new.corrects is null and exists (select 1 from fitment f
      where f.operator_id = new.operator_id and f.id = new.fitment_id and f.corrects is null) then
    update fitted_span set during = tstzrange(lower(during), new.happened_at, '[)')
      where operator_id = new.operator_id and fitment_id = new.fitment_id;
  else
    perform keep_fitted_span(new.operator_id, new.fitment_id);
  end if;
  return null;
end
$$;

create trigger keep_fitted_span after insert on fitment
  for each row execute function fitment_filed();
create trigger keep_fitted_span after insert on removal
  for each row execute function removal_filed();

-- A component is at one place at a time, a place holds one component at a time, and no component
-- sits in itself, through however many others. Looked at when a transaction commits, so that a swap
-- may file its rows in any order; one transaction of an operator after the other, so that each sees
-- what the one before it left. (Exclusion constraints would need an extension to compare ids.) The
-- way up from a part is taken step by step, since a database without statistics would read the whole
-- table each time; and only what holds another part can close a circle.
create function keep_places_apart() returns trigger language plpgsql as
$$
declare
  stands fitted_span;
begin
  perform pg_advisory_xact_lock(hashtextextended('places of ' || new.operator_id, 0));
  select * into stands from fitted_span s
    where s.operator_id = new.operator_id and s.fitment_id = new.fitment_id;
  if not found then
    return null;
  end if;
  if exists (select 1 from fitted_span s
      where s.operator_id = stands.operator_id and s.component_id = stands.component_id
        and s.fitment_id <> stands.fitment_id and s.during && stands.during) then
    raise exception 'A component is at one place at a time: fitment % overlaps another of it.',
      stands.fitment_id using errcode = 'exclusion_violation';
  end if;
  if exists (select 1 from fitted_span s
      where s.operator_id = stands.operator_id and s.holder_id = stands.holder_id
        and lower(s.place) = lower(stands.place)
        and s.fitment_id <> stands.fitment_id and s.during && stands.during) then
    raise exception 'A place holds one component at a time: fitment % overlaps another there.',
      stands.fitment_id using errcode = 'exclusion_violation';
  end if;
  if stands.in_component and exists (select 1 from fitted_span s
      where s.operator_id = stands.operator_id and s.holder_id = stands.component_id)
    and exists (
      with recursive holders (id, during) as (
        select stands.holder_id, stands.during
        union
        select up.holder_id, up.during from holders h cross join lateral (
          select s.holder_id, s.during * h.during as during from fitted_span s
            where s.operator_id = stands.operator_id and s.component_id = h.id
              and s.in_component and s.during && h.during offset 0) up)
      select 1 from holders where id = stands.component_id) then
    raise exception 'A component can''t sit in itself: fitment % closes a circle.',
      stands.fitment_id using errcode = 'integrity_constraint_violation';
  end if;
  return null;
end
$$;

create constraint trigger keep_places_apart after insert or update on fitted_span
  deferrable initially deferred for each row execute function keep_places_apart();

do $$
declare
  one uuid;
begin
  perform set_config('trestle.installation', 'on', true);
  for one in select id from operator loop
    perform set_config('trestle.operator', one::text, true);
    perform keep_fitted_span(operator_id, id) from fitment where corrects is null;
  end loop;
  perform set_config('trestle.operator', '', true);
  perform set_config('trestle.installation', '', true);
end
$$;

-- What is stated of a part number; the newest row of a part counts. Where it fits: these aircraft
-- types (or part numbers of assemblies), in these positions or places; none named: any of its kind.
create table part_sheet (
  like filed_row including all,
  part_id uuid not null,
  revises uuid,
  part_number text not null check (length(part_number) between 1 and 60),
  description text not null check (length(description) between 1 and 120),
  kind text not null check (kind in ('engine', 'propeller', 'other')),
  part_class text not null check (part_class in ('component', 'standard-part', 'material')),
  fits_types text[] not null default '{}',
  fits_positions text[] not null default '{}',
  fits_why text not null default '',
  life_limited boolean not null default false,
  data_reference text not null default ''
);
call as_filed('part_sheet');
alter table part_sheet add unique (operator_id, revises);
create index part_sheet_of_number on part_sheet (operator_id, lower(part_number));
create index part_sheet_of_part on part_sheet (operator_id, part_id, ledger_seq desc);

-- What happened to a component besides fitting, removal and overhaul; restarts: a rebuild after
-- which its time since new begins again, by the rebuilder's statement.
create table component_event (
  like filed_row including all,
  component_id uuid not null,
  kind text not null check (kind in ('sent-out', 'returned', 'repaired', 'inspected', 'rebuilt',
    'unserviceable', 'serviceable', 'retired')),
  whom text not null default '',
  why text not null default '',
  reference text not null default '',
  restarts boolean not null default false,
  void boolean not null default false,
  check (not void or corrects is not null),
  check (not restarts or kind = 'rebuilt')
);
call as_filed('component_event');
create index event_of_component on component_event (operator_id, component_id);

-- What a component's own meter showed; its use between readings is estimated.
create table component_meter_reading (
  like filed_row including all,
  component_id uuid not null,
  counter text not null check (counter ~ '^[a-z][a-z0-9-]{0,39}$'),
  reading bigint not null check (reading >= 0),
  void boolean not null default false,
  check (not void or corrects is not null)
);
call as_filed('component_meter_reading');
create index reading_of_component on component_meter_reading (operator_id, component_id, happened_at);
