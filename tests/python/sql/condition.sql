-- condition.csv: condition by age group, with Wilson's interval (Wilson 1927) of exhausted and depleted together.
WITH groups AS (
  SELECT 'fawn' AS age UNION ALL SELECT 'yearling' UNION ALL SELECT 'adult' UNION ALL SELECT 'not_known'
), here AS (
  SELECT age_group, condition FROM carcasses WHERE season = '{season}' AND counts
), counted AS (
  SELECT groups.age,
    COUNT(here.condition) AS carcasses,
    COUNT(CASE WHEN condition = 'exhausted' THEN 1 END) AS exhausted,
    COUNT(CASE WHEN condition = 'depleted' THEN 1 END) AS depleted,
    COUNT(CASE WHEN condition = 'partly_used' THEN 1 END) AS partly_used,
    COUNT(CASE WHEN condition = 'cannot_say' THEN 1 END) AS cannot_say,
    COUNT(CASE WHEN condition = 'not_looked' THEN 1 END) AS not_looked
  FROM groups LEFT JOIN here ON here.age_group = groups.age
  GROUP BY groups.age
), shares AS (
  SELECT counted.*, CAST(exhausted + depleted AS DOUBLE) AS k,
    CAST(exhausted + depleted + partly_used AS DOUBLE) AS n
  FROM counted
)
SELECT age, carcasses, exhausted, depleted, partly_used, cannot_say, not_looked,
  exhausted + depleted + partly_used AS of,
  CASE WHEN n > 0 THEN ROUND(k / n, 4) END AS low_share,
  {wilson_low} AS low_95,
  {wilson_high} AS high_95
FROM shares
