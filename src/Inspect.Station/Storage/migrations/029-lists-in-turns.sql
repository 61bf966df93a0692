-- Lists of entries are entered in turns at the gate: what a list has entered so far counts only once all of it is there.

-- Running the station: the lists that were entered. A list that was stopped, or was left half by a crash, has no row.
CREATE TABLE entry_import (
  import INTEGER NOT NULL PRIMARY KEY,                                    -- from 1
  open INTEGER NOT NULL CHECK (open IN (0, 1)),                           -- 1 while its entries do not count
  began_at TEXT NOT NULL CHECK (began_at GLOB '????-??-??T*Z')            -- when, UTC
) STRICT;

-- The list that entered it; null: it was entered alone, or before lists had a number.
ALTER TABLE entry ADD COLUMN import INTEGER REFERENCES entry_import (import);

CREATE INDEX entry_of_import ON entry (import) WHERE import IS NOT NULL;
