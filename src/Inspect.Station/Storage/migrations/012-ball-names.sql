-- Index of the register, can be rebuilt: makers and models as they were written down, to be offered when the next ball is written down.
CREATE TABLE ball_name_index (
  maker TEXT NOT NULL,                                        -- the maker's name as typed
  model TEXT NOT NULL,                                        -- the model's name as typed
  times INTEGER NOT NULL CHECK (times >= 1),                  -- how many inspections wrote it so
  PRIMARY KEY (maker, model)
) STRICT, WITHOUT ROWID;

INSERT INTO ball_name_index (maker, model, times)
SELECT maker, model, count(*)
FROM (SELECT CAST(body AS TEXT) ->> '$.sheet.ball.maker' AS maker, CAST(body AS TEXT) ->> '$.sheet.ball.model' AS model
      FROM register_entry WHERE kind = 'inspection')
WHERE maker IS NOT NULL AND model IS NOT NULL
GROUP BY maker, model;
