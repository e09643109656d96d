-- Version 3 of the bench log: what the fixture measured of the card's supply, vector by vector, and
-- what a sound card draws by its wiring. NULL where it is not measured or not known, and in logs
-- written before.

ALTER TABLE vector ADD COLUMN rail_mv INTEGER;
ALTER TABLE vector ADD COLUMN rail_low_mv INTEGER;
ALTER TABLE vector ADD COLUMN current_ma INTEGER;
ALTER TABLE vector ADD COLUMN current_high_ma INTEGER;
ALTER TABLE vector ADD COLUMN current_expected_ma INTEGER;

ALTER TABLE vector_superseded ADD COLUMN rail_mv INTEGER;
ALTER TABLE vector_superseded ADD COLUMN rail_low_mv INTEGER;
ALTER TABLE vector_superseded ADD COLUMN current_ma INTEGER;
ALTER TABLE vector_superseded ADD COLUMN current_high_ma INTEGER;
ALTER TABLE vector_superseded ADD COLUMN current_expected_ma INTEGER;

-- What the current said of a card, beside what its lines said: a coil or a lamp that is not there.
CREATE TABLE run_supply_finding (
  run INTEGER NOT NULL,
  position INTEGER NOT NULL,
  vector INTEGER NOT NULL,
  words TEXT NOT NULL,
  PRIMARY KEY (run, position)
) STRICT, WITHOUT ROWID;
