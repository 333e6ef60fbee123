-- A period is a quarter, YYYY-Qn, or, in a network whose privacy basis allows no more, a year, YYYY. The service sees to it
-- that one registry holds one of the two alone.

alter table case_version
    drop constraint case_period_format,
    add constraint case_period_format check (period ~ '^[0-9]{4}(-Q[1-4])?$');

alter table activity_return
    drop constraint return_period_format,
    add constraint return_period_format check (period ~ '^[0-9]{4}(-Q[1-4])?$');

comment on table activity_return is 'One version of a centre''s whole return of one period; a later version replaces it.';
