-- findings.csv: each finding over all carcasses, the five answers apart, with Wilson's interval.
WITH asked AS (
  {asked}
), here AS (
  SELECT carcass_id FROM carcasses WHERE season = '{season}' AND counts
), said AS (
  SELECT findings.carcass_id, findings.finding,
    COUNT(DISTINCT CASE WHEN state IN ('seen', 'not_seen') THEN concat(state, ':', coalesce(value, '')) END) AS results,
    MAX(CASE WHEN state = 'seen' THEN 1 ELSE 0 END) AS seen,
    MAX(CASE WHEN state = 'cant_tell' THEN 1 ELSE 0 END) AS cant_tell,
    MAX(CASE WHEN state = 'part_gone' THEN 1 ELSE 0 END) AS part_gone
  FROM findings JOIN here ON here.carcass_id = findings.carcass_id
  WHERE side IS NULL AND tooth IS NULL AND bone IS NULL AND item_number IS NULL
  GROUP BY findings.carcass_id, findings.finding
), came AS (
  SELECT finding, CASE
    WHEN results > 1 THEN 'differ'
    WHEN results = 1 AND seen = 1 THEN 'seen'
    WHEN results = 1 THEN 'not_seen'
    WHEN cant_tell = 1 THEN 'cant_tell'
    WHEN part_gone = 1 THEN 'part_gone'
    ELSE 'not_looked' END AS result
  FROM said
), counted AS (
  SELECT asked.finding,
    COUNT(CASE WHEN result = 'seen' THEN 1 END) AS seen,
    COUNT(CASE WHEN result = 'not_seen' THEN 1 END) AS not_seen,
    COUNT(CASE WHEN result = 'differ' THEN 1 END) AS differ,
    COUNT(CASE WHEN result = 'cant_tell' THEN 1 END) AS cant_tell,
    COUNT(CASE WHEN result = 'part_gone' THEN 1 END) AS part_gone,
    COUNT(CASE WHEN result = 'not_looked' THEN 1 END) AS said_not_looked,
    COUNT(result) AS answered
  FROM asked LEFT JOIN came ON came.finding = asked.finding
  GROUP BY asked.finding
), shares AS (
  SELECT counted.*, CAST(seen AS DOUBLE) AS k, CAST(seen + not_seen AS DOUBLE) AS n,
    -- A question without a row was not looked at.
    (SELECT COUNT(*) FROM here) - answered + said_not_looked AS not_looked
  FROM counted
)
SELECT finding, seen, not_seen, differ, cant_tell, not_looked, part_gone,
  CASE WHEN n > 0 THEN ROUND(k / n, 4) END AS share,
  {wilson_low} AS low_95,
  {wilson_high} AS high_95
FROM shares
