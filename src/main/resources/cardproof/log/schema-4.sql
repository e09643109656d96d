-- Version 4 of the bench log: what sweeps found. The trials themselves are vectors, with the verdict
-- 8 (measured) where they were not judged; a sweep is known by the number of the first of them.
-- NULL: no limit; it failed at the longest time; it never failed; it never worked.

CREATE TABLE sweep (
  run INTEGER NOT NULL,
  first_trial INTEGER NOT NULL,
  step INTEGER NOT NULL,
  what TEXT NOT NULL,
  from_us INTEGER NOT NULL,
  to_us INTEGER NOT NULL,
  resolution_us INTEGER NOT NULL,
  at_most_us INTEGER,
  trials INTEGER NOT NULL,
  planned INTEGER NOT NULL,
  PRIMARY KEY (run, first_trial)
) STRICT, WITHOUT ROWID;

CREATE TABLE sweep_line (
  run INTEGER NOT NULL,
  first_trial INTEGER NOT NULL,
  line INTEGER NOT NULL,
  rising INTEGER NOT NULL CHECK (rising IN (0, 1)),
  worked_us INTEGER,
  failed_us INTEGER,
  ever_worked_us INTEGER,
  trials INTEGER NOT NULL,
  at_edge INTEGER NOT NULL,
  PRIMARY KEY (run, first_trial, line, rising)
) STRICT, WITHOUT ROWID;
