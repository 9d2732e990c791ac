-- What one aircraft carries beside its numbered parts, and what that did to its empty weight.

-- A modification or a repair; the newest row of one says what holds of it. Requirements and
-- directives name it by its code.
create table modification (
  like filed_row including all,
  modification_id uuid not null,
  aircraft_id uuid not null,
  code text not null check (code ~ '^[A-Z0-9][A-Z0-9./-]{0,39}$'),
  title text not null check (length(title) between 1 and 200),
  kind text not null check (kind in ('modification', 'repair')),
  major boolean not null default false,
  approval text not null default '',
  form_reference text not null default '',
  systems text not null default '',
  remarks text not null default '',
  embodied boolean not null default true,
  foreign key (operator_id, aircraft_id) references aircraft
);
call as_filed('modification');
create index modification_of_aircraft on modification (operator_id, aircraft_id, modification_id, ledger_seq desc);

-- Equipment that may be there or not: fitted, removed, or inoperative with a placard.
create table equipment (
  like filed_row including all,
  equipment_id uuid not null,
  aircraft_id uuid not null,
  name text not null check (length(name) between 1 and 120),
  state text not null check (state in ('fitted', 'removed', 'inoperative')),
  placard text not null default '',
  remarks text not null default '',
  foreign key (operator_id, aircraft_id) references aircraft,
  check (state <> 'inoperative' or length(trim(placard)) > 0)
);
call as_filed('equipment');
create index equipment_of_aircraft on equipment (operator_id, aircraft_id, equipment_id, ledger_seq desc);

-- A weighing says what the empty aircraft weighs and where its centre lies; a change adds to that,
-- or takes away where its weight is negative.
create table weight_entry (
  like filed_row including all,
  aircraft_id uuid not null,
  kind text not null check (kind in ('weighing', 'change')),
  what text not null check (length(what) between 1 and 200),
  weight numeric(10, 3) not null,
  arm numeric(10, 3) not null,
  weight_unit text not null check (weight_unit in ('kg', 'lb')),
  arm_unit text not null check (arm_unit in ('mm', 'cm', 'in')),
  reference text not null default '',
  void boolean not null default false,
  foreign key (operator_id, aircraft_id) references aircraft,
  check (kind <> 'weighing' or weight > 0),
  check (weight <> 0),
  check (not void or corrects is not null)
);
call as_filed('weight_entry');
create index weight_of_aircraft on weight_entry (operator_id, aircraft_id, happened_at);
