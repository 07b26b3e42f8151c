"""Check values for src/science/sun.rs, made by PyEphem.

    python3 -m venv venv && venv/bin/pip install ephem==4.2.1
    venv/bin/python tests/reference/make_sun.py > tests/reference/sun.csv

Rise and set: upper limb with 34 arc minutes of refraction and a fixed radius of 16 arc minutes, that
is the sun's centre 50 arc minutes below the horizon. Civil dusk: the sun's centre 6 degrees below.
"""
import datetime
import ephem

print(f"# made by tests/reference/make_sun.py with PyEphem {ephem.__version__}; minutes after 0 h UTC of the date")
print("year,month,day,latitude,longitude,rise,set,civil_dusk")
ZERO = datetime.datetime


def minutes(event, midnight):
    return (event.datetime() - midnight).total_seconds() / 60


for lat, lon in [(44.4759, -73.2121), (46.7867, -92.1005), (42.6526, -73.7562), (48.5, -93.0), (61.2, -149.9)]:
    for y, m, d in [(2025, 11, 1), (2025, 12, 10), (2025, 12, 31), (2026, 1, 15), (2026, 2, 14), (2026, 3, 7), (2026, 4, 20), (2028, 2, 29), (2030, 1, 1)]:
        midnight = ZERO(y, m, d)
        noon = midnight + datetime.timedelta(minutes=720 - 4 * lon)
        o = ephem.Observer()
        o.lat, o.lon, o.pressure = str(lat), str(lon), 0
        sun = ephem.Sun()
        o.date = noon
        o.horizon = "-0:49.98"
        rise, sets = o.previous_rising(sun, use_center=True), o.next_setting(sun, use_center=True)
        o.horizon = "-6"
        dusk = o.next_setting(sun, use_center=True)
        print(f"{y},{m},{d},{lat},{lon}," + ",".join(f"{minutes(e, midnight):.4f}" for e in (rise, sets, dusk)))
