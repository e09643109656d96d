-- Version 1 of the bench log. Never edited once released: a change is a script of its own.
-- Instants are microseconds since 1970-01-01 UTC. Sets of lines are little-endian blobs, bit n of
-- the set being line n, trailing zero bytes left out.

CREATE TABLE run (
  run INTEGER PRIMARY KEY,
  card TEXT NOT NULL,
  unit TEXT NOT NULL,
  simulated INTEGER NOT NULL CHECK (simulated IN (0, 1)),
  card_title TEXT NOT NULL,
  plan TEXT NOT NULL,
  plan_title TEXT NOT NULL,
  planned INTEGER NOT NULL,
  partial INTEGER NOT NULL CHECK (partial IN (0, 1)),
  seed INTEGER,
  board TEXT NOT NULL,
  firmware TEXT NOT NULL,
  board_id INTEGER NOT NULL,
  sampling_ns INTEGER NOT NULL,
  port TEXT NOT NULL,
  note TEXT NOT NULL,
  limits_json TEXT NOT NULL,
  hookup_json TEXT NOT NULL,
  started_us INTEGER NOT NULL,
  ended_us INTEGER,
  ending INTEGER NOT NULL DEFAULT 0 CHECK (ending BETWEEN 0 AND 5),
  why TEXT NOT NULL DEFAULT '',
  -- Who is writing it, so that a run whose process died is not taken for one that goes on.
  host TEXT NOT NULL,
  pid INTEGER NOT NULL,
  process_started_us INTEGER
) STRICT;

CREATE TABLE run_fault (
  run INTEGER NOT NULL,
  position INTEGER NOT NULL,
  fault TEXT NOT NULL,
  PRIMARY KEY (run, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE run_file (
  run INTEGER NOT NULL,
  name TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  PRIMARY KEY (run, name)
) STRICT, WITHOUT ROWID;

CREATE TABLE run_line (
  run INTEGER NOT NULL,
  line INTEGER NOT NULL,
  bus TEXT NOT NULL,
  bit INTEGER NOT NULL,
  label TEXT NOT NULL,
  pin TEXT NOT NULL,
  driven INTEGER NOT NULL,
  watched INTEGER NOT NULL,
  PRIMARY KEY (run, line)
) STRICT, WITHOUT ROWID;

CREATE TABLE run_step (
  run INTEGER NOT NULL,
  step INTEGER NOT NULL,
  file TEXT NOT NULL,
  line INTEGER NOT NULL,
  title TEXT NOT NULL,
  PRIMARY KEY (run, step)
) STRICT, WITHOUT ROWID;

-- Vectors by verdict, written when a run ends: a listing need not count millions of rows.
CREATE TABLE run_tally (
  run INTEGER NOT NULL,
  verdict INTEGER NOT NULL,
  vectors INTEGER NOT NULL,
  PRIMARY KEY (run, verdict)
) STRICT, WITHOUT ROWID;

-- The record of each vector that holds now. One a vector; what it took the place of is below.
CREATE TABLE vector (
  run INTEGER NOT NULL,
  number INTEGER NOT NULL,
  step INTEGER NOT NULL,
  index_in_step INTEGER NOT NULL,
  verdict INTEGER NOT NULL,
  why TEXT NOT NULL,
  start_us INTEGER NOT NULL,
  duration_us INTEGER NOT NULL,
  gap_us INTEGER NOT NULL,
  quiet_us INTEGER NOT NULL,
  driven BLOB NOT NULL,
  level BLOB NOT NULL,
  wanted BLOB NOT NULL,
  cared BLOB NOT NULL,
  seen BLOB NOT NULL,
  seen_before BLOB NOT NULL,
  PRIMARY KEY (run, number)
) STRICT, WITHOUT ROWID;

-- Passes (0) are many and need no index.
CREATE INDEX vector_not_passed ON vector (run, number) WHERE verdict <> 0;

-- Lines that moved, in the order that statistics read them. A vector touches as many pages of this
-- table as lines moved, too many for one commit a vector; so lines first go to moved_recent, one
-- row a vector, and come here a hundred or so vectors at a time. Readers take both.
CREATE TABLE moved (
  run INTEGER NOT NULL,
  line INTEGER NOT NULL,
  ends_high INTEGER NOT NULL,
  number INTEGER NOT NULL,
  first_us INTEGER NOT NULL,
  last_us INTEGER NOT NULL,
  changes INTEGER NOT NULL,
  moves INTEGER NOT NULL,
  censored INTEGER NOT NULL,
  by_fixture INTEGER NOT NULL,
  PRIMARY KEY (run, line, ends_high, number)
) STRICT, WITHOUT ROWID;

-- An array in JSON of one array a line: [line, ends_high, first_us, last_us, changes, moves, censored].
CREATE TABLE moved_recent (
  run INTEGER NOT NULL,
  number INTEGER NOT NULL,
  moved TEXT NOT NULL,
  PRIMARY KEY (run, number)
) STRICT, WITHOUT ROWID;

CREATE VIEW moved_recent_line AS
SELECT
  run,
  value ->> 0 AS line,
  value ->> 1 AS ends_high,
  number,
  value ->> 2 AS first_us,
  value ->> 3 AS last_us,
  value ->> 4 AS changes,
  value ->> 5 AS moves,
  value ->> 6 AS censored,
  value ->> 7 AS by_fixture
FROM moved_recent CROSS JOIN json_each(moved_recent.moved);

-- Records that no longer hold, as they were.
CREATE TABLE vector_superseded (
  run INTEGER NOT NULL,
  number INTEGER NOT NULL,
  revision INTEGER NOT NULL,
  superseded_why TEXT NOT NULL,
  step INTEGER NOT NULL,
  index_in_step INTEGER NOT NULL,
  verdict INTEGER NOT NULL,
  why TEXT NOT NULL,
  start_us INTEGER NOT NULL,
  duration_us INTEGER NOT NULL,
  gap_us INTEGER NOT NULL,
  quiet_us INTEGER NOT NULL,
  driven BLOB NOT NULL,
  level BLOB NOT NULL,
  wanted BLOB NOT NULL,
  cared BLOB NOT NULL,
  seen BLOB NOT NULL,
  seen_before BLOB NOT NULL,
  PRIMARY KEY (run, number, revision)
) STRICT, WITHOUT ROWID;

CREATE TABLE moved_superseded (
  run INTEGER NOT NULL,
  number INTEGER NOT NULL,
  revision INTEGER NOT NULL,
  line INTEGER NOT NULL,
  ends_high INTEGER NOT NULL,
  first_us INTEGER NOT NULL,
  last_us INTEGER NOT NULL,
  changes INTEGER NOT NULL,
  moves INTEGER NOT NULL,
  censored INTEGER NOT NULL,
  by_fixture INTEGER NOT NULL,
  PRIMARY KEY (run, number, revision, line)
) STRICT, WITHOUT ROWID;

CREATE TABLE rework (
  rework INTEGER PRIMARY KEY,
  card TEXT NOT NULL,
  unit TEXT NOT NULL,
  simulated INTEGER NOT NULL CHECK (simulated IN (0, 1)),
  note TEXT NOT NULL,
  at_us INTEGER NOT NULL
) STRICT;
