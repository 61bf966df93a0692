-- An event that is fixed to an edition moves on to a revision of it: an entry of the register says who confirmed it and when.

INSERT INTO register_kind (kind) VALUES ('edition');
