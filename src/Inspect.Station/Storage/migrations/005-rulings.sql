-- What was decided about an inspection after it was recorded.

-- Index of the register, can be rebuilt: one row for each ruling; the latest of an inspection is the one in force.
CREATE TABLE ruling_index (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the entry that records it
  number TEXT NOT NULL,                                                   -- the inspection it is about
  event TEXT NOT NULL,                                                    -- that inspection's event
  decision TEXT NOT NULL                                                  -- what was decided
    CHECK (decision IN ('accept', 'allow', 'remeasure', 'recall', 'withdraw', 'undo')),
  reason_hash TEXT NOT NULL CHECK (length(reason_hash) = 64),             -- what stands for the reason in the register
  condition_hash TEXT CHECK (length(condition_hash) = 64),                -- the same for the condition, where it hangs on one
  by_person TEXT NOT NULL,                                                -- who decided: the opaque id
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z')                        -- when, UTC
) STRICT;

CREATE INDEX ruling_index_number ON ruling_index (number, seq);
CREATE INDEX ruling_index_event ON ruling_index (event, decision, seq);
