-- Entrapment cases. Nothing is overwritten: every accepted change is a new version under a new revision.

create table case_version (
    revision bigint primary key,
    centre text not null references centre (code),
    case_key text not null constraint case_key_format check (case_key ~ '^[A-Za-z0-9-]{6,40}$'),
    version integer not null constraint case_version_from_one check (version >= 1),
    superseded_by bigint constraint superseded_later check (superseded_by > revision),
    withdrawn text constraint withdrawn_code check (withdrawn in ('entered-in-error', 'duplicate', 'consent-withdrawn')),
    content_hash text not null,

    period text not null constraint case_period_format check (period ~ '^[0-9]{4}-Q[1-4]$'),
    procedure_key text constraint procedure_key_format check (procedure_key ~ '^[A-Za-z0-9-]{6,40}$'),
    age_band text not null constraint age_band_code check (age_band in (
        'under-40', '40-44', '45-49', '50-54', '55-59', '60-64', '65-69', '70-74', '75-79', '80-84',
        '85-89', '90-or-over', 'unknown')),
    sex text not null constraint sex_code check (sex in (
        'female', 'male', 'other', 'unknown')),
    presentation text not null constraint presentation_code check (presentation in (
        'chronic-coronary', 'unstable-angina', 'nstemi', 'stemi', 'other', 'unknown')),
    urgency text not null constraint urgency_code check (urgency in (
        'elective', 'urgent', 'emergency', 'unknown')),
    access text not null constraint access_code check (access in (
        'radial', 'femoral', 'other', 'unknown')),
    guide_french text not null constraint guide_french_code check (guide_french in (
        '5', '6', '7', '8', 'unknown')),
    operator_stage text not null constraint operator_stage_code check (operator_stage in (
        'in-training', 'early-independent', 'established', 'unknown')),
    vessel text not null constraint vessel_code check (vessel in (
        'left-main', 'lad', 'circumflex', 'rca', 'graft', 'unknown')),
    position text not null constraint position_code check (position in (
        'ostial', 'proximal', 'mid', 'distal', 'branch', 'unknown')),
    segment text constraint segment_code check (segment in (
        '1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12', '13', '14', '15', '16')),
    calcification text not null constraint calcification_code check (calcification in (
        'none', 'mild', 'moderate', 'severe', 'unknown')),
    tortuosity text not null constraint tortuosity_code check (tortuosity in (
        'mild', 'moderate', 'severe', 'unknown')),
    angulation text not null constraint angulation_code check (angulation in (
        'under-45', '45-to-90', 'over-90', 'unknown')),
    total_occlusion text not null constraint total_occlusion_code check (total_occlusion in (
        'yes', 'no', 'unknown')),
    stent_layers text not null constraint stent_layers_code check (stent_layers in (
        '0', '1', '2-or-more', 'unknown')),
    device_class text not null constraint device_class_code check (device_class in (
        'guidewire', 'balloon', 'scoring-balloon', 'lithotripsy-balloon', 'stent', 'rotational-burr',
        'orbital-crown', 'laser-catheter', 'microcatheter', 'guide-extension', 'imaging-catheter', 'filter',
        'other')),
    device_size_mm numeric(3, 2) constraint device_size_mm_range check (device_size_mm between 0.20 and 6.00),
    device_identifier text constraint device_identifier_format check (device_identifier ~ '^[0-9]{14}$'),
    mechanism text not null constraint mechanism_code check (mechanism in (
        'wedged-in-calcium', 'tip-fixed-in-plaque', 'passed-beyond-lesion', 'caught-on-stent',
        'looped-or-kinked', 'jailed-behind-stent', 'failed-deflation', 'other', 'unknown')),
    phase text not null constraint phase_code check (phase in (
        'crossing', 'treating', 'final-pass', 'withdrawing', 'unknown')),
    haemodynamics text not null constraint haemodynamics_code check (haemodynamics in (
        'stable', 'unstable', 'arrest', 'unknown')),
    shock_stage text not null constraint shock_stage_code check (shock_stage in (
        'A', 'B', 'C', 'D', 'E', 'unknown')),
    timi_flow text not null constraint timi_flow_code check (timi_flow in (
        '0', '1', '2', '3', 'unknown')),
    fractured text not null constraint fractured_code check (fractured in (
        'yes', 'no', 'unknown')),
    release text not null constraint release_code check (release in (
        'intact', 'damaged', 'partial', 'none')),
    fragment text not null constraint fragment_code check (fragment in (
        'none', 'stented-over', 'in-vessel', 'in-aorta', 'embolised', 'unknown')),
    dissection text not null constraint dissection_code check (dissection in (
        'none', 'A', 'B', 'C', 'D', 'E', 'F', 'unknown')),
    perforation text not null constraint perforation_code check (perforation in (
        'none', 'I', 'II', 'III', 'III-cavity', 'unknown')),
    final_timi_flow text not null constraint final_timi_flow_code check (final_timi_flow in (
        '0', '1', '2', '3', 'unknown')),
    complications text[] not null constraint complications_codes check (complications <@ array[
        'periprocedural-mi', 'tamponade', 'distal-wire-perforation', 'stent-avulsed', 'abrupt-closure',
        'emergency-surgery', 'stroke', 'major-bleeding', 'in-hospital-death']),
    mi_definition text not null constraint mi_definition_code check (mi_definition in (
        'udmi-4a', 'scai', 'arc-2', 'other', 'unknown')),
    harm text not null constraint harm_code check (harm in (
        'none', 'mild', 'moderate', 'severe', 'death')),
    procedure_end text not null constraint procedure_end_code check (procedure_end in (
        'completed-as-planned', 'completed-otherwise', 'abandoned', 'unknown')),

    unique (centre, case_key, version),
    constraint death_is_in_hospital_death check ((harm = 'death') = ('in-hospital-death' = any (complications))),
    constraint fragment_with_intact check (release <> 'intact' or fragment in ('none', 'unknown')),
    constraint mi_definition_without_mi check (mi_definition = 'unknown' or 'periprocedural-mi' = any (complications))
);
comment on table case_version is 'One version of one case as its centre sent it; a withdrawal is a version too.';
comment on column case_version.revision is 'The place of this version in the order of all accepted changes; unique over the registry.';
comment on column case_version.superseded_by is 'The revision of the next version of the same case; null for the newest. All that is ever changed in a row.';
comment on column case_version.case_key is 'The centre''s own opaque key; never a record number.';
comment on column case_version.withdrawn is 'Why the case was taken back with this version; its content repeats the version before.';
comment on column case_version.content_hash is 'SHA-256 of the canonical content, to see that the same content came again.';
comment on column case_version.device_size_mm is 'Millimetres: burr or crown diameter, balloon or stent nominal diameter, wire diameter.';

-- A case has one newest version; also how it is found.
create unique index case_version_newest on case_version (centre, case_key) where superseded_by is null;

create table attempt (
    revision bigint not null references case_version (revision),
    position smallint not null constraint attempt_position_range check (position between 1 and 12),
    technique text not null constraint technique_code check (technique in (
        'steady-traction', 'traction-guide-deep-seated', 'traction-guide-extension',
        'microcatheter-capture', 'trapping-balloon', 'parallel-balloon', 'parallel-knuckle-balloon',
        'balloon-through-stent', 'snare', 'forceps-or-basket', 'wire-entwining', 'lumen-wire',
        'second-guide', 'device-rotation', 'vasodilator', 'deploy-in-place', 'stent-over-fragment',
        'left-in-place', 'surgery',
        'other')),
    result text not null constraint result_code check (result in (
        'released', 'part-released', 'no-change', 'worsened')),
    minutes_from_entrapment integer constraint minutes_range check (minutes_from_entrapment between 0 and 1440),
    enablers text[] not null constraint enablers_codes check (enablers <@ array[
        'shaft-cut', 'sheath-removed', 'guide-upsized', 'second-access', 'mechanical-support']),
    primary key (revision, position)
);
comment on table attempt is 'The retrieval steps of one version of a case, in the order tried.';

-- The cases in force as of a revision: made by then, not superseded by then, and not a withdrawal. A condition on single
-- rows, so that no plan of it is slow; one plain select, so that the planner sees through it.
create function case_as_of(cut bigint) returns setof case_version language sql stable as $$
    select v.*
    from case_version v
    where v.revision <= cut and (v.superseded_by is null or v.superseded_by > cut) and v.withdrawn is null
$$;
