-- What left the network, for ever: every number that was printed and the place of every number that was hidden. What a
-- hidden number was is kept nowhere here; it can be counted again as of the release's data cut. No row is a centre's.

create table outside_release (
    number integer primary key constraint release_number_from_one check (number >= 1),
    made_at timestamptz not null,
    key_id text not null references access_key (id),
    cut_revision bigint not null constraint release_cut_from_one check (cut_revision >= 1),
    cut_at timestamptz not null,
    first_year integer not null,
    through_year integer not null,
    smallest_count integer not null constraint release_smallest_count_range check (smallest_count between 3 and 11),
    audited integer not null constraint release_audited_range check (audited >= 0),
    hidden_primary integer not null constraint release_hidden_primary_range check (hidden_primary >= 0),
    hidden_complementary integer not null
        constraint release_hidden_complementary_range check (hidden_complementary >= 0),
    smallest_range bigint constraint release_smallest_range_range check (smallest_range >= 0),
    smallest_maximum bigint constraint release_smallest_maximum_range check (smallest_maximum >= 0),
    constraint release_year_order check (first_year <= through_year)
);
comment on table outside_release is 'One release to the outside, audited together with all before it and called safe.';
comment on column outside_release.cut_revision is 'The years that no earlier release had were counted as of this revision.';
comment on column outside_release.smallest_count is 'k: counts of 1 to k-1 are hidden.';
comment on column outside_release.audited is 'How many small sums were attacked by linear programming.';
comment on column outside_release.smallest_range is 'The least width of what a small sum can be; null where none is bounded.';

create table outside_figure (
    release integer not null references outside_release (number),
    position integer not null,
    measure text not null constraint figure_measure_code check (measure in ('events', 'uses')),
    device_class text constraint device_class_code check (device_class in (
        'guidewire', 'balloon', 'scoring-balloon', 'lithotripsy-balloon', 'stent', 'rotational-burr',
        'orbital-crown', 'laser-catheter', 'microcatheter', 'guide-extension', 'imaging-catheter', 'filter',
        'other')),
    harm text constraint harm_code check (harm in ('none', 'mild', 'moderate', 'severe', 'death')),
    first_year integer not null,
    last_year integer not null,
    value bigint constraint figure_value_range check (value >= 0),
    primary key (release, position),
    unique nulls not distinct (release, measure, device_class, harm, first_year, last_year),
    constraint figure_year_order check (first_year <= last_year),
    constraint figure_harm_of_events check (harm is null or measure = 'events')
);
comment on table outside_figure is 'One number of a release, in the order of its table.';
comment on column outside_figure.device_class is 'Null for all device classes together.';
comment on column outside_figure.harm is 'Null for any degree of harm.';
comment on column outside_figure.value is 'The number as printed; null where it was hidden.';

do $$ begin
    if not exists (select from pg_roles where rolname = 'registry_app') then create role registry_app login; end if;
end $$;
grant select, insert on outside_release to registry_app;
grant select, insert on outside_figure to registry_app;
