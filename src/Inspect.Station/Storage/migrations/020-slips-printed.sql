-- Running the station: when the slip of an inspection was first printed.
CREATE TABLE slip_print (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the inspection's entry
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z'),                       -- when, UTC
  by_person TEXT NOT NULL REFERENCES person (id)                          -- by whom
) STRICT;

-- Nobody knows it of the slips before; they count as printed.
INSERT INTO slip_print (seq, at, by_person)
SELECT i.seq, i.at, i.by_person FROM inspection_index i JOIN person p ON p.id = i.by_person;
