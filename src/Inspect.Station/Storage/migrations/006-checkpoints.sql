-- States of the register that were signed and kept, so that a later state can be shown to begin with them.

-- Enduring: the signed checkpoints that somebody asked to be kept.
CREATE TABLE kept_checkpoint (
  size INTEGER NOT NULL PRIMARY KEY CHECK (size >= 0),          -- how many entries the register had
  note TEXT NOT NULL CHECK (length(note) > 0),                  -- the signed note, byte for byte
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z'),             -- when it was signed, UTC
  by_person TEXT NOT NULL                                       -- who asked for it: the opaque id
) STRICT;
