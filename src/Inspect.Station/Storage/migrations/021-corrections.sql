-- What was entered is put right: each change with who made it and when, entries that are withdrawn or merged, names that were misspelt.

-- Enduring: what was changed of an event or of an entry. No person's name is in it: those are in changed_name, where striking finds them.
CREATE TABLE event_change (
  change INTEGER NOT NULL PRIMARY KEY,                                    -- from 1, one more with each change
  event TEXT NOT NULL,                                                    -- the event, by the short name it has now or had when deleted
  entry TEXT,                                                             -- the bowler's number; null: the event itself
  what TEXT NOT NULL CHECK (length(what) BETWEEN 1 AND 80),               -- what was changed, in words
  was TEXT,                                                               -- what it was before; null: nothing, or a name in changed_name
  became TEXT,                                                            -- what it is since; null: nothing, or a name in changed_name
  by_person TEXT NOT NULL REFERENCES person (id),                         -- who changed it
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z')                        -- when, UTC
) STRICT;

CREATE INDEX event_change_event ON event_change (event, change);

CREATE TRIGGER event_change_never_changed BEFORE UPDATE OF change, entry, what, was, became, by_person, at ON event_change
BEGIN
  SELECT raise(ABORT, 'A change that was made stays written down; only the short name of its event follows.');
END;

CREATE TRIGGER event_change_never_removed BEFORE DELETE ON event_change
BEGIN
  SELECT raise(ABORT, 'A change that was made stays written down.');
END;

-- Can be struck: names of bowlers that were put right. An inspection recorded before has the hash of the earlier name under the same salt.
CREATE TABLE changed_name (
  change INTEGER NOT NULL PRIMARY KEY REFERENCES event_change (change),   -- the change that put it right
  person TEXT NOT NULL REFERENCES person (id),                            -- whose name it is
  was TEXT NOT NULL CHECK (length(was) BETWEEN 1 AND 200),                -- the name before
  became TEXT NOT NULL CHECK (length(became) BETWEEN 1 AND 200)           -- the name since
) STRICT;

CREATE INDEX changed_name_person ON changed_name (person);

-- Two people that turned out to be one: the person that this one is; null: nobody else. It keeps its salt, under which its name was hashed.
ALTER TABLE person ADD COLUMN same_as TEXT REFERENCES person (id);

CREATE INDEX person_same_as ON person (same_as) WHERE same_as IS NOT NULL;

-- Whoever strikes a name strikes the earlier ones too, and those of the people that turned out to be this one.
CREATE TRIGGER person_changed_names_struck AFTER UPDATE OF name ON person
WHEN new.name IS NULL AND old.name IS NOT NULL
BEGIN
  DELETE FROM changed_name WHERE person = new.id;
  UPDATE person SET name = NULL, salt = NULL WHERE same_as = new.id AND name IS NOT NULL;
END;

CREATE TRIGGER person_same_name AFTER UPDATE OF name ON person
WHEN new.name IS NOT NULL AND new.name IS NOT old.name
BEGIN
  UPDATE person SET name = new.name WHERE same_as = new.id AND name IS NOT NULL;
END;

CREATE TRIGGER person_changed_names_removed BEFORE DELETE ON person
BEGIN
  DELETE FROM changed_name WHERE person = old.id;
END;

-- An entry that is withdrawn stays, and nothing more of it is measured.
ALTER TABLE entry ADD COLUMN withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1));

-- The number that stays, when this entry and that one are the same bowler; null: not merged.
ALTER TABLE entry ADD COLUMN merged_into TEXT CHECK (merged_into IS NULL OR withdrawn = 1);

-- Who was entered at first, when that person turned out to be another one; null: the person of the entry.
ALTER TABLE entry ADD COLUMN first_person TEXT REFERENCES person (id);

CREATE INDEX entry_merged ON entry (event, merged_into) WHERE merged_into IS NOT NULL;
CREATE INDEX entry_first_person ON entry (first_person) WHERE first_person IS NOT NULL;

-- Changes of an edition are few, and are found without looking through the register.
CREATE INDEX register_entry_edition ON register_entry (seq) WHERE kind = 'edition';
