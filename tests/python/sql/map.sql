-- map.csv: carcasses that count, by the square of the plain grid; the export has the squares' middles as places.
SELECT latitude AS middle_latitude, longitude AS middle_longitude, place_grid_m AS cell_m, COUNT(*) AS carcasses
FROM carcasses WHERE season = '{season}' AND counts AND latitude IS NOT NULL
GROUP BY latitude, longitude, place_grid_m
