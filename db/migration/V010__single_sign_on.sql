-- Who is signed in by the network's own issuer has a row among the keys too, so that what was done has a doer and the
-- steward can end it. Nobody holds a key for such a row.
comment on column access_key.hash is 'SHA-256 of the key; the key itself has 256 random bits and is shown once, never '
    'stored. Of single sign-on (id sso-…): SHA-256 of a byte that no text has, then role, centre, issuer and subject.';

-- A session is looked at again with each request: is the row it was opened with still good? As for key_holder, no row is
-- in view before that is known.
create function key_still_good(held text, moment timestamptz)
    returns boolean
    language plpgsql security definer set search_path = public, pg_temp as $$
begin
    update access_key k
    set last_used_at = date_trunc('hour', moment)
    where k.id = held and k.revoked_at is null and k.expires_at > moment
      and (k.last_used_at is null or k.last_used_at < date_trunc('hour', moment));
    return exists (
        select from access_key k where k.id = held and k.revoked_at is null and k.expires_at > moment);
end
$$;
revoke all on function key_still_good from public;
grant execute on function key_still_good to registry_app;
