-- Departmental meetings: what they are about, what was said about their cases, and what was agreed. A row belongs to the
-- centre of its meeting, or, where centre is null, to the network; row security as in V005. Texts are a line of at most 200
-- characters and screened before they come here.

create table meeting (
    id text primary key constraint meeting_id_format check (id ~ '^mtg-[A-Za-z0-9_-]{12}$'),
    centre text references centre (code),
    kind text not null constraint meeting_kind_code check (kind in ('morbidity-mortality', 'quality', 'teaching')),
    first_period text not null constraint meeting_period_format check (first_period ~ '^[0-9]{4}(-Q[1-4])?$'),
    last_period text not null constraint meeting_last_period_format check (last_period ~ '^[0-9]{4}(-Q[1-4])?$'),
    case_rule text not null constraint case_rule_code check (case_rule in (
        'none', 'kind', 'harm-at-least', 'random-sample')),
    device_class text constraint device_class_code check (device_class in (
        'guidewire', 'balloon', 'scoring-balloon', 'lithotripsy-balloon', 'stent', 'rotational-burr',
        'orbital-crown', 'laser-catheter', 'microcatheter', 'guide-extension', 'imaging-catheter', 'filter',
        'other')),
    harm text constraint harm_code check (harm in ('none', 'mild', 'moderate', 'severe', 'death')),
    sample_size integer constraint sample_size_range check (sample_size between 1 and 12),
    seed bigint not null,
    version integer not null constraint meeting_version_from_one check (version >= 1),
    cut integer constraint meeting_cut_from_one check (cut >= 1),
    created_at timestamptz not null,
    key_id text not null references access_key (id),
    constraint meeting_period_order check (first_period <= last_period),
    constraint case_rule_fields check (
        (device_class is not null) = (case_rule = 'kind')
        and (harm is not null) = (case_rule = 'harm-at-least')
        and (sample_size is not null) = (case_rule = 'random-sample'))
);
comment on table meeting is 'A meeting of a centre or of the network, as it is now; what a cut showed is in meeting_cut.';
comment on column meeting.centre is 'Null for the network''s meeting, which shows figures and no single case.';
comment on column meeting.first_period is 'The first period it is about, included.';
comment on column meeting.case_rule is 'How its cases are chosen: all of a kind, from a degree of harm on, or at random.';
comment on column meeting.device_class is 'The kind, of rule kind.';
comment on column meeting.harm is 'The least degree, of rule harm-at-least.';
comment on column meeting.seed is 'What orders the cases at random; drawn by the service, so that nobody searches for one.';
comment on column meeting.cut is 'The number of the cut at which it is frozen; null while it is not.';
create index meeting_by_centre on meeting (centre, created_at);

create table meeting_cut (
    meeting text not null references meeting (id),
    number integer not null constraint cut_number_from_one check (number >= 1),
    centre text references centre (code),
    revision bigint not null constraint cut_revision_from_zero check (revision >= 0),
    revision_at timestamptz,
    frozen_at timestamptz not null,
    key_id text not null references access_key (id),
    program text not null,
    definition jsonb not null,
    primary key (meeting, number)
);
comment on table meeting_cut is 'What a meeting was when it was frozen. Only ever added to.';
comment on column meeting_cut.revision is 'Every figure of its slides is counted as of this revision; 0 for the empty registry.';
comment on column meeting_cut.revision_at is 'When that revision was accepted.';
comment on column meeting_cut.program is 'The version of the service that froze it; another may word its sentences otherwise.';
comment on column meeting_cut.definition is 'What no revision holds: settings, keys of the chosen cases, review, actions, as they were.';

create table case_review (
    meeting text not null references meeting (id),
    case_key text not null constraint case_key_format check (case_key ~ '^[A-Za-z0-9-]{6,40}$'),
    centre text not null references centre (code),
    version integer not null constraint review_version_from_one check (version >= 1),
    primary key (meeting, case_key)
);
comment on table case_review is 'The review of one case by one meeting.';

create table review_statement (
    meeting text not null,
    case_key text not null,
    centre text not null references centre (code),
    position integer not null constraint statement_position_range check (position between 1 and 60),
    kind text not null constraint statement_kind_code check (kind in (
        'contributing-factor', 'learning-point', 'went-well')),
    factor_type text constraint factor_type_code check (factor_type in (
        'patient', 'task', 'individual', 'team', 'equipment', 'environment', 'organisation')),
    text text not null constraint statement_length check (length(text) between 1 and 200),
    primary key (meeting, case_key, position),
    foreign key (meeting, case_key) references case_review (meeting, case_key),
    constraint factor_type_of_factor check ((factor_type is not null) = (kind = 'contributing-factor'))
);
comment on table review_statement is 'What a review says, in order; written anew with each version of the review.';
comment on column review_statement.factor_type is 'Vincent C, Taylor-Adams S, Stanhope N, BMJ 1998;316:1154-1157.';

create table preventability_rating (
    meeting text not null references meeting (id),
    case_key text not null constraint case_key_format check (case_key ~ '^[A-Za-z0-9-]{6,40}$'),
    key_id text not null references access_key (id),
    centre text not null references centre (code),
    rating text not null constraint preventability_code check (rating in (
        'definitely-not', 'probably-not', 'probably', 'definitely')),
    rated_at timestamptz not null,
    primary key (meeting, case_key, key_id)
);
comment on table preventability_rating is 'One reviewer''s judgement, never shown: the spread of three and more is.';

create table meeting_action (
    meeting text not null references meeting (id),
    number integer not null constraint action_number_from_one check (number >= 1),
    centre text references centre (code),
    what text not null constraint action_what_length check (length(what) between 1 and 200),
    owner text not null constraint owner_role_code check (owner in (
        'lab-lead', 'operator-lead', 'nursing-lead', 'technologist-lead', 'training-lead', 'equipment-lead',
        'quality-lead', 'data-lead')),
    due_on date not null,
    measure jsonb not null,
    status text not null constraint action_status_code check (status in ('open', 'done', 'dropped')),
    version integer not null constraint action_version_from_one check (version >= 1),
    created_at timestamptz not null,
    changed_at timestamptz not null,
    primary key (meeting, number)
);
comment on table meeting_action is 'What a meeting agreed, who by role sees to it, by when, and what will show an effect.';
comment on column meeting_action.owner is 'A role, never a person.';
comment on column meeting_action.measure is 'A report with filters and the periods before and after.';

create policy meeting_in_view on meeting to registry_app
    using (centre = any ((select string_to_array(current_setting('registry.centres', true), ','))::text[])
        or (select current_setting('registry.centres', true)) = '*');
create policy meeting_cut_in_view on meeting_cut to registry_app
    using (centre = any ((select string_to_array(current_setting('registry.centres', true), ','))::text[])
        or (select current_setting('registry.centres', true)) = '*');
create policy case_review_in_view on case_review to registry_app
    using (centre = any ((select string_to_array(current_setting('registry.centres', true), ','))::text[])
        or (select current_setting('registry.centres', true)) = '*');
create policy review_statement_in_view on review_statement to registry_app
    using (centre = any ((select string_to_array(current_setting('registry.centres', true), ','))::text[])
        or (select current_setting('registry.centres', true)) = '*');
create policy preventability_rating_in_view on preventability_rating to registry_app
    using (centre = any ((select string_to_array(current_setting('registry.centres', true), ','))::text[])
        or (select current_setting('registry.centres', true)) = '*');
create policy meeting_action_in_view on meeting_action to registry_app
    using (centre = any ((select string_to_array(current_setting('registry.centres', true), ','))::text[])
        or (select current_setting('registry.centres', true)) = '*');

alter table meeting enable row level security;
alter table meeting_cut enable row level security;
alter table case_review enable row level security;
alter table review_statement enable row level security;
alter table preventability_rating enable row level security;
alter table meeting_action enable row level security;

-- A cut and a rating are never changed.
grant select, insert, update (kind, first_period, last_period, case_rule, device_class, harm, sample_size, version, cut)
    on meeting to registry_app;
grant select, insert on meeting_cut, preventability_rating to registry_app;
grant select, insert, update (version) on case_review to registry_app;
grant select, insert, delete on review_statement to registry_app;
grant select, insert, update (what, owner, due_on, measure, status, version, changed_at) on meeting_action to registry_app;
