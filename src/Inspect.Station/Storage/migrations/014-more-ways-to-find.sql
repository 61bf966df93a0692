-- Balls are found by maker and model, and names by more spellings.

-- Index of the register, can be rebuilt: what is written on the ball of each inspection.
CREATE TABLE inspection_model (
  name TEXT NOT NULL CHECK (length(name) >= 1),               -- maker and model as typed, with a space between them
  seq INTEGER NOT NULL REFERENCES inspection_index (seq),     -- the inspection
  PRIMARY KEY (name, seq)
) STRICT, WITHOUT ROWID;

CREATE INDEX inspection_model_seq ON inspection_model (seq, name);

-- What was recorded before this index was kept.
INSERT INTO inspection_model (name, seq)
SELECT name, seq
FROM (SELECT trim(coalesce(CAST(body AS TEXT) ->> '$.sheet.ball.maker', '') || ' ' || coalesce(CAST(body AS TEXT) ->> '$.sheet.ball.model', '')) AS name, seq
      FROM register_entry WHERE kind = 'inspection')
WHERE name <> '';

-- The words of names are made again from the names at the next start, because there are more of them now.
DELETE FROM person_name_word;
