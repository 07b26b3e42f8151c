"""Check values for src/science/place, made by PROJ, geographiclib and the GEOTRANS grid converter.

    python3 -m venv venv && venv/bin/pip install pyproj==3.7.2 geographiclib==2.1 mgrs==1.6.0
    venv/bin/python tests/reference/make_place.py > tests/reference/place.csv

Rows `utm`: latitude, longitude, zone, easting, northing in metres. Rows `grid`: latitude, longitude, reference of 1 m.
Rows `leg`: two points, distance in metres along the ellipsoid, bearing at the start.
"""
import mgrs
import pyproj
from geographiclib.geodesic import Geodesic

print(f"# made by tests/reference/make_place.py with pyproj {pyproj.__version__} (PROJ {pyproj.proj_version_str}), geographiclib 2.1, mgrs 1.6.0")
POINTS = [
    (46.21, -84.06), (44.4759, -73.2121), (47.5, -91.25), (45.0, -84.0000001), (45.0, -83.9999999), (30.0, -98.0),
    (62.9, -137.5), (9.2, -70.1), (0.5, -69.99), (-0.5, -70.0), (-16.5, -68.15), (61.0, 5.3), (60.2, 24.9),
    (48.0, -90.0), (47.9999, -89.9999), (71.99, -156.7), (39.9, -75.16), (24.67, -81.38), (46.8139, -71.208),
]
grid = mgrs.MGRS()
for lat, lon in POINTS:
    zone = int((lon + 180) // 6) + 1
    if 56 <= lat < 64 and 3 <= lon < 12:
        zone = 32
    crs = pyproj.CRS.from_dict({"proj": "utm", "zone": zone, "south": lat < 0, "ellps": "WGS84"})
    e, n = pyproj.Transformer.from_crs(crs.geodetic_crs, crs, always_xy=True).transform(lon, lat)
    print(f"utm,{lat},{lon},{zone},{e:.4f},{n:.4f}")
    text = grid.toMGRS(lat, lon, MGRSPrecision=5)
    print(f"grid,{lat},{lon},{text.lstrip('0')}")

for lat, lon in POINTS:
    for north, east in [(0.0005, 0.0003), (-0.004, 0.007), (0.03, -0.05), (0.0, 0.002), (-0.1, -0.1)]:
        g = Geodesic.WGS84.Inverse(lat, lon, lat + north, lon + east)
        print(f"leg,{lat},{lon},{lat + north:.7f},{lon + east:.7f},{g['s12']:.4f},{g['azi1'] % 360:.5f}")
