-- What an order is thought to cost, and what it did: labour by line and person, parts, outside work.
-- One currency an order; the rate of an hour stands beside the minutes it was applied to.
create table work_cost (
  like filed_row including all,
  aircraft_id uuid not null,
  order_entry_id uuid not null,
  line_entry_id uuid,
  stage text not null check (stage in ('estimate', 'actual')),
  kind text not null check (kind in ('labour', 'parts', 'outside')),
  words text not null check (length(trim(words)) between 1 and 200),
  minutes int check (minutes between 1 and 60000),
  hourly_rate numeric(10, 2) check (hourly_rate between 0 and 100000),
  amount numeric(12, 2) not null check (amount between 0 and 100000000),
  currency text not null check (currency ~ '^[A-Z]{3}$'),
  voided boolean check (voided),
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, order_entry_id) references work_order (operator_id, id),
  foreign key (operator_id, line_entry_id) references work_line (operator_id, id),
  check ((kind = 'labour') = (minutes is not null)),
  check ((minutes is null) = (hourly_rate is null)),
  check (minutes is null or amount = round(minutes * hourly_rate / 60, 2)),
  check (voided is null or corrects is not null)
);
call as_filed('work_cost');
create index work_cost_of_order on work_cost (operator_id, order_entry_id);
