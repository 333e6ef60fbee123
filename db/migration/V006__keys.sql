-- Keys that end by themselves, that can be replaced while both are good for a time, and that show when they were used.

alter table access_key
    add column expires_at timestamptz,
    add column last_used_at timestamptz,
    add column replaces text references access_key (id);
update access_key set expires_at = created_at + interval '365 days';
alter table access_key alter column expires_at set not null;
comment on column access_key.last_used_at is 'To the hour, so that using a key is not a write each time.';
comment on column access_key.replaces is 'The key in whose place this one was made.';

grant select, insert, update (revoked_at, expires_at) on access_key to registry_app;

-- Who holds this key? Before that is known no row is in view, so the question is answered by its owner, for one hash.
create function key_holder(presented bytea, moment timestamptz)
    returns table (id text, role text, centre text)
    language plpgsql security definer set search_path = public, pg_temp as $$
begin
    update access_key k
    set last_used_at = date_trunc('hour', moment)
    where k.hash = presented and k.revoked_at is null and k.expires_at > moment
      and (k.last_used_at is null or k.last_used_at < date_trunc('hour', moment));
    return query
        select k.id, k.role, k.centre
        from access_key k
        where k.hash = presented and k.revoked_at is null and k.expires_at > moment;
end
$$;
revoke all on function key_holder from public;
grant execute on function key_holder to registry_app;
