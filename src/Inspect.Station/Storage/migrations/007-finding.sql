-- Finding any record from the desk: people by the words of their names, and inspections by any mix of filters, newest first.

-- Can be struck, and made again from the names: the words of each name, folded so that accents, case and order do not matter.
CREATE TABLE person_name_word (
  word TEXT NOT NULL CHECK (length(word) >= 1),               -- one word of the name, folded
  person TEXT NOT NULL REFERENCES person (id),                -- whose name has it
  PRIMARY KEY (word, person)
) STRICT, WITHOUT ROWID;

CREATE INDEX person_name_word_person ON person_name_word (person);

-- Whatever strikes or changes a name, its old words go with it.
CREATE TRIGGER person_name_words_struck AFTER UPDATE OF name ON person
WHEN new.name IS NOT old.name
BEGIN
  DELETE FROM person_name_word WHERE person = new.id;
END;

CREATE TRIGGER person_name_words_removed BEFORE DELETE ON person
BEGIN
  DELETE FROM person_name_word WHERE person = old.id;
END;

-- One index for each filter that may be the narrowest. The number in the register stands right behind the filter, so that a page is read
-- newest first from any place; the other filters stand behind it, so that rows which do not match are passed over without being fetched.
CREATE INDEX inspection_find_event ON inspection_index (event, seq, outcome, superseded_by, by_person, edition, play, at);
CREATE INDEX inspection_find_person ON inspection_index (by_person, seq, event, outcome, superseded_by, edition, play, at);
CREATE INDEX inspection_find_outcome ON inspection_index (outcome, seq, event, superseded_by, by_person, edition, play, at);
CREATE INDEX inspection_find_edition ON inspection_index (edition, seq, event, outcome, superseded_by, by_person, play, at);
CREATE INDEX inspection_find_superseded ON inspection_index (seq, event, outcome, superseded_by, by_person, edition, play, at)
  WHERE superseded_by IS NOT NULL;

-- Days lead to the stretch of the register that they lie in, whatever a clock did in between.
CREATE INDEX inspection_find_play ON inspection_index (play, seq);
CREATE INDEX inspection_find_day ON inspection_index (substr(at, 1, 10), seq);

-- A rule however it came out: the primary key has the outcome first.
CREATE INDEX inspection_rule_find ON inspection_rule (rule, seq, outcome);

-- What the wider index of the same beginning does as well.
DROP INDEX inspection_index_person;
