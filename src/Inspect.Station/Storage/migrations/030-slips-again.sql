-- Running the station: each time that a slip was printed again.
CREATE TABLE slip_again (
  seq INTEGER NOT NULL REFERENCES slip_print (seq),                       -- the inspection's entry
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z'),                       -- when, UTC
  by_person TEXT NOT NULL REFERENCES person (id),                         -- by whom
  PRIMARY KEY (seq, at)
) STRICT, WITHOUT ROWID;
