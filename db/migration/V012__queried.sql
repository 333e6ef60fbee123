-- Whether a rule asked the sender of a version to look again. Kept as it was when the version was made: a report of a
-- revision stays the same when rules change, and counting does not read every case. Null in versions from before this
-- was kept; those are looked at when they are counted.
alter table case_version add column queried boolean;
comment on column case_version.queried is 'Whether a querying rule asked the sender of this version to look again; null if made before this was kept.';
