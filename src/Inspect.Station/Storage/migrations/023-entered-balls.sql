-- The balls that bowlers say they bring, before any is inspected, and the code on an entry's card under which a bowler says so.

-- Enduring: a ball on the list of an entry, with when it came and went. What an inspection finds is in the register, not here.
CREATE TABLE entered_ball (
  id INTEGER NOT NULL PRIMARY KEY,                                        -- from 1, one more with each ball
  event TEXT NOT NULL,                                                    -- the event
  entry TEXT NOT NULL,                                                    -- the bowler's number in it
  maker TEXT CHECK (length(maker) BETWEEN 1 AND 120),                     -- as the bowler writes it; null: not written
  model TEXT CHECK (length(model) BETWEEN 1 AND 120),                     -- the same of the model
  serial TEXT CHECK (length(serial) BETWEEN 1 AND 120),                   -- the same of the serial number
  serial_folded TEXT,                                                     -- the same with look-alike characters made one, for searching
  hand TEXT CHECK (hand IN ('right', 'left')),                            -- the hand it is thrown with; null: not said
  digits TEXT,                                                            -- the digits in it, in words with a space between; null: not said
  known TEXT,                                                             -- the ball's id, where the station knows it from another event
  lent_from INTEGER REFERENCES entered_ball (id),                         -- the same ball on the list of the bowler who lends it
  moved_from INTEGER REFERENCES entered_ball (id),                        -- the row that it had under the entry where it stood before
  added_by TEXT REFERENCES person (id),                                   -- the official who wrote it; null: the bowler, by the entry's card
  added_at TEXT NOT NULL CHECK (added_at GLOB '????-??-??T*Z'),           -- when, UTC
  removed_by TEXT REFERENCES person (id),                                 -- the official who took it off; null: the bowler, or still there
  removed_at TEXT CHECK (removed_at GLOB '????-??-??T*Z'),                -- when, UTC; null: still there
  FOREIGN KEY (event, entry) REFERENCES entry (event, entry),
  CHECK (maker IS NOT NULL OR model IS NOT NULL OR serial IS NOT NULL),
  CHECK (removed_by IS NULL OR removed_at IS NOT NULL)
) STRICT;

CREATE INDEX entered_ball_entry ON entered_ball (event, entry, id);
CREATE INDEX entered_ball_serial ON entered_ball (event, serial_folded) WHERE removed_at IS NULL AND serial_folded IS NOT NULL;
CREATE INDEX entered_ball_lent ON entered_ball (lent_from) WHERE lent_from IS NOT NULL;
CREATE INDEX entered_ball_moved ON entered_ball (moved_from) WHERE moved_from IS NOT NULL;

-- Running the station: the secret code on the card of an entry. Whoever has it may write the entry's list of balls, nothing else.
CREATE TABLE entry_card (
  event TEXT NOT NULL,                                                    -- the event
  entry TEXT NOT NULL,                                                    -- the bowler's number in it
  code TEXT NOT NULL UNIQUE CHECK (length(code) = 14),                    -- 13 random characters and a check character, as on a slip
  PRIMARY KEY (event, entry),
  FOREIGN KEY (event, entry) REFERENCES entry (event, entry)
) STRICT, WITHOUT ROWID;
