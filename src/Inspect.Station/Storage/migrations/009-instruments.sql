-- Instruments at the table: which there are, which are in use, their checks and studies, and what was measured with them.

INSERT INTO register_kind (kind) VALUES ('check');

-- Running the station: an instrument never loses its name, because recorded readings carry it.
CREATE TABLE instrument (
  instrument TEXT NOT NULL PRIMARY KEY COLLATE NOCASE                     -- the name that readings give it
    CHECK (length(instrument) BETWEEN 1 AND 40),
  kind TEXT NOT NULL                                                      -- what it is
    CHECK (kind IN ('scale', 'balance-scale', 'caliper', 'bore-gauge', 'depth-gauge', 'durometer', 'tape', 'thermometer',
      'check-weight', 'check-block'))
) STRICT;

-- Running the station: what was written down of an instrument, each change a row of its own; the highest version holds now.
CREATE TABLE instrument_change (
  instrument TEXT NOT NULL COLLATE NOCASE REFERENCES instrument (instrument), -- which instrument
  version INTEGER NOT NULL CHECK (version >= 1),                          -- from 1, one more with each change
  serial TEXT,                                                            -- the maker's serial number
  resolution TEXT,                                                        -- the step of the display, a reading with its unit
  repeatability TEXT,                                                     -- standard deviation of one inspector's readings, with its unit
  repeatability_freedom INTEGER CHECK (repeatability_freedom >= 1),       -- its degrees of freedom; null where not known
  repeatability_from TEXT,                                                -- where it was found: a study and its method, or what was typed
  tolerance TEXT,                                                         -- how far it may be off by its certificate, with its unit
  calibration TEXT,                                                       -- standard uncertainty of the calibration, with its unit
  calibrated TEXT CHECK (calibrated GLOB '????-??-??'),                   -- the day of its calibration
  due TEXT CHECK (due GLOB '????-??-??'),                                 -- the last day on which that calibration holds
  certificate TEXT,                                                       -- number of the certificate and who gave it
  scale_constant TEXT,                                                    -- the balance scale's constant, a length with its unit
  value TEXT,                                                             -- what a check weight or block is worth, with its unit
  accuracy_class TEXT CHECK (accuracy_class IN ('F1', 'F2', 'M1', 'M2', 'M3')), -- a check weight's class; null: by its certificate
  retired INTEGER NOT NULL DEFAULT 0 CHECK (retired IN (0, 1)),           -- 1 when it is used no more
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z'),                       -- when this was written down, UTC
  by_person TEXT NOT NULL REFERENCES person (id),                         -- by whom
  PRIMARY KEY (instrument, version)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER instrument_change_never_changed BEFORE UPDATE ON instrument_change
BEGIN
  SELECT raise(ABORT, 'A change of an instrument is a new row.');
END;

CREATE TRIGGER instrument_change_never_removed BEFORE DELETE ON instrument_change
BEGIN
  SELECT raise(ABORT, 'Nothing of an instrument is lost.');
END;

-- Running the station: what each inspector uses at their table.
CREATE TABLE instrument_in_use (
  person TEXT NOT NULL REFERENCES person (id),                            -- whose table
  kind TEXT NOT NULL,                                                     -- of which kind
  instrument TEXT NOT NULL COLLATE NOCASE REFERENCES instrument (instrument), -- which instrument
  since TEXT NOT NULL CHECK (since GLOB '????-??-??T*Z'),                 -- when it was chosen, UTC
  PRIMARY KEY (person, kind)
) STRICT, WITHOUT ROWID;

-- Running the station: how long a check counts at an event, and whether a reading without one is recorded.
CREATE TABLE event_check (
  event TEXT NOT NULL PRIMARY KEY REFERENCES event (event),               -- whose rule this is
  hours INTEGER CHECK (hours BETWEEN 1 AND 168),                          -- how long a check counts; null: for the day at the venue
  required INTEGER NOT NULL CHECK (required IN (0, 1))                    -- 1 when a reading without a counting check is not recorded
) STRICT;

-- Running the station: gauge studies, as they were entered.
CREATE TABLE gauge_study (
  study INTEGER NOT NULL PRIMARY KEY,                                     -- from 1
  instrument TEXT NOT NULL COLLATE NOCASE REFERENCES instrument (instrument), -- what was studied
  title TEXT NOT NULL CHECK (length(title) BETWEEN 1 AND 120),            -- what it is called
  unit TEXT NOT NULL,                                                     -- the unit that the figures are in
  readings TEXT NOT NULL CHECK (json_type(readings) = 'object'),          -- parts, inspectors and readings as typed, as JSON
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z'),                       -- when it was kept, UTC
  by_person TEXT NOT NULL REFERENCES person (id)                          -- by whom
) STRICT;

CREATE INDEX gauge_study_instrument ON gauge_study (instrument, study);

-- Index of the register, can be rebuilt: checks of instruments.
CREATE TABLE check_index (
  seq INTEGER NOT NULL PRIMARY KEY REFERENCES register_entry (seq),       -- the entry that records it
  instrument TEXT NOT NULL COLLATE NOCASE,                                -- which instrument
  outcome TEXT NOT NULL CHECK (outcome IN ('good', 'failed')),            -- how it came out
  by_person TEXT NOT NULL,                                                -- the inspector's opaque id
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T*Z')                        -- when, UTC
) STRICT;

CREATE INDEX check_index_instrument ON check_index (instrument, seq);

-- Index of the register, can be rebuilt: which instruments an inspection's readings name.
CREATE TABLE inspection_instrument (
  instrument TEXT NOT NULL COLLATE NOCASE,                                -- the name that the reading gives
  seq INTEGER NOT NULL REFERENCES inspection_index (seq),                 -- the inspection
  PRIMARY KEY (instrument, seq)
) STRICT, WITHOUT ROWID;

CREATE INDEX inspection_instrument_seq ON inspection_instrument (seq);

-- What was recorded before this index was kept.
INSERT OR IGNORE INTO inspection_instrument (instrument, seq)
SELECT json_extract(o.value, '$.instrument'), e.seq
FROM register_entry e, json_each(CAST(e.body AS TEXT), '$.observations') o
WHERE e.kind = 'inspection' AND json_extract(o.value, '$.instrument') IS NOT NULL;
