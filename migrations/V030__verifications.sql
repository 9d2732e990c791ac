-- What verifying an operator's ledger found, each night and whenever somebody asked. Not filed: it
-- can be found again at any time.
create table verification (
  operator_id uuid not null references operator,
  id uuid not null,
  began_at timestamptz not null,
  ended_at timestamptz not null,
  size bigint not null,
  root bytea not null check (length(root) = 32),
  trouble text,
  outside text,
  asked_by uuid references person,
  primary key (operator_id, id)
);
call as_walled('verification');
create index verification_by_time on verification (operator_id, began_at);
