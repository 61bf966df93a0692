-- Balls that the venue keeps between squads, and what bowlers say of their inspected balls with the code on the entry's card.

-- Enduring: a ball that was taken in, and given out again.
CREATE TABLE custody (
  id INTEGER NOT NULL PRIMARY KEY,                                        -- from 1, one more each time a ball is taken in
  event TEXT NOT NULL,                                                    -- the event
  entry TEXT NOT NULL,                                                    -- the bowler whose ball it is
  ball TEXT NOT NULL,                                                     -- the ball's opaque id
  number TEXT NOT NULL REFERENCES inspection_index (number),              -- its inspection by which it was known when it was taken in
  place TEXT CHECK (length(place) BETWEEN 1 AND 40),                      -- where it stands; null: not said
  in_by TEXT NOT NULL REFERENCES person (id),                             -- the official who took it in
  in_at TEXT NOT NULL CHECK (in_at GLOB '????-??-??T*Z'),                 -- when, UTC
  out_to TEXT,                                                            -- the number of the bowler to whom it was given; null: still here
  out_by TEXT REFERENCES person (id),                                     -- the official who gave it out
  out_at TEXT CHECK (out_at GLOB '????-??-??T*Z'),                        -- when, UTC
  FOREIGN KEY (event, entry) REFERENCES entry (event, entry),
  CHECK ((out_at IS NULL) = (out_by IS NULL) AND (out_at IS NULL) = (out_to IS NULL))
) STRICT;

-- A ball is here once.
CREATE UNIQUE INDEX custody_here ON custody (event, ball) WHERE out_at IS NULL;
CREATE INDEX custody_entry ON custody (event, entry);

-- Enduring: what a bowler said of an inspected ball. It decides nothing; a director may rule on it.
CREATE TABLE said_by_bowler (
  number TEXT NOT NULL REFERENCES inspection_index (number),              -- the inspection
  said TEXT NOT NULL CHECK (said IN ('seen', 'not-used')),                -- has seen what was found, or does not use the ball
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z'),                       -- when, UTC
  PRIMARY KEY (number, said)
) STRICT, WITHOUT ROWID;
