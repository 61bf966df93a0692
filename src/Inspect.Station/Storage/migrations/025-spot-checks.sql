-- A ball in use, compared with what its slip says of it.

INSERT INTO register_kind (kind) VALUES ('spot-check');

-- Index of the register, can be rebuilt: one row for each spot check.
CREATE TABLE spot_check_index (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the entry that records it
  number TEXT NOT NULL,                                                   -- the inspection that the ball was compared with
  event TEXT NOT NULL,                                                    -- that inspection's event
  differs TEXT NOT NULL,                                                  -- what differs, words with a space between them; empty: it is the ball
  remark_hash TEXT CHECK (length(remark_hash) = 64),                      -- what stands for the remark in the register; null: no remark
  by_person TEXT NOT NULL,                                                -- who compared: the opaque id
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z')                        -- when, UTC
) STRICT;

CREATE INDEX spot_check_index_number ON spot_check_index (number, seq);
CREATE INDEX spot_check_index_event ON spot_check_index (event, seq);
