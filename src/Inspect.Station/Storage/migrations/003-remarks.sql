-- Free text that people wrote about an inspection. It can be struck; the register keeps its hash only.

CREATE TABLE remark (
  person TEXT NOT NULL REFERENCES person (id),                -- who wrote it, under whose salt it is hashed
  hash TEXT NOT NULL CHECK (length(hash) = 64),               -- what stands for it in the register
  text TEXT NOT NULL CHECK (length(text) BETWEEN 1 AND 300),  -- the text itself
  PRIMARY KEY (person, hash)
) STRICT, WITHOUT ROWID;
