"""Check values for src/science/place/scene.rs: chains of bearings and distances from a body.

    python3 -m venv venv && venv/bin/pip install geographiclib==2.1 numpy==2.4.6
    venv/bin/python tests/reference/make_scene.py > tests/reference/scene.csv

A row: latitude and longitude of the body, declination (east positive), number of legs, then bearing and distance in
metres of each leg; latitude and longitude of the end, leg after leg along the ellipsoid (Geodesic.Direct, bearing plus
declination); metres east and north of the body in the plane, before the declination.
"""
import numpy as np
from geographiclib.geodesic import Geodesic

print("# made by tests/reference/make_scene.py with geographiclib 2.1 and numpy", np.__version__)
rng = np.random.default_rng(7)
BODIES = [(47.95, -91.45), (46.21, -84.06), (44.4759, -73.2121), (61.0, 5.3), (24.67, -81.38), (0.0001, -69.99), (-16.5, -68.15), (47.9999, -90.0)]
for lat, lon in BODIES:
    for legs in (1, 2, 4, 8, 12):
        declination = round(float(rng.uniform(-25, 25)), 1)
        bearings = rng.integers(0, 360, legs)
        distances = np.round(rng.uniform(0.7, 40, legs), 1)
        at = (lat, lon)
        for bearing, distance in zip(bearings, distances):
            there = Geodesic.WGS84.Direct(*at, float(bearing) + declination, float(distance))
            at = (there["lat2"], there["lon2"])
        east = float(np.sum(distances * np.sin(np.radians(bearings))))
        north = float(np.sum(distances * np.cos(np.radians(bearings))))
        told = ",".join(f"{b},{d}" for b, d in zip(bearings, distances))
        print(f"{lat},{lon},{declination},{legs},{told},{at[0]:.10f},{at[1]:.10f},{east:.7f},{north:.7f}")
