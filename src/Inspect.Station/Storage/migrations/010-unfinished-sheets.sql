-- Sheets that are being measured: kept while typed, taken up at any table, removed by recording. Nothing here is a record.

-- Running the station.
CREATE TABLE unfinished_sheet (
  form TEXT NOT NULL PRIMARY KEY                                           -- the form's key, under which it will be recorded once
    CHECK (length(form) = 32 AND form NOT GLOB '*[^0-9a-f]*'),
  event TEXT NOT NULL,                                                     -- the event it is measured in
  entry TEXT NOT NULL,                                                     -- the bowler's number in it
  supersedes TEXT,                                                         -- the inspection it would replace; null: none
  ball TEXT,                                                               -- the ball's id where it was judged with another grip; null: new
  typed TEXT NOT NULL CHECK (json_type(typed) = 'object'),                 -- field to values, revision, who, at which table, from which page
  revision INTEGER NOT NULL CHECK (revision >= 1),                         -- grows with each change
  touched_by TEXT NOT NULL REFERENCES person (id),                         -- who typed last
  touched_table TEXT CHECK (length(touched_table) BETWEEN 1 AND 40),       -- at which table, by the name given there; null: not given
  touched_at TEXT NOT NULL CHECK (touched_at GLOB '????-??-??T*Z'),        -- when, UTC
  FOREIGN KEY (event, entry) REFERENCES entry (event, entry)
) STRICT;

CREATE INDEX unfinished_sheet_entry ON unfinished_sheet (event, entry);

-- A form that two people have open is recorded once: its key is looked for whoever used it.
CREATE INDEX idempotency_key ON idempotency (key);
