-- A rule beside an event, an inspector or a verdict is found without looking at the inspections themselves.

-- Index of the register, can be rebuilt: the rules that an inspection did not pass, with what they are most often sought together with.
CREATE TABLE inspection_rule_found (
  rule TEXT NOT NULL,                                         -- the rule's id
  outcome TEXT NOT NULL CHECK (outcome IN ('fail', 'hold')),  -- how it came out; a fail counts before a hold
  seq INTEGER NOT NULL REFERENCES inspection_index (seq),     -- the inspection
  event TEXT NOT NULL,                                        -- its event
  by_person TEXT NOT NULL,                                    -- its inspector's opaque id
  verdict TEXT NOT NULL                                       -- its verdict: pass, fail or hold
    CHECK (verdict IN ('pass', 'fail', 'hold')),
  PRIMARY KEY (rule, outcome, seq)
) STRICT, WITHOUT ROWID;

INSERT INTO inspection_rule_found (rule, outcome, seq, event, by_person, verdict)
SELECT r.rule, r.outcome, r.seq, i.event, i.by_person, i.outcome
FROM inspection_rule r JOIN inspection_index i ON i.seq = r.seq;

DROP TABLE inspection_rule;
ALTER TABLE inspection_rule_found RENAME TO inspection_rule;

CREATE INDEX inspection_rule_seq ON inspection_rule (seq);
CREATE INDEX inspection_rule_find ON inspection_rule (rule, seq, outcome, event, by_person, verdict);
CREATE INDEX inspection_rule_event ON inspection_rule (rule, event, seq, outcome, by_person, verdict);
CREATE INDEX inspection_rule_person ON inspection_rule (rule, by_person, seq, outcome, event, verdict);

-- A ruling is sought from an inspection's entry, which every index of inspections has, and not from its number, which none has.
ALTER TABLE ruling_index ADD COLUMN inspection_seq INTEGER;    -- the entry of the inspection it is about

UPDATE ruling_index SET inspection_seq = (SELECT i.seq FROM inspection_index i WHERE i.number = ruling_index.number);

CREATE INDEX ruling_index_inspection ON ruling_index (inspection_seq, seq, decision);
