-- Version 2 of the bench log: where a step of a procedure was called, file:line, the innermost call
-- first; empty for a step that comes from no call, and for those of logs written before.

ALTER TABLE run_step ADD COLUMN called_at TEXT NOT NULL DEFAULT '';

-- A run may continue another that ended early: which one, and the first vector whose record here
-- holds. What that one recorded below it stands; vectors here below it only established the state.
ALTER TABLE run ADD COLUMN continues INTEGER;
ALTER TABLE run ADD COLUMN continues_at INTEGER;
CREATE INDEX run_continues ON run (continues) WHERE continues IS NOT NULL;

-- The words by which steps of the plan were chosen (skip 0) or left out (skip 1).
CREATE TABLE run_choice (
  run INTEGER NOT NULL,
  skip INTEGER NOT NULL CHECK (skip IN (0, 1)),
  position INTEGER NOT NULL,
  word TEXT NOT NULL,
  PRIMARY KEY (run, skip, position)
) STRICT, WITHOUT ROWID;
