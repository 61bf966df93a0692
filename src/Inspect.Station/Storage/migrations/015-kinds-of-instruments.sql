-- The kinds of instruments as rows, so that one more is a row and no new table.

-- Running the station: the kinds of instruments there are.
CREATE TABLE instrument_kind (
  kind TEXT NOT NULL PRIMARY KEY                                          -- the word that stands for it everywhere
) STRICT;

INSERT INTO instrument_kind (kind) VALUES
  ('scale'), ('balance-scale'), ('caliper'), ('bore-gauge'), ('depth-gauge'), ('durometer'), ('tape'), ('thermometer'), ('check-weight'), ('check-block');

-- Rows that name an instrument find it again before this file ends.
PRAGMA defer_foreign_keys = ON;

CREATE TEMP TABLE kept_instrument AS SELECT instrument, kind FROM instrument;

DROP TABLE instrument;

-- Running the station: an instrument never loses its name, because recorded readings carry it.
CREATE TABLE instrument (
  instrument TEXT NOT NULL PRIMARY KEY COLLATE NOCASE                     -- the name that readings give it
    CHECK (length(instrument) BETWEEN 1 AND 40),
  kind TEXT NOT NULL REFERENCES instrument_kind (kind)                    -- what it is
) STRICT;

INSERT INTO instrument (instrument, kind) SELECT instrument, kind FROM kept_instrument;

DROP TABLE kept_instrument;
