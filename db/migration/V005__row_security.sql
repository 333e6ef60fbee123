-- Who may see which rows, said once more where no fault of the application can forget it. The service runs as
-- registry_app, which owns nothing. Each transaction says whose rows it is about in the setting registry.centres: one
-- centre, several with commas between, or * for the network. One that says nothing sees nothing.

do $$
begin
    if not exists (select from pg_roles where rolname = 'registry_app') then
        create role registry_app login;
    end if;
end
$$;

-- The rows of a case and of a return say whose they are themselves, so that no policy needs a join.
alter table case_version add constraint case_version_of_centre unique (revision, centre);
alter table attempt add column centre text;
update attempt a set centre = v.centre from case_version v where v.revision = a.revision;
alter table attempt alter column centre set not null,
    drop constraint attempt_revision_fkey,
    add constraint attempt_of_case foreign key (revision, centre) references case_version (revision, centre);

alter table activity_return add constraint activity_return_of_centre unique (revision, centre);
alter table use_count add column centre text;
update use_count u set centre = r.centre from activity_return r where r.revision = u.revision;
alter table use_count alter column centre set not null,
    drop constraint use_count_revision_fkey,
    add constraint use_count_of_return foreign key (revision, centre) references activity_return (revision, centre);

-- The selects are evaluated once for a statement, not once for a row.
create policy centre_in_view on centre to registry_app
    using (code = any ((select string_to_array(current_setting('registry.centres', true), ','))::text[])
        or (select current_setting('registry.centres', true)) = '*');
create policy key_in_view on access_key to registry_app
    using (centre = any ((select string_to_array(current_setting('registry.centres', true), ','))::text[])
        or (select current_setting('registry.centres', true)) = '*');
create policy case_in_view on case_version to registry_app
    using (centre = any ((select string_to_array(current_setting('registry.centres', true), ','))::text[])
        or (select current_setting('registry.centres', true)) = '*');
create policy attempt_in_view on attempt to registry_app
    using (centre = any ((select string_to_array(current_setting('registry.centres', true), ','))::text[])
        or (select current_setting('registry.centres', true)) = '*');
create policy return_in_view on activity_return to registry_app
    using (centre = any ((select string_to_array(current_setting('registry.centres', true), ','))::text[])
        or (select current_setting('registry.centres', true)) = '*');
create policy use_count_in_view on use_count to registry_app
    using (centre = any ((select string_to_array(current_setting('registry.centres', true), ','))::text[])
        or (select current_setting('registry.centres', true)) = '*');

alter table centre enable row level security;
alter table access_key enable row level security;
alter table case_version enable row level security;
alter table attempt enable row level security;
alter table activity_return enable row level security;
alter table use_count enable row level security;

-- Table by table, so that nothing new is open by accident. Versions are only ever added; that one was superseded is all
-- that is written later.
grant select, insert, update (name) on centre to registry_app;
grant select, insert on case_version, attempt, activity_return, use_count to registry_app;
grant update (superseded_by) on case_version to registry_app;
grant select, insert on revision to registry_app;
