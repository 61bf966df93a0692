-- One more kind of instrument: two rings that a ball of the right size goes through and does not.

INSERT INTO instrument_kind (kind) VALUES ('ring-gauge');

ALTER TABLE instrument_change ADD COLUMN ring_diameter TEXT;             -- a ring gauge's two limits as diameters, with their unit
ALTER TABLE instrument_change ADD COLUMN ring_circumference TEXT;        -- the same as circumferences
