-- Damage to the store is noticed: the witness beside it, what was lost and accepted, and a test of the store as large as a recording.

INSERT INTO register_kind (kind) VALUES ('loss');

-- Index of the register, can be rebuilt: one row for each loss that was accepted at a start.
CREATE TABLE loss_index (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq), -- the entry that accepts it
  claimed INTEGER NOT NULL CHECK (claimed >= 0),              -- how many entries the register should have had; 0 where nobody knows
  gap INTEGER NOT NULL CHECK (gap >= 0),                      -- how many numbers of each event are left out after it
  what TEXT NOT NULL,                                         -- what is missing, in a sentence
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z')            -- when it was accepted, UTC
) STRICT;

-- Running the station: has a row once the witness beside the store was written; from then on a store without it does not start.
CREATE TABLE witness_begun (
  id INTEGER NOT NULL PRIMARY KEY CHECK (id = 1),             -- one row at most
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z')            -- when it was first written, UTC
) STRICT;

-- The test of the store writes as much as a recording does.
ALTER TABLE health ADD COLUMN room BLOB;
