-- The operator's public keys: heads of its ledger are signed with the newest whose private half can
-- be opened here. Old heads go on being checked by the key that signed them.
create table ledger_key (
  like filed_row including all,
  public_key text not null check (public_key ~ '^[A-Z2-7]{52}$'),
  unique (operator_id, public_key),
  check (corrects is null)
);
call as_filed('ledger_key');

-- The private half, sealed with a secret of the installation that is not in the database. Without
-- that secret it is of no use to anybody, and a new key is made.
create table ledger_key_seal (
  operator_id uuid not null references operator,
  key_id uuid not null,
  sealed bytea not null,
  primary key (operator_id, key_id),
  foreign key (operator_id, key_id) references ledger_key (operator_id, id)
);
call as_walled('ledger_key_seal');

-- Derived from the leaves: roots of full subtrees of 2^level leaves, so that a proof reads few rows.
-- What is missing here is computed from the leaves.
create table ledger_subtree (
  operator_id uuid not null references operator,
  level int not null check (level > 0),
  place bigint not null check (place >= 0),
  root bytea not null check (length(root) = 32),
  primary key (operator_id, level, place)
);
call as_walled('ledger_subtree');
