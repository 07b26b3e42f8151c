-- How many carcasses there are: rows of carcasses.csv that are counts of carcasses alone.
SELECT 'found' AS count, COUNT(*) AS carcasses FROM carcasses WHERE season = '{season}'
UNION ALL
SELECT 'counted', COUNT(*) FROM carcasses WHERE season = '{season}' AND counts
UNION ALL
SELECT left_out_because, COUNT(*) FROM carcasses WHERE season = '{season}' AND left_out_because IS NOT NULL
GROUP BY left_out_because
UNION ALL
SELECT 'joined_by_the_office', COUNT(*) FROM carcasses WHERE season = '{season}' AND joined_count > 1
UNION ALL
SELECT 'found_in_other_winters', COUNT(*) FROM carcasses WHERE season <> '{season}'
UNION ALL
SELECT 'without_any_date', COUNT(*) FROM carcasses WHERE season IS NULL
UNION ALL
SELECT 'no_place', COUNT(*) FROM carcasses WHERE season = '{season}' AND counts AND latitude IS NULL
