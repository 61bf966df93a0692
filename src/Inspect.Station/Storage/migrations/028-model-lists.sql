-- Lists of ball models, brought in version by version, and which of them an event reads.

INSERT INTO register_kind (kind) VALUES ('model-list');

-- Enduring: a list of models, such as a body's list of approved balls.
CREATE TABLE model_list (
  list INTEGER NOT NULL PRIMARY KEY,                                    -- from 1
  name TEXT NOT NULL UNIQUE CHECK (length(name) BETWEEN 1 AND 80),      -- what it is called
  heads BLOB CHECK (length(heads) = 32),                                -- SHA-256 of the heads of the file brought in last; null: none
  columns TEXT                                                          -- what its columns were taken for; null: none
) STRICT;

-- Enduring: what a list said on a day. Never changed; a later version takes its place.
CREATE TABLE model_list_version (
  list INTEGER NOT NULL REFERENCES model_list (list),                   -- the list
  version INTEGER NOT NULL CHECK (version >= 1),                        -- from 1, one more each time
  day TEXT NOT NULL CHECK (day GLOB '????-??-??'),                      -- the day of which it is, as its source says
  source TEXT NOT NULL CHECK (length(source) BETWEEN 1 AND 200),        -- where it was had from
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64),                     -- of the file below, in hexadecimal
  models INTEGER NOT NULL CHECK (models >= 1),                          -- how many models it has
  file BLOB NOT NULL,                                                   -- its rows as CSV
  seq INTEGER NOT NULL REFERENCES register_entry (seq),                 -- the register's entry
  PRIMARY KEY (list, version)
) STRICT;

-- The rows of each version, to look up: made from its file.
CREATE TABLE model_list_row (
  list INTEGER NOT NULL,                                                -- the list
  version INTEGER NOT NULL,                                             -- its version
  line INTEGER NOT NULL CHECK (line >= 1),                              -- the row in the file, from 1
  maker_key TEXT NOT NULL,                                              -- the maker's name, folded
  model_key TEXT NOT NULL,                                              -- the model's name, folded
  maker TEXT NOT NULL,                                                  -- the maker
  model TEXT NOT NULL,                                                  -- the model
  status TEXT,                                                          -- the status in the list's own word; null: none
  is_listed INTEGER NOT NULL CHECK (is_listed IN (0, 1)),               -- whether that word means that it is on the list
  from_day TEXT CHECK (from_day GLOB '????-??-??'),                     -- from when on; null: not said
  until_day TEXT CHECK (until_day GLOB '????-??-??'),                   -- the last day; null: no end is said
  hardness TEXT,                                                        -- hardness as made, Shore D, as written; null: not said
  pounds INTEGER CHECK (pounds BETWEEN 4 AND 16),                       -- the weight of the figures; null: of every weight
  rg TEXT,                                                              -- declared RG, with its unit; null: not said
  differential TEXT,                                                    -- declared differential; null: not said
  intermediate TEXT,                                                    -- declared intermediate differential; null: not said
  PRIMARY KEY (list, version, line),
  FOREIGN KEY (list, version) REFERENCES model_list_version (list, version)
) STRICT, WITHOUT ROWID;

CREATE INDEX model_list_row_model ON model_list_row (list, version, model_key, maker_key);

-- Which lists an event reads.
CREATE TABLE event_list (
  event TEXT NOT NULL REFERENCES event (event),                         -- the event
  list INTEGER NOT NULL REFERENCES model_list (list),                   -- the list
  use TEXT NOT NULL CHECK (use IN ('approved', 'shown')),               -- answers whether a model is listed, or is only shown
  day TEXT NOT NULL CHECK (day IN ('play', 'start')),                   -- as on the day of play, or on the event's first day
  PRIMARY KEY (event, list)
) STRICT, WITHOUT ROWID;

CREATE UNIQUE INDEX event_list_approved ON event_list (event) WHERE use = 'approved';
