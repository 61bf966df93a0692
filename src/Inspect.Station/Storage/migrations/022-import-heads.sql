-- Lists of entries: what a person said of the columns of a list is known when the next list with the same heads comes.

-- Running the station: it has no names and no rows of a list.
CREATE TABLE import_heads (
  heads BLOB NOT NULL PRIMARY KEY CHECK (length(heads) = 32), -- SHA-256 of the heads, accents and case aside
  columns TEXT NOT NULL                                       -- what each column is, from the left: a JSON array of words
    CHECK (json_valid(columns) AND json_type(columns) = 'array')
) STRICT, WITHOUT ROWID;
