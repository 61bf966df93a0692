-- Bowlers who are under age: nobody who is not signed in reads their names.

-- Whether the bowler is under age at this event.
ALTER TABLE entry ADD COLUMN under_age INTEGER NOT NULL DEFAULT 0 CHECK (under_age IN (0, 1));

-- Can be struck, and is struck first: how a guardian of a bowler is reached. Only directors see it.
CREATE TABLE guardian_contact (
  event TEXT NOT NULL,                                              -- the event
  entry TEXT NOT NULL,                                              -- the bowler's number in it
  contact TEXT NOT NULL CHECK (length(contact) BETWEEN 1 AND 200),  -- as typed: a name and how to reach them
  PRIMARY KEY (event, entry),
  FOREIGN KEY (event, entry) REFERENCES entry (event, entry)
) STRICT, WITHOUT ROWID;
