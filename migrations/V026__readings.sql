-- What was read while work was done: one row a reading, kept as a series by component and place.
create table work_reading (
  like filed_row including all,
  aircraft_id uuid not null,
  line_entry_id uuid not null,
  component_id uuid,
  kind text not null check (kind in ('compression', 'magneto-drop', 'pressure', 'torque', 'filter')),
  place text not null check (length(trim(place)) between 1 and 60),
  value numeric(10, 3),
  unit text not null default '' check (length(unit) <= 10),
  supply numeric(10, 3),
  reference_reading numeric(10, 3),
  words text not null default '' check (length(words) <= 500),
  reader_name text not null check (length(reader_name) between 1 and 120),
  voided boolean check (voided),
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, line_entry_id) references work_line (operator_id, id),
  check ((kind = 'filter') = (value is null)),
  check (kind <> 'filter' or length(trim(words)) > 0),
  check ((kind = 'compression') = (supply is not null)),
  check (value >= 0),
  check (kind <> 'compression' or (value <= supply and supply <= 120)),
  check (reference_reading is null or (kind = 'compression' and reference_reading between 0 and supply)),
  check (voided is null or corrects is not null)
);
call as_filed('work_reading');
create index work_reading_of_line on work_reading (operator_id, line_entry_id);
create index work_reading_of_component on work_reading (operator_id, component_id);

-- By what readings of one component are judged, as its own data say; the newest of a kind counts.
-- Without one there is no verdict.
create table reading_limit (
  like filed_row including all,
  component_id uuid not null,
  kind text not null check (kind in ('compression', 'magneto-drop', 'pressure', 'torque')),
  least numeric(10, 3) check (least >= 0),
  most numeric(10, 3) check (most >= 0),
  by_reference boolean not null default false,
  source text not null check (length(trim(source)) between 1 and 200),
  check (least is not null or most is not null or by_reference),
  check (least <= most),
  check (not by_reference or kind = 'compression'),
  check (corrects is null)
);
call as_filed('reading_limit');
create index reading_limit_of_component on reading_limit (operator_id, component_id);
