-- What runs the station and what can be struck: people, who may sign in, events, squads and entries.

-- Can be struck: the only place where an id meets a name. Once struck, the hashes in the register say nothing about anybody.
CREATE TABLE person (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) = 16),    -- opaque and random: what stands for the person everywhere else
  name TEXT CHECK (length(name) BETWEEN 1 AND 200),        -- as people read it; null once struck
  salt BLOB CHECK (length(salt) = 32),                     -- random; names and free text are hashed under it; null once struck
  CHECK ((name IS NULL) = (salt IS NULL))
) STRICT;

CREATE TABLE sign_in (
  name TEXT NOT NULL,                                                      -- typed to sign in, as its owner writes it
  name_key TEXT NOT NULL PRIMARY KEY,                                      -- the same as it is compared: normalised, in lower case
  person TEXT NOT NULL REFERENCES person (id),                             -- who it is
  passcode_hash TEXT NOT NULL,                                             -- the framework's salted hash of the passcode
  role TEXT NOT NULL CHECK (role IN ('inspector', 'director')),            -- what it may do
  disabled INTEGER NOT NULL DEFAULT 0 CHECK (disabled IN (0, 1)),          -- 1 when it may no longer be used
  stamp TEXT NOT NULL                                                      -- random, new with each change: a cookie with another is void
) STRICT;

CREATE TABLE event (
  event TEXT NOT NULL PRIMARY KEY                                          -- the short name: what inspection numbers begin with
    CHECK (length(event) BETWEEN 2 AND 12 AND event NOT GLOB '*[^A-Z0-9]*'),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 200),               -- the name in full
  from_day TEXT NOT NULL                                                   -- the first day of play at the venue, yyyy-mm-dd
    CHECK (from_day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  to_day TEXT NOT NULL                                                     -- the last day of play at the venue, yyyy-mm-dd
    CHECK (to_day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  time_zone TEXT NOT NULL,                                                 -- the venue's, by its IANA name
  authority TEXT NOT NULL CHECK (length(authority) > 0),                   -- the body whose rules are played by
  edition TEXT,                                                            -- "authority/yyyy-mm-dd"; null: in force on the day of play
  plan TEXT CHECK (json_valid(plan) AND json_type(plan) = 'array'),        -- ids of the rules checked, JSON; null: all of the edition
  single_official INTEGER NOT NULL DEFAULT 0                               -- 1 when one official may rule on what they measured
    CHECK (single_official IN (0, 1)),
  CHECK (from_day <= to_day)
) STRICT;

CREATE TABLE squad (
  event TEXT NOT NULL REFERENCES event (event),                            -- the event it belongs to
  squad TEXT NOT NULL CHECK (length(squad) BETWEEN 1 AND 40),              -- what it is called within the event
  starts TEXT NOT NULL                                                     -- local time at the venue, yyyy-mm-ddThh:mm
    CHECK (starts GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]'),
  PRIMARY KEY (event, squad)
) STRICT;

CREATE TABLE entry (
  event TEXT NOT NULL REFERENCES event (event),                            -- the event entered
  entry TEXT NOT NULL CHECK (length(entry) BETWEEN 1 AND 12),              -- the bowler's number in it, as printed
  person TEXT NOT NULL REFERENCES person (id),                             -- the bowler
  squad TEXT,                                                              -- the squad entered for; null when not yet drawn
  PRIMARY KEY (event, entry),
  FOREIGN KEY (event, squad) REFERENCES squad (event, squad)
) STRICT;

CREATE INDEX entry_by_person ON entry (person);

CREATE TABLE health (
  id INTEGER NOT NULL PRIMARY KEY CHECK (id = 1),                          -- there is one row
  checked_at TEXT NOT NULL                                                 -- when it was last written only to see that it can be, UTC
) STRICT;
