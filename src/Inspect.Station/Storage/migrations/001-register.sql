-- The register, what makes it safe to write, and the indexes that can be rebuilt from it.

-- The kinds of entry. A table rather than a CHECK, because the register itself is never rebuilt: a later file adds its kinds here.
CREATE TABLE register_kind (
  kind TEXT NOT NULL PRIMARY KEY  -- the word that stands in an entry's body
) STRICT, WITHOUT ROWID;

INSERT INTO register_kind (kind) VALUES ('inspection'), ('ruling'), ('key');

-- Enduring: every record there ever was, in order. The hash stands before the body so that reading hashes alone need not pass over bodies.
CREATE TABLE register_entry (
  seq INTEGER NOT NULL PRIMARY KEY,                           -- the entry's number, from 1 without a gap; the tree's leaf index plus 1
  kind TEXT NOT NULL REFERENCES register_kind (kind),         -- what is recorded
  version INTEGER NOT NULL CHECK (version >= 1),              -- the version of the body's shape within its kind
  leaf_hash BLOB NOT NULL CHECK (length(leaf_hash) = 32),     -- SHA-256 of a zero byte and the body (RFC 6962)
  body BLOB NOT NULL CHECK (length(body) > 0)                 -- the very bytes that are hashed: canonical JSON (RFC 8785)
) STRICT;

-- Leaf hashes in order without the bodies: the tree's edge is rebuilt from it at start, and proofs are made from it.
CREATE UNIQUE INDEX register_leaf ON register_entry (seq, leaf_hash);

CREATE TRIGGER register_entry_only_next BEFORE INSERT ON register_entry
WHEN new.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM register_entry)
BEGIN
  SELECT raise(ABORT, 'The register takes only the entry with the next number.');
END;

CREATE TRIGGER register_entry_never_changed BEFORE UPDATE ON register_entry
BEGIN
  SELECT raise(ABORT, 'The register is never changed: a correction is a new entry.');
END;

CREATE TRIGGER register_entry_never_removed BEFORE DELETE ON register_entry
BEGIN
  SELECT raise(ABORT, 'Nothing is removed from the register.');
END;

-- Enduring: the public half of every key with which this station has signed.
CREATE TABLE station_key (
  number INTEGER NOT NULL PRIMARY KEY,                        -- 1 for the first key; the highest signs now
  public_key TEXT NOT NULL UNIQUE,                            -- name, id and key in the text form of signed notes
  vouched_by TEXT,                                            -- the statement in which the key before vouches for this one
  since TEXT NOT NULL CHECK (since GLOB '????-??-??T*Z'),     -- the instant it took over, UTC
  CHECK ((number = 1) = (vouched_by IS NULL))
) STRICT;

CREATE TRIGGER station_key_only_next BEFORE INSERT ON station_key
WHEN new.number IS NOT (SELECT coalesce(max(number), 0) + 1 FROM station_key)
BEGIN
  SELECT raise(ABORT, 'A key takes the next number.');
END;

CREATE TRIGGER station_key_never_changed BEFORE UPDATE ON station_key
BEGIN
  SELECT raise(ABORT, 'A key that was used is never changed.');
END;

CREATE TRIGGER station_key_never_removed BEFORE DELETE ON station_key
BEGIN
  SELECT raise(ABORT, 'A key that was used is never removed.');
END;

-- Running the station: what was answered to a request, so that the same request again gets the same answer, also after a restart.
CREATE TABLE idempotency (
  person TEXT NOT NULL,                                       -- who asked: the opaque id
  key TEXT NOT NULL CHECK (length(key) BETWEEN 1 AND 255),    -- the Idempotency-Key that the program chose
  request_hash BLOB NOT NULL CHECK (length(request_hash) = 32), -- SHA-256 of the request's body
  status INTEGER NOT NULL CHECK (status BETWEEN 200 AND 299), -- the answer's status; a failure does not use the key up
  body BLOB NOT NULL,                                         -- the answer's bytes
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z'),           -- when it was answered, UTC
  PRIMARY KEY (person, key)
) STRICT, WITHOUT ROWID;

-- Index of the register, can be rebuilt: one row for each inspection.
CREATE TABLE inspection_index (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq), -- the entry that records it
  number TEXT NOT NULL UNIQUE,                                -- what people call it: EVENT-0417
  event TEXT NOT NULL,                                        -- the event's short name
  running INTEGER NOT NULL CHECK (running >= 1),              -- the number within the event
  entry TEXT NOT NULL,                                        -- the bowler's number in the event
  code TEXT NOT NULL UNIQUE,                                  -- the code on the slip
  ball TEXT,                                                  -- the opaque id of the ball, where it was given
  serial TEXT,                                                -- the serial number as typed
  serial_folded TEXT,                                         -- the same with look-alike characters made one, for searching
  play TEXT NOT NULL CHECK (play GLOB '????-??-??'),          -- the day of play it was judged for, local to the venue
  outcome TEXT NOT NULL CHECK (outcome IN ('pass', 'fail', 'hold')), -- the verdict
  edition TEXT,                                               -- the rule edition's id; null where none was in force
  by_person TEXT NOT NULL,                                    -- the inspector's opaque id
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z'),           -- when it was recorded, UTC
  supersedes TEXT,                                            -- the number of the inspection that this one replaces
  superseded_by TEXT,                                         -- the number of the inspection that replaced this one
  UNIQUE (event, running)
) STRICT;

CREATE INDEX inspection_index_entry ON inspection_index (event, entry, seq);
CREATE INDEX inspection_index_serial ON inspection_index (serial_folded, seq);
CREATE INDEX inspection_index_ball ON inspection_index (ball, seq);
CREATE INDEX inspection_index_outcome ON inspection_index (event, outcome, seq);
CREATE INDEX inspection_index_person ON inspection_index (by_person, seq);
CREATE INDEX inspection_index_at ON inspection_index (at);

-- Index of the register, can be rebuilt: the rules that an inspection did not pass.
CREATE TABLE inspection_rule (
  rule TEXT NOT NULL,                                         -- the rule's id
  outcome TEXT NOT NULL CHECK (outcome IN ('fail', 'hold')),  -- how it came out; a fail counts before a hold
  seq INTEGER NOT NULL REFERENCES inspection_index (seq),     -- the inspection
  PRIMARY KEY (rule, outcome, seq)
) STRICT, WITHOUT ROWID;

CREATE INDEX inspection_rule_seq ON inspection_rule (seq);
