-- The two rules every later table obeys: what is filed is never changed, and one operator never
-- sees another's rows. Both are kept here by the database, not only by code.

-- Who is asking, set locally to each transaction; empty when nobody said so, and then no row shows.
create function current_operator() returns uuid language sql stable parallel safe as
$$ select nullif(current_setting('trestle.operator', true), '')::uuid $$;

create function current_person() returns uuid language sql stable parallel safe as
$$ select nullif(current_setting('trestle.person', true), '')::uuid $$;

-- True only in the few acts that concern the whole installation: signing in, creating operators.
create function for_installation() returns boolean language sql stable parallel safe as
$$ select coalesce(current_setting('trestle.installation', true), '') = 'on' $$;

create function refuse_change() returns trigger language plpgsql as
$$
begin
  raise exception 'Filed records are never changed or removed: % on % refused. File a correction.',
    lower(tg_op), tg_table_name using errcode = 'restrict_violation';
end
$$;

-- Each installation's people; they belong to no operator, memberships say where they work.
create table person (
  id uuid primary key,
  name text not null check (length(name) between 1 and 120),
  sign_in_name text not null check (sign_in_name = lower(sign_in_name) and length(sign_in_name) between 1 and 120),
  password_hash text,
  generation int not null default 0,
  created_at timestamptz not null,
  unique (sign_in_name)
);

create table operator (
  id uuid primary key,
  name text not null check (length(name) between 1 and 120),
  base text not null default '',
  time_zone text not null,
  flight_times_in text not null default 'utc' check (flight_times_in in ('utc', 'local')),
  demo boolean not null default false,
  created_at timestamptz not null,
  created_by uuid not null references person
);

-- The columns of every filed row. A pattern for "like", never written to itself.
create table filed_row (
  id uuid not null,
  operator_id uuid not null,
  ledger_seq bigint not null,
  happened_at timestamptz not null,
  happened_on date not null,
  recorded_at timestamptz not null,
  recorded_by uuid not null,
  corrects uuid,
  reason text,
  form_key uuid,
  check (corrects is null or length(trim(reason)) > 0)
);

create table ledger_head (
  operator_id uuid primary key references operator,
  size bigint not null,
  frontier bytea not null,
  root bytea not null check (length(root) = 32)
);

create table ledger_entry (
  operator_id uuid not null references operator,
  seq bigint not null check (seq > 0),
  recorded_at timestamptz not null,
  recorded_by uuid not null references person,
  aircraft_id uuid,
  kind text not null,
  kind_version int not null,
  record_id uuid not null,
  json text not null,
  leaf bytea not null check (length(leaf) = 32),
  primary key (operator_id, seq),
  unique (operator_id, kind, record_id)
);
create index ledger_entry_of_aircraft on ledger_entry (operator_id, aircraft_id, seq);

-- Walls: rows of the operator this transaction speaks for, and no others; for the owner too.
create procedure as_walled(walled regclass) language plpgsql as
$$
begin
  execute format('alter table %s enable row level security', walled);
  execute format('alter table %s force row level security', walled);
  execute format('create policy own_operator on %s using (operator_id = current_operator())'
    || ' with check (operator_id = current_operator())', walled);
end
$$;

create procedure as_append_only(kept regclass) language plpgsql as
$$
begin
  execute format('create trigger refuse_change before update or delete on %s'
    || ' for each row execute function refuse_change()', kept);
  execute format('create trigger refuse_truncate before truncate on %s'
    || ' for each statement execute function refuse_change()', kept);
end
$$;

-- Everything a filed table has: walls, no change, keys with the operator in them, a line in the
-- ledger, one correction at most, one filing for one form.
create procedure as_filed(filed regclass) language plpgsql as
$$
begin
  call as_walled(filed);
  call as_append_only(filed);
  execute format('alter table %s add primary key (operator_id, id),'
    || ' add foreign key (operator_id) references operator,'
    || ' add foreign key (recorded_by) references person,'
    || ' add foreign key (operator_id, ledger_seq) references ledger_entry deferrable initially deferred,'
    || ' add unique (operator_id, ledger_seq),'
    || ' add unique (operator_id, corrects),'
    || ' add unique (operator_id, form_key)', filed);
  execute format('alter table %s add foreign key (operator_id, corrects) references %s (operator_id, id)',
    filed, filed);
end
$$;

call as_walled('filed_row');
call as_walled('ledger_head');
call as_walled('ledger_entry');
call as_append_only('ledger_entry');

alter table operator enable row level security;
alter table operator force row level security;
create policy own_operator on operator using (id = current_operator() or for_installation())
  with check (for_installation());
