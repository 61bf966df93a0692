-- Free text that people wrote about an inspection. It can be struck; the register keeps its hash only.

CREATE TABLE remark (
  -- Who wrote it, under whose salt it is hashed.
  person TEXT NOT NULL REFERENCES person (id),
  -- What stands for it in the register.
  hash TEXT NOT NULL CHECK (length(hash) = 64),
  -- The text.
  text TEXT NOT NULL CHECK (length(text) BETWEEN 1 AND 300),
  PRIMARY KEY (person, hash)
) STRICT, WITHOUT ROWID;
