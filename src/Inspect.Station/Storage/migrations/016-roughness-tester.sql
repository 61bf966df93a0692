-- One more kind of instrument: it reads the roughness of a surface.

INSERT INTO instrument_kind (kind) VALUES ('roughness-tester');
