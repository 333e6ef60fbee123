-- The order of every accepted change. A change takes a block of revision numbers, one for each version it makes.
-- Blocks are handed out under one advisory lock that lives until commit, so number order is commit order:
-- whoever can see revision r can see every revision below it, and there are no gaps.

create table revision (
    last   bigint primary key,
    first  bigint not null unique,
    at     timestamptz not null,
    key_id text not null references access_key (id),
    constraint revision_block_order check (first >= 1 and first <= last)
);
comment on table revision is 'One accepted change: revisions first to last, committed together.';
