-- Version 5 of the bench log: what a settle time belongs to, and since when the card was powered.

-- What was driven and seen before a vector, and what was driven then, in eight bytes of its SHA-256;
-- vectors alike in these are repeats of one transition. NULL in logs written before (worked out when
-- read), and where what came before is not known.
ALTER TABLE vector ADD COLUMN transition INTEGER;

-- The card's supply came on before this vector, or was found to be on (how 0).
CREATE TABLE power_on (
  run INTEGER NOT NULL,
  vector INTEGER NOT NULL,
  how INTEGER NOT NULL CHECK (how BETWEEN 0 AND 3),
  PRIMARY KEY (run, vector)
) STRICT, WITHOUT ROWID;

-- By how much the fixture's clock ran off this computer's, millionths; NULL where it was not compared.
ALTER TABLE run ADD COLUMN clock_off_ppm INTEGER;

-- Files that show a repair, by reference.
CREATE TABLE rework_picture (
  rework INTEGER NOT NULL,
  position INTEGER NOT NULL,
  file TEXT NOT NULL,
  PRIMARY KEY (rework, position)
) STRICT, WITHOUT ROWID;

CREATE INDEX run_of_unit ON run (card, unit, simulated, started_us);
