-- Closing reports that were issued: each an entry of the register with the hash of its file, and the files where they can be struck.

INSERT INTO register_kind (kind) VALUES ('report');

-- Index of the register, can be rebuilt: the closing reports that were issued.
CREATE TABLE report_index (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the entry that records it
  event TEXT NOT NULL,                                                    -- the event's short name
  number TEXT NOT NULL UNIQUE,                                            -- the number that the report bears
  entries INTEGER NOT NULL CHECK (entries >= 0),                          -- how many entries the register had when it was drawn up
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64),                       -- of the file's bytes
  by_person TEXT NOT NULL,                                                -- who issued it: the opaque id
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z')                        -- when, UTC
) STRICT;

CREATE INDEX report_index_event ON report_index (event, seq);
CREATE INDEX report_index_sha256 ON report_index (sha256);

-- Can be struck: the files themselves, which name people. Once a row is gone the register still has its hash.
CREATE TABLE report_file (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the entry that records it
  pdf BLOB NOT NULL CHECK (length(pdf) > 0)                               -- the bytes as they were issued
) STRICT;
