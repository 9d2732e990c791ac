-- What a pilot signs before flight, and the lists to go by.

-- A pilot has done the pre-flight inspection. "reminded" is the list that stood on the page where
-- the aircraft had not flown since maintenance.
create table preflight_inspection (
  like filed_row including all,
  aircraft_id uuid not null,
  reminded text[] not null default '{}',
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_filed('preflight_inspection');
create index preflight_inspection_of_aircraft
  on preflight_inspection (operator_id, aircraft_id, ledger_seq desc);

-- A pilot has taken the aircraft as it stood, with this on board. One that is held is taken by
-- nobody.
create table acceptance (
  like filed_row including all,
  aircraft_id uuid not null,
  standing text not null check (standing in ('limited', 'clear')),
  fuel_on_board numeric(9, 2) not null check (fuel_on_board >= 0),
  fuel_unit text not null check (length(fuel_unit) between 1 and 40),
  oil_on_board jsonb not null default '{}',
  remarks text not null default '',
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_filed('acceptance');
create index acceptance_of_aircraft on acceptance (operator_id, aircraft_id, ledger_seq desc);

-- A list to go by, of one type or (with "") of all that have none of their own. A revision corrects
-- the row before it.
create table check_list (
  like filed_row including all,
  kind text not null check (kind in ('after-maintenance', 'walk-round')),
  type_name text not null default '' check (length(type_name) <= 120),
  lines text[] not null check (cardinality(lines) between 1 and 100)
);
call as_filed('check_list');
create unique index one_check_list_a_type on check_list (operator_id, kind, type_name)
  where corrects is null;
