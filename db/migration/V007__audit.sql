-- What happened: who, when, what kind of action on what kind of thing, and with what outcome. No values. Each entry's
-- hash covers the entry and the hash before it, so that an entry that was altered or taken out is found; the head tells
-- when the last ones were. The service can add and read entries, and nothing else: number and hashes are made here.

create table audit_entry (
    number   bigint primary key,
    at       timestamptz not null,
    key_id   text references access_key (id),
    centre   text references centre (code),
    action   text not null constraint audit_action_code check (action ~ '^[a-z-]{3,30}$'),
    thing    text not null constraint audit_thing_code check (thing ~ '^[a-z-]{3,30}$'),
    outcome  text not null constraint audit_outcome_code check (outcome ~ '^[a-z-]{3,30}$'),
    previous bytea not null,
    hash     bytea not null
);
comment on column audit_entry.key_id is 'Whose key; null where none was good.';
comment on column audit_entry.centre is 'Whose data it was about; null for the network.';
comment on column audit_entry.outcome is 'done, or the slug of the problem that was answered.';
create index audit_entry_by_centre on audit_entry (centre, number);

create table audit_head (
    only_row boolean primary key default true constraint audit_has_one_head check (only_row),
    number   bigint not null,
    hash     bytea not null
);
insert into audit_head (number, hash) values (0, sha256(''));

-- The text that an entry's hash covers, so that anyone can compute it again with any program.
create function audit_text(number bigint, at timestamptz, key_id text, centre text, action text, thing text, outcome text)
    returns text language sql stable as $$
    select concat_ws('|', number, to_char(at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'),
        coalesce(key_id, ''), coalesce(centre, ''), action, thing, outcome)
$$;

-- The row of the head is the lock under which entries get in line.
create function chain_audit_entry() returns trigger
    language plpgsql security definer set search_path = public, pg_temp as $$
begin
    update audit_head set number = number + 1 returning number, hash into new.number, new.previous;
    new.at := date_trunc('milliseconds', new.at);
    new.hash := sha256(new.previous || convert_to(
        audit_text(new.number, new.at, new.key_id, new.centre, new.action, new.thing, new.outcome), 'UTF8'));
    update audit_head set hash = new.hash;
    return new;
end
$$;
create trigger chain_audit_entry before insert on audit_entry for each row execute function chain_audit_entry();

-- Entries are for ever; this stops an owner's slip, and the chain finds an owner's intent.
create function refuse_audit_change() returns trigger language plpgsql as $$
begin
    raise exception 'audit entries are never changed';
end
$$;
create trigger refuse_audit_change before update or delete or truncate on audit_entry
    for each statement execute function refuse_audit_change();

create policy audit_in_view on audit_entry for select to registry_app
    using (centre = any ((select string_to_array(current_setting('registry.centres', true), ','))::text[])
        or (select current_setting('registry.centres', true)) = '*');
create policy audit_is_added_to on audit_entry for insert to registry_app with check (true);
alter table audit_entry enable row level security;

grant select, insert (at, key_id, centre, action, thing, outcome) on audit_entry to registry_app;
grant select on audit_head to registry_app;
