-- Recording writes less: the answer to a recorded inspection is made again from its entry and no longer kept a second time. Earlier answers
-- stay as they were sent.

-- Running the station: which requests were carried out, so that the same request again gets the same answer, also after a restart.
CREATE TABLE idempotency_made_again (
  person TEXT NOT NULL,                                       -- who asked: the opaque id
  key TEXT NOT NULL CHECK (length(key) BETWEEN 1 AND 255),    -- the Idempotency-Key that the program chose
  request_hash BLOB NOT NULL CHECK (length(request_hash) = 32), -- SHA-256 of the request's body
  status INTEGER NOT NULL CHECK (status BETWEEN 200 AND 299), -- the answer's status; a failure does not use the key up
  body BLOB,                                                  -- the answer's bytes; null where they are made again from the entry
  seq INTEGER REFERENCES register_entry (seq),                -- the entry of the inspection that the request recorded
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z'),           -- when it was answered, UTC
  PRIMARY KEY (key, person),
  CHECK (body IS NOT NULL OR seq IS NOT NULL)
) STRICT, WITHOUT ROWID;

INSERT INTO idempotency_made_again (person, key, request_hash, status, body, seq, at)
SELECT k.person, k.key, k.request_hash, k.status, k.body, i.seq, k.at
FROM (SELECT *, CASE WHEN json_valid(CAST(body AS TEXT)) THEN CAST(body AS TEXT) END AS answer FROM idempotency) k
LEFT JOIN inspection_index i ON i.number = k.answer ->> '$.number' AND i.code = k.answer ->> '$.code';

DROP TABLE idempotency;
ALTER TABLE idempotency_made_again RENAME TO idempotency;

-- No query reads by these: each is answered by a wider index of the same beginning, or by the days.
DROP INDEX inspection_index_outcome;
DROP INDEX inspection_index_at;
