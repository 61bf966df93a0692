-- Who waits at the door, which tables are open, what a ball wears and looks like, and what an event lays down for all of that.

INSERT INTO register_kind (kind) VALUES ('photograph');

-- Running the station: what the director lays down for the tables of an event.
CREATE TABLE event_table (
  event TEXT NOT NULL PRIMARY KEY REFERENCES event (event),               -- whose tables these are
  most_balls INTEGER CHECK (most_balls BETWEEN 1 AND 99),                 -- how many balls an entry may have inspected; null: no such rule
  wall_word TEXT UNIQUE CHECK (length(wall_word) = 26),                   -- random: opens the wall screen without a sign-in; null: closed
  wall_names INTEGER NOT NULL DEFAULT 0 CHECK (wall_names IN (0, 1))      -- 1 when the wall screen adds first name and initial to the number
) STRICT;

-- Running the station: the table that an inspector works at, one for each person and event, while it is open.
CREATE TABLE queue_table (
  event TEXT NOT NULL REFERENCES event (event),                           -- the event it is open for
  person TEXT NOT NULL REFERENCES person (id),                            -- who works at it
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 20),               -- as called out and shown, such as Table 2
  name_key TEXT NOT NULL,                                                 -- the same as it is compared, so that no name is open twice
  opened_at TEXT NOT NULL CHECK (opened_at GLOB '????-??-??T*Z'),         -- since when, UTC
  PRIMARY KEY (event, person),
  UNIQUE (event, name_key)
) STRICT, WITHOUT ROWID;

-- Running the station: one row for each time a bowler came to be inspected.
CREATE TABLE queue_place (
  place INTEGER NOT NULL PRIMARY KEY,                                     -- what a form names it by
  event TEXT NOT NULL,                                                    -- the event
  entry TEXT NOT NULL,                                                    -- the bowler's number in it
  state TEXT NOT NULL                                                     -- where the bowler is
    CHECK (state IN ('waiting', 'called', 'at-table', 'done', 'left')),
  arrived_at TEXT NOT NULL CHECK (arrived_at GLOB '????-??-??T*Z'),       -- when marked in at the door, UTC
  waits_since TEXT NOT NULL CHECK (waits_since GLOB '????-??-??T*Z'),     -- what the order counts; later than arrived_at once passed over, UTC
  table_name TEXT CHECK (length(table_name) BETWEEN 1 AND 20),            -- the table called to; null while waiting
  person TEXT REFERENCES person (id),                                     -- the inspector of that table; null while waiting
  called_at TEXT CHECK (called_at GLOB '????-??-??T*Z'),                  -- when called last, UTC
  ended_at TEXT CHECK (ended_at GLOB '????-??-??T*Z'),                    -- when done or left, UTC
  FOREIGN KEY (event, entry) REFERENCES entry (event, entry),
  CHECK ((state IN ('done', 'left')) = (ended_at IS NOT NULL)),
  CHECK (state NOT IN ('called', 'at-table') OR (table_name IS NOT NULL AND person IS NOT NULL AND called_at IS NOT NULL)),
  CHECK (state <> 'waiting' OR (table_name IS NULL AND person IS NULL))
) STRICT;

-- A bowler stands in the queue once, and a table has one bowler.
CREATE UNIQUE INDEX queue_place_once ON queue_place (event, entry) WHERE state IN ('waiting', 'called', 'at-table');
CREATE UNIQUE INDEX queue_place_table ON queue_place (event, person) WHERE state IN ('called', 'at-table');
CREATE INDEX queue_place_ended ON queue_place (event, ended_at);

-- Index of the register, can be rebuilt: the seals and tags that balls wear.
CREATE TABLE tag_index (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the inspection's entry
  event TEXT NOT NULL,                                                    -- the event
  tag TEXT NOT NULL CHECK (length(tag) BETWEEN 1 AND 20),                 -- as printed on the tag
  tag_key TEXT NOT NULL                                                   -- the same as it is compared: capitals, no spaces or hyphens
) STRICT;

CREATE INDEX tag_index_key ON tag_index (event, tag_key);

-- Index of the register, can be rebuilt: which photographs belong to which inspection.
CREATE TABLE photograph_index (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the entry that records it
  inspection TEXT NOT NULL,                                               -- the number of the inspection
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64),                       -- of the photograph's bytes
  media_type TEXT NOT NULL                                                -- what its first bytes say it is
    CHECK (media_type IN ('image/jpeg', 'image/png', 'image/webp')),
  by_person TEXT NOT NULL,                                                -- who took it in: the opaque id
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z')                        -- when, UTC
) STRICT;

CREATE INDEX photograph_index_inspection ON photograph_index (inspection, seq);

-- Can be struck: the photographs themselves. Once a row is gone the register still has its hash.
CREATE TABLE photograph (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the entry that records it
  body BLOB NOT NULL CHECK (length(body) > 0)                             -- the bytes as they were sent
) STRICT;
