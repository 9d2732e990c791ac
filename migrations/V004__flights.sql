-- The journey log, and what is reckoned from it.

-- One entry keeps its entry_id through every correction; the newest row is what counts.
create table flight (
  like filed_row including all,
  aircraft_id uuid not null,
  entry_id uuid not null,
  from_place text not null check (length(from_place) between 1 and 80),
  to_place text not null check (length(to_place) between 1 and 80),
  off_blocks_at timestamptz,
  take_off_at timestamptz not null,
  landing_at timestamptz not null,
  on_blocks_at timestamptz,
  meter_out bigint check (meter_out >= 0),
  meter_in bigint check (meter_in >= 0),
  landings int not null check (landings between 0 and 999),
  cycles int check (cycles between 0 and 999),
  other_amounts jsonb not null default '{}',
  commander text not null check (length(commander) between 1 and 120),
  fuel_added numeric(9, 2) check (fuel_added >= 0),
  fuel_left numeric(9, 2) check (fuel_left >= 0),
  oil_added jsonb not null default '{}',
  remarks text not null default '',
  void boolean not null default false,
  foreign key (operator_id, aircraft_id) references aircraft,
  check (landing_at >= take_off_at),
  check (off_blocks_at is null or off_blocks_at <= take_off_at),
  check (on_blocks_at is null or on_blocks_at >= landing_at),
  check (not void or corrects is not null)
);
call as_filed('flight');
create index flight_of_aircraft on flight (operator_id, aircraft_id, take_off_at);
create index flight_of_aircraft_by_day on flight (operator_id, aircraft_id, happened_on);
create index flight_of_entry on flight (operator_id, entry_id);

-- A person's word on a gap or a dispute: why the readings differ, and whether a gap was flown. It
-- holds for a break of this amount (seconds; null where a break has none), and for no other.
create table break_explanation (
  like filed_row including all,
  aircraft_id uuid not null,
  flight_id uuid not null,
  kind text not null check (kind in ('gap', 'overlap', 'meter-backwards', 'place')),
  amount bigint,
  flown boolean not null,
  explanation text not null check (length(trim(explanation)) > 0),
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, flight_id) references flight (operator_id, id)
);
call as_filed('break_explanation');
create index explanation_of_flight on break_explanation (operator_id, flight_id);

-- The rate a person states for the projection, where the mean of what was flown does not serve.
create table stated_rate (
  like filed_row including all,
  aircraft_id uuid not null,
  counter text not null check (counter ~ '^[a-z][a-z0-9-]{0,39}$'),
  per_day numeric(12, 4) check (per_day >= 0),
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_filed('stated_rate');
create index stated_rate_of_aircraft on stated_rate (operator_id, aircraft_id);

-- Derived and rebuildable: what the landing of each flight added to each counter. Hours are as the
-- aircraft's logbook takes them, a gap before the flight that counts as flown included; null: the
-- flight did not say. Moments are whole seconds since 1970, quick to read by the hundred thousand.
create table usage_step (
  operator_id uuid not null,
  aircraft_id uuid not null,
  entry_id uuid not null,
  day date not null,
  landed_at bigint not null,
  hours bigint not null,
  flight_hours bigint,
  landings int not null,
  cycles int,
  others jsonb,
  primary key (operator_id, entry_id),
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_walled('usage_step');
create index step_of_aircraft on usage_step (operator_id, aircraft_id, landed_at);

-- Derived and rebuildable: where one flight does not follow on from the one before it.
create table flight_break (
  operator_id uuid not null,
  aircraft_id uuid not null,
  flight_id uuid not null,
  kind text not null check (kind in ('gap', 'overlap', 'meter-backwards', 'place')),
  earlier_flight_id uuid,
  amount bigint,
  primary key (operator_id, flight_id, kind),
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_walled('flight_break');
create index break_of_aircraft on flight_break (operator_id, aircraft_id);
