-- Aircraft, what they count, and the serial-numbered parts fitted to them.

create table aircraft (
  operator_id uuid not null references operator,
  id uuid not null,
  primary key (operator_id, id)
);
call as_walled('aircraft');
call as_append_only('aircraft');

-- Bumped by every filing that can move what falls due on the aircraft; caches are keyed by it, and
-- its row lock makes filings on one aircraft wait for one another.
create table aircraft_revision (
  operator_id uuid not null,
  aircraft_id uuid not null,
  revision bigint not null default 0,
  primary key (operator_id, aircraft_id),
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_walled('aircraft_revision');

create table aircraft_particulars (
  like filed_row including all,
  aircraft_id uuid not null,
  revises uuid,
  registration text not null check (registration ~ '^[A-Z0-9][A-Z0-9-]{1,9}$'),
  type_name text not null check (length(type_name) between 1 and 80),
  manufacturer text not null default '',
  serial text not null check (length(serial) between 1 and 60),
  built_year int check (built_year between 1900 and 2200),
  hours_basis text not null check (hours_basis in ('flight-times', 'meter')),
  meter_name text not null default '',
  rounding text not null default 'exact' check (rounding in ('exact', 'tenths')),
  shown_as text not null default 'tenths' check (shown_as in ('tenths', 'hundredths', 'minutes')),
  fuel_unit text not null default 'litres',
  retired boolean not null default false,
  foreign key (operator_id, aircraft_id) references aircraft,
  check (hours_basis <> 'meter' or length(meter_name) > 0)
);
call as_filed('aircraft_particulars');
alter table aircraft_particulars add unique (operator_id, revises);
create index particulars_of_aircraft on aircraft_particulars (operator_id, aircraft_id, ledger_seq desc);

-- Where an engine, a propeller or another serial-numbered part belongs on one aircraft.
create table aircraft_position (
  like filed_row including all,
  aircraft_id uuid not null,
  code text not null check (code ~ '^[a-z][a-z0-9-]{0,39}$'),
  kind text not null check (kind in ('engine', 'propeller', 'other')),
  label text not null check (length(label) between 1 and 60),
  required boolean not null default true,
  withdrawn boolean not null default false,
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_filed('aircraft_position');
create index position_of_aircraft on aircraft_position (operator_id, aircraft_id);

-- What a counter stood at when these records began; amount null: not known, never zero.
create table counter_opening (
  like filed_row including all,
  aircraft_id uuid not null,
  counter text not null check (counter ~ '^[a-z][a-z0-9-]{0,39}$'),
  amount bigint check (amount >= 0),
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_filed('counter_opening');
create index opening_of_aircraft on counter_opening (operator_id, aircraft_id);

-- A meter fitted, replaced or rolled over: what the old one read last, what the new one read first.
create table meter_change (
  like filed_row including all,
  aircraft_id uuid not null,
  off_reading bigint check (off_reading >= 0),
  on_reading bigint not null check (on_reading >= 0),
  void boolean not null default false,
  foreign key (operator_id, aircraft_id) references aircraft,
  check (not void or corrects is not null)
);
call as_filed('meter_change');
create index meter_change_of_aircraft on meter_change (operator_id, aircraft_id, happened_at);

create table component (
  like filed_row including all,
  component_id uuid not null,
  kind text not null check (kind in ('engine', 'propeller', 'other')),
  part_number text not null check (length(part_number) between 1 and 60),
  serial text not null check (length(serial) between 1 and 60),
  description text not null check (length(description) between 1 and 120),
  manufacturer text not null default ''
);
call as_filed('component');
create index component_row_of_component on component (operator_id, component_id, ledger_seq desc);

-- What a component had run when these records began (since new and since overhaul; null: not known).
create table component_opening (
  like filed_row including all,
  component_id uuid not null,
  counter text not null check (counter ~ '^[a-z][a-z0-9-]{0,39}$'),
  since_new bigint check (since_new >= 0),
  since_overhaul bigint check (since_overhaul >= 0),
  new_on date,
  overhauled_on date,
  check (since_overhaul is null or since_new is null or since_overhaul <= since_new)
);
call as_filed('component_opening');
create index opening_of_component on component_opening (operator_id, component_id);

-- An overhaul: time since new runs on, time since overhaul restarts.
create table component_overhaul (
  like filed_row including all,
  component_id uuid not null,
  reference text not null default '',
  void boolean not null default false,
  check (not void or corrects is not null)
);
call as_filed('component_overhaul');
create index overhaul_of_component on component_overhaul (operator_id, component_id);

create table fitment (
  like filed_row including all,
  component_id uuid not null,
  aircraft_id uuid not null,
  position_code text not null,
  void boolean not null default false,
  foreign key (operator_id, aircraft_id) references aircraft,
  check (not void or corrects is not null)
);
call as_filed('fitment');
create index fitment_of_aircraft on fitment (operator_id, aircraft_id);
create index fitment_of_component on fitment (operator_id, component_id);

create table removal (
  like filed_row including all,
  fitment_id uuid not null,
  why text not null default '',
  scheduled boolean not null default false,
  void boolean not null default false,
  foreign key (operator_id, fitment_id) references fitment (operator_id, id),
  check (not void or corrects is not null)
);
call as_filed('removal');
create index removal_of_fitment on removal (operator_id, fitment_id);

-- A person has grounded the aircraft, until a person lifts it.
create table grounding (
  like filed_row including all,
  aircraft_id uuid not null,
  why text not null check (length(trim(why)) > 0),
  lifts uuid,
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_filed('grounding');
alter table grounding add foreign key (operator_id, lifts) references grounding (operator_id, id),
  add unique (operator_id, lifts);
create index grounding_of_aircraft on grounding (operator_id, aircraft_id);
