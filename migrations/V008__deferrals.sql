-- What persons decide about an open defect: triage, and putting it off with a limit.

-- An engineer has looked: it must be put right before the next flight, or it does not hinder flight.
-- The newest word counts.
create table defect_triage (
  like filed_row including all,
  aircraft_id uuid not null,
  defect_entry_id uuid not null,
  outcome text not null check (outcome in ('holds', 'flies')),
  remark text not null check (length(trim(remark)) between 1 and 1000),
  licence_number text not null check (length(licence_number) between 1 and 60),
  licence_kind text not null,
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_filed('defect_triage');
create index triage_of_defect on defect_triage (operator_id, defect_entry_id);

-- A defect may be flown with, until. By an item of a minimum equipment list with its category, or
-- without a list until the next required inspection. Days count in the time base that was the
-- operator's then; last_day is the last of them, discovery left out. A category A counted in use has
-- unit and amount (seconds for hours).
create table deferral (
  like filed_row including all,
  aircraft_id uuid not null,
  defect_entry_id uuid not null,
  route text not null check (route in ('minimum-equipment-list', 'no-list')),
  list_reference text not null default '' check (length(list_reference) <= 120),
  item text not null default '' check (length(item) <= 60),
  category text not null default '' check (category in ('', 'A', 'B', 'C', 'D')),
  unit text not null default ''
    check (unit in ('', 'days', 'flight-days', 'flights', 'hours', 'landings', 'cycles')),
  amount bigint check (amount > 0),
  discovered_on date not null,
  in_utc boolean not null,
  last_day date,
  with_requirement_id uuid,
  with_component_id uuid,
  made_safe text not null default '' check (made_safe in ('', 'deactivated', 'removed')),
  not_required text not null default '' check (length(not_required) <= 300),
  no_hazard text not null default '' check (length(no_hazard) <= 300),
  no_hazard_by text not null default '' check (length(no_hazard_by) <= 120),
  limitation text not null default '' check (length(limitation) <= 300),
  forbids text not null default '' check (length(forbids) <= 60),
  placard text not null default '' check (length(placard) <= 200),
  placard_place text not null default '' check (length(placard_place) <= 120),
  maintenance_procedure text not null default '' check (length(maintenance_procedure) <= 200),
  operations_procedure text not null default '' check (length(operations_procedure) <= 200),
  role text not null check (role in ('engineer', 'pilot')),
  licence_number text not null default '',
  licence_kind text not null default '',
  profile_name text not null,
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, with_requirement_id) references requirement,
  check (role <> 'engineer' or licence_number <> ''),
  check (forbids = '' or limitation <> ''),
  check (placard = '' or placard_place <> ''),
  check (route <> 'minimum-equipment-list'
    or (item <> '' and list_reference <> '' and category <> '' and with_requirement_id is null)),
  check (route <> 'no-list' or (category = '' and with_requirement_id is not null and made_safe <> ''
    and placard <> '' and not_required <> '' and no_hazard <> '' and no_hazard_by <> '')),
  check ((category = 'A') = (unit <> '' and amount is not null)),
  check ((last_day is not null) = (category in ('B', 'C', 'D') or unit = 'days')),
  check (last_day > discovered_on)
);
call as_filed('deferral');
create index deferral_of_aircraft on deferral (operator_id, aircraft_id);
create index deferral_of_defect on deferral (operator_id, defect_entry_id);
-- Of two people who defer one defect at once, one is told.
create unique index deferred_once on deferral (operator_id, defect_entry_id) where corrects is null;

-- A deferral put off once more; the fields of an extension record.
create table deferral_extension (
  like filed_row including all,
  aircraft_id uuid not null,
  defect_entry_id uuid not null,
  deferral_id uuid not null,
  last_day date not null,
  new_last_day date not null,
  unserviceable_at text not null check (length(trim(unserviceable_at)) between 1 and 120),
  why text not null check (length(trim(why)) between 1 and 1000),
  part_number text not null default '' check (length(part_number) <= 60),
  ordered_on date,
  delivery_on date,
  approved_by text not null check (length(trim(approved_by)) between 1 and 120),
  reference text not null check (length(trim(reference)) between 1 and 200),
  authority_told_on date,
  profile_name text not null,
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, deferral_id) references deferral (operator_id, id),
  check (new_last_day > last_day)
);
call as_filed('deferral_extension');
create index extension_of_deferral on deferral_extension (operator_id, deferral_id);
create unique index extended_once on deferral_extension (operator_id, deferral_id, last_day)
  where corrects is null;
