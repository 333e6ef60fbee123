-- Activity returns: how often each device was used, all uses of a quarter, entrapped or not.

create table activity_return (
    revision bigint primary key,
    centre text not null references centre (code),
    period text not null constraint return_period_format check (period ~ '^[0-9]{4}-Q[1-4]$'),
    version integer not null constraint return_version_from_one check (version >= 1),
    content_hash text not null,
    unique (centre, period, version)
);
comment on table activity_return is 'One version of a centre''s whole return of one quarter; a later version replaces it.';

create table use_count (
    revision bigint not null references activity_return (revision),
    device_class text not null constraint device_class_code check (device_class in (
        'guidewire', 'balloon', 'scoring-balloon', 'lithotripsy-balloon', 'stent', 'rotational-burr',
        'orbital-crown', 'laser-catheter', 'microcatheter', 'guide-extension', 'imaging-catheter', 'filter',
        'other')),
    device_size_mm numeric(3, 2) constraint device_size_mm_range check (device_size_mm between 0.20 and 6.00),
    vessel text not null constraint vessel_code check (vessel in (
        'left-main', 'lad', 'circumflex', 'rca', 'graft', 'unknown')),
    calcification text not null constraint calcification_code check (calcification in (
        'none', 'mild', 'moderate', 'severe', 'unknown')),
    tortuosity text not null constraint tortuosity_code check (tortuosity in (
        'mild', 'moderate', 'severe', 'unknown')),
    total_occlusion text not null constraint total_occlusion_code check (total_occlusion in (
        'yes', 'no', 'unknown')),
    stent_layers text not null constraint stent_layers_code check (stent_layers in (
        '0', '1', '2-or-more', 'unknown')),
    guide_french text not null constraint guide_french_code check (guide_french in (
        '5', '6', '7', '8', 'unknown')),
    operator_stage text not null constraint operator_stage_code check (operator_stage in (
        'in-training', 'early-independent', 'established', 'unknown')),
    uses bigint not null constraint uses_range check (uses between 0 and 1000000),
    unique nulls not distinct (revision, device_class, device_size_mm, vessel, calcification, tortuosity,
        total_occlusion, stent_layers, guide_french, operator_stage)
);
comment on table use_count is 'Uses of one pattern of factors within a return; the factors are columns of case_version too.';
comment on column use_count.uses is 'Devices of the class introduced into one target lesion each, entrapped or not.';

-- The use counts in force as of a revision, with the centre and the quarter of their return.
create function use_count_as_of(cut bigint)
    returns table (centre text, period text, device_class text, device_size_mm numeric, vessel text, calcification text,
        tortuosity text, total_occlusion text, stent_layers text, guide_french text, operator_stage text, uses bigint)
    language sql stable as $$
    select r.centre, r.period, u.device_class, u.device_size_mm, u.vessel, u.calcification,
        u.tortuosity, u.total_occlusion, u.stent_layers, u.guide_french, u.operator_stage, u.uses
    from activity_return r
    join use_count u on u.revision = r.revision
    where r.revision <= cut
      and not exists (
          select 1
          from activity_return later
          where later.centre = r.centre and later.period = r.period
            and later.revision > r.revision and later.revision <= cut)
$$;
