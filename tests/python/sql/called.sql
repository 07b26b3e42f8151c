-- called.csv: what the carcasses were called by themselves, of all that count, with Wilson's interval.
WITH here AS (
  SELECT CASE
    WHEN cause_word IS NULL THEN 'nothing_seen'
    WHEN cause IS NULL THEN cause_word
    ELSE concat(cause_word, '_', cause) END AS called
  FROM carcasses WHERE season = '{season}' AND counts
), counted AS (
  SELECT called, COUNT(*) AS carcasses, (SELECT COUNT(*) FROM here) AS of_all FROM here GROUP BY called
), shares AS (
  SELECT counted.*, CAST(carcasses AS DOUBLE) AS k, CAST(of_all AS DOUBLE) AS n FROM counted
)
SELECT called, carcasses, of_all AS of, ROUND(k / n, 4) AS share,
  {wilson_low} AS low_95,
  {wilson_high} AS high_95
FROM shares
