-- Who may do what, where: memberships and licences are filed; sessions come and go.

create table administrator (
  person_id uuid primary key references person,
  since timestamptz not null,
  appointed_by uuid references person
);

-- A person's newest row (by ledger_seq) says what they may do here; no roles: no longer a member.
create table membership (
  like filed_row including all,
  person_id uuid not null references person,
  roles text[] not null check (roles <@ array['owner', 'controller', 'pilot', 'engineer', 'auditor'])
);
call as_filed('membership');
create index membership_of_person on membership (person_id, operator_id, ledger_seq desc);
-- A person sees their own memberships in every operator, and signing in asks for them.
create policy own_memberships on membership for select
  using (person_id = current_person() or for_installation());

create table licence (
  like filed_row including all,
  person_id uuid not null references person,
  number text not null check (length(number) between 1 and 60),
  kind text not null check (length(kind) between 1 and 120),
  ratings text not null default '',
  authorisation text not null default '',
  expires_on date,
  withdrawn boolean not null default false
);
call as_filed('licence');
create index licence_of_person on licence (operator_id, person_id, ledger_seq desc);

create table session (
  id uuid primary key,
  person_id uuid not null references person on delete cascade,
  operator_id uuid references operator,
  generation int not null,
  started_at timestamptz not null,
  expires_at timestamptz not null
);
create index session_of_person on session (person_id);

-- The brake on guessing: failures of one name, or from one address, and until when it must wait.
create table sign_in_brake (
  subject text primary key,
  failures int not null,
  last_failure_at timestamptz not null,
  wait_until timestamptz not null
);

-- One statement a request: who this session is, and what they may do in the operator it chose.
create function viewer_of(asked_session uuid, asked_at timestamptz)
  returns table (person_id uuid, person_name text, administrator boolean, operator_id uuid,
    operator_name text, time_zone text, flight_times_in text, roles text[])
  language plpgsql as
$$
begin
  perform set_config('trestle.installation', 'on', true);
  return query
    select p.id, p.name, a.person_id is not null, o.id, o.name, o.time_zone, o.flight_times_in,
      coalesce(m.roles, '{}')
    from session s
    join person p on p.id = s.person_id and p.generation = s.generation
    left join administrator a on a.person_id = p.id
    left join operator o on o.id = s.operator_id
    left join lateral (
      select latest.roles from membership latest
      where latest.person_id = p.id and latest.operator_id = s.operator_id
      order by latest.ledger_seq desc limit 1) m on true
    where s.id = asked_session and s.expires_at > asked_at;
  perform set_config('trestle.installation', '', true);
end
$$;
