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

-- A draw by lot is two entries: what is drawn from and how many, and then the seed with what it drew.
INSERT INTO register_kind (kind) VALUES ('draw-pool'), ('draw');

-- Index of the register, can be rebuilt: the pools that were fixed.
CREATE TABLE draw_pool_index (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the entry that records it
  event TEXT NOT NULL                                                     -- the event's short name
) STRICT;

CREATE INDEX draw_pool_index_event ON draw_pool_index (event, seq);

-- Index of the register, can be rebuilt: the draws that were made, one from each pool.
CREATE TABLE draw_index (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the entry that records it
  pool INTEGER NOT NULL UNIQUE                                            -- the entry of the pool that was drawn from
) STRICT;

-- Enduring: what is in each pool. The register has its SHA-256.
CREATE TABLE draw_pool (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the entry that records it
  numbers TEXT NOT NULL                                                   -- numbers of slips or entries, sorted, each with a line feed behind it
) STRICT;

-- A ball that was not to be changed any more reads otherwise than its slip.
INSERT INTO register_kind (kind) VALUES ('freeze-alert');

-- Index of the register, can be rebuilt: one row for each such inspection.
CREATE TABLE freeze_alert_index (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the entry that records it
  number TEXT NOT NULL UNIQUE,                                            -- the inspection whose readings differ
  event TEXT NOT NULL                                                     -- that inspection's event
) STRICT;

CREATE INDEX freeze_alert_index_event ON freeze_alert_index (event, seq);
