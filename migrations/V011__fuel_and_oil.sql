-- How an aircraft carries fuel and oil, and what was found in its tanks and on its dipsticks.

-- Maps are by tank code or by engine position; amounts of fuel are in the aircraft's fuel unit.
create table fluid_arrangement (
  like filed_row including all,
  aircraft_id uuid not null,
  revises uuid,
  burn_per_hour numeric(9, 2) check (burn_per_hour > 0),
  tolerance_percent numeric(4, 1) not null check (tolerance_percent between 0 and 50),
  tank_labels jsonb not null default '{}',
  tank_capacities jsonb not null default '{}',
  oil_units jsonb not null default '{}',
  oil_scales jsonb not null default '{}',
  oil_limits jsonb not null default '{}',
  oil_least jsonb not null default '{}',
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_filed('fluid_arrangement');
alter table fluid_arrangement add unique (operator_id, revises);
create index arrangement_of_aircraft on fluid_arrangement (operator_id, aircraft_id, ledger_seq desc);

-- Found after one flight: what had been put in before it, gauges and dips after it, oil then.
create table fluid_reading (
  like filed_row including all,
  aircraft_id uuid not null,
  flight_entry_id uuid,
  fuel_unit text not null check (fuel_unit in ('litres', 'US gallons', 'kg', 'lb')),
  added_in text not null check (added_in in ('litres', 'US gallons', 'kg', 'lb')),
  density numeric(5, 3) check (density between 0.5 and 1.0),
  fuel_added jsonb not null default '{}',
  fuel_gauge jsonb not null default '{}',
  fuel_dip jsonb not null default '{}',
  oil_component jsonb not null default '{}',
  oil_before jsonb not null default '{}',
  oil_added jsonb not null default '{}',
  oil_changed text[] not null default '{}',
  remark text not null default '',
  void boolean not null default false,
  foreign key (operator_id, aircraft_id) references aircraft,
  check (not void or corrects is not null)
);
call as_filed('fluid_reading');
create index reading_of_aircraft on fluid_reading (operator_id, aircraft_id, happened_at);
create index reading_of_flight on fluid_reading (operator_id, flight_entry_id);
