"""Check values for src/science/death, made by SciPy and NumPy.

    python3 -m venv venv && venv/bin/pip install scipy==1.16.3
    venv/bin/python tests/reference/make_death.py > tests/reference/death.csv

`steady`: the time at which Newton's cooling has brought a body to a temperature, the root of the
solution found by bracketing. `days`: the same through days of different air, the equation integrated
forward step by step and the time of death found by bracketing. `sum`: the instant back to which degrees
of daily means come to a sum, by interpolation of the running sum.
"""
import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

print(f"# made by tests/reference/make_death.py with SciPy {scipy.__version__}, NumPy {np.__version__}")
print("what,look_h,now_c,t_c,start_c,k,value,days")
for t, air, start, k in [(20, -5, 39, 0.10), (20, -5, 39, 0.05), (20, -5, 39, 0.03), (34.5, 20, 39, 0.0845),
                         (27, 0, 38.5, 0.0089), (12.5, -18, 37.5, 0.16), (6, 1.5, 41, 0.018), (36.9, -11, 37.5, 1.0)]:
    root = brentq(lambda h: air + (start - air) * np.exp(-k * h) - t, 0, 5000, xtol=1e-12, rtol=1e-14)
    print(f"steady,0,{air},{t},{start},{k},{root!r},")

# Daily means, the last one first; the look is `look_h` hours after the midnight that begins the last day.
DAYS = [[-6.0, -14.5, -9.0, 1.5, -3.0, -20.0], [2.0, 4.5, -1.0, 3.0, 0.5, 2.5], [-25.0, -24.0, -18.5, -30.0, -22.0, -12.0]]


def at_look(hours, start, k, now, look_h, days):
    """Temperature at the look of a body that died so many hours before."""
    edges, t, left = [(look_h, now)] + [(24.0, d) for d in days[1:]], start, hours
    path = []
    for long, air in edges:
        take = min(long, left)
        path.append((take, air))
        left -= take
        if left <= 0:
            break
    assert left <= 1e-9
    for take, air in reversed(path):
        if take > 0:
            sol = solve_ivp(lambda _, y: -k * (y - air), (0, take), [t], method="DOP853", rtol=1e-12, atol=1e-12)
            t = float(sol.y[0][-1])
    return t


for days in DAYS:
    for look_h, now, t, start, k in [(9.5, days[0] + 1, 18.0, 39.0, 0.05), (14.0, days[0], 9.0, 37.5, 0.03),
                                     (0.5, days[0] - 2, 25.0, 41.0, 0.015), (22.0, days[0], 12.0, 39.0, 0.1)]:
        most = look_h + 24 * (len(days) - 1) - 1e-9
        if at_look(most, start, k, now, look_h, days) > t:
            continue
        root = brentq(lambda h: at_look(h, start, k, now, look_h, days) - t, 0, most, xtol=1e-9, rtol=1e-12)
        print(f"days,{look_h},{now},{t},{start},{k},{root!r},{' '.join(map(str, days))}")

for days in DAYS:
    for base, sign, sums in [(-1.5, -1, (2.0, 7.5, 18.0, 40.0)), (0.0, 1, (1.0, 4.0, 9.0))]:
        for look_h in (9.0, 24.0):
            degrees = [max(0.0, sign * (d - base)) for d in days]
            widths = [look_h] + [24.0] * (len(days) - 1)
            back = np.concatenate([[0.0], np.cumsum(widths)])
            running = np.concatenate([[0.0], np.cumsum(np.multiply(degrees, widths) / 24.0)])
            for wanted in sums:
                if wanted > running[-1]:
                    continue
                # Flat stretches add nothing: the latest instant is the first to come to the sum.
                first = int(np.searchsorted(running, wanted))
                x0, x1, y0, y1 = back[first - 1], back[first], running[first - 1], running[first]
                hours = float(np.interp(wanted, [y0, y1], [x0, x1]))
                print(f"sum,{look_h},{base},{sign},{wanted},0,{hours!r},{' '.join(map(str, days))}")
