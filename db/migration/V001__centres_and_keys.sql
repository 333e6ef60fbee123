-- Who takes part in the network, and the keys with which they ask.

create table centre (
    code       text primary key constraint centre_code_format check (code ~ '^[a-z0-9-]{3,32}$'),
    name       text not null constraint centre_name_length check (length(name) between 1 and 120),
    created_at timestamptz not null
);
comment on table centre is 'A hospital''s cath lab that reports to the registry.';

create table access_key (
    id         text primary key,
    hash       bytea not null unique,
    role       text not null constraint key_role_code check (role in ('submitter', 'analyst', 'steward')),
    centre     text references centre (code),
    label      text not null constraint key_label_length check (length(label) between 1 and 60),
    created_at timestamptz not null,
    revoked_at timestamptz,
    constraint key_centre_by_role check ((role = 'steward') = (centre is null))
);
comment on column access_key.hash is 'SHA-256 of the key; the key itself has 256 random bits and is shown once, never stored.';
