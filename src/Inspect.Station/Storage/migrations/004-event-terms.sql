-- What an event lays down beside the edition: its own rules, how it decides near a limit, what it draws, and the limits its director confirmed.

INSERT INTO register_kind (kind) VALUES ('confirmation');

-- Running the station.
CREATE TABLE event_terms (
  event TEXT NOT NULL PRIMARY KEY REFERENCES event (event),               -- whose terms these are
  terms TEXT NOT NULL CHECK (json_type(terms) = 'object'),                -- decision rule, guard factor and uncertainties, as JSON
  freeze_minutes INTEGER CHECK (freeze_minutes BETWEEN 0 AND 1440),       -- how long before its squad a ball is frozen; null: never
  shares TEXT NOT NULL CHECK (json_type(shares) = 'object'),              -- rule id to the per cent of balls it is checked on
  draw_salt BLOB NOT NULL CHECK (length(draw_salt) = 32)                  -- random: what is drawn cannot be foretold
) STRICT;

-- Running the station: the event's supplements, byte for byte.
CREATE TABLE event_supplement (
  event TEXT NOT NULL REFERENCES event (event),                           -- the event that lays it down
  supplement TEXT NOT NULL CHECK (length(supplement) BETWEEN 1 AND 60),   -- its short name
  body BLOB NOT NULL CHECK (length(body) > 0),                            -- the very bytes that are hashed
  added_at TEXT NOT NULL CHECK (added_at GLOB '????-??-??T*Z'),           -- when, UTC
  added_by TEXT NOT NULL REFERENCES person (id),                          -- by which director
  PRIMARY KEY (event, supplement)
) STRICT, WITHOUT ROWID;

-- Index of the register, can be rebuilt: limits that directors confirmed.
CREATE TABLE confirmation_index (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the entry that records it
  event TEXT NOT NULL,                                                    -- the event it holds for
  confirmation TEXT NOT NULL CHECK (json_type(confirmation) = 'object')   -- rule, limit, who, day and document, as in the entry
) STRICT;

CREATE INDEX confirmation_index_event ON confirmation_index (event, seq);
