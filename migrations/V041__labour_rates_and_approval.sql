-- What an hour of labour costs, by kind of work or by person, from a day on; without a rate it has
-- ended. The last statement of a name that holds by a day counts.
create table labour_rate (
  like filed_row including all,
  name text not null check (length(trim(name)) between 1 and 80),
  person_id uuid references person,
  hourly_rate numeric(10, 2) check (hourly_rate between 0 and 100000),
  currency text not null check (currency ~ '^[A-Z]{3}$'),
  check (corrects is null)
);
call as_filed('labour_rate');

-- Whether the owner approves every order before its work starts, or only those that ask for it. The
-- newest statement counts; without one, those that ask for it.
create table approval_rule (
  like filed_row including all,
  always boolean not null,
  check (corrects is null)
);
call as_filed('approval_rule');

-- By which rate labour was reckoned; null where it was typed.
alter table work_cost add labour_rate_id uuid,
  add foreign key (operator_id, labour_rate_id) references labour_rate (operator_id, id),
  add check (labour_rate_id is null or kind = 'labour');
