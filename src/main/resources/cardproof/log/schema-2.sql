-- Version 2 of the bench log: where a step of a procedure was called, file:line, the innermost call
-- first; empty for a step that comes from no call, and for those of logs written before.

ALTER TABLE run_step ADD COLUMN called_at TEXT NOT NULL DEFAULT '';
