INSERT INTO instrument_kind (kind) VALUES ('roughness-tester');
