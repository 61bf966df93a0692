-- How long the names of the bowlers of an event are kept before its director is told to strike them.

-- For how many days after the last day of play; 0: no time is set.
ALTER TABLE event ADD COLUMN names_kept_days INTEGER NOT NULL DEFAULT 0 CHECK (names_kept_days BETWEEN 0 AND 3650);
