"""Check values for src/science/reserve/: least and most over the whole box of inputs, found by SciPy's
bounded optimiser from 40 starts, which knows nothing of which corner is which.

    python3 -m venv venv && venv/bin/pip install scipy==1.16.3
    venv/bin/python tests/reference/make_reserve.py > tests/reference/reserve.csv

Formulas: need = rate M^0.75; days = fat M 1000 9.490 / (spent - eaten). Adult does: one fasting rate b in
79..90, spent 1.7 b, eaten i b, i in 0.9..1.1. Fawns: spent 535.9..1032.8 kJ at 4.184 kJ a kcal, eaten as
does, with b and i of their own. Loss = (autumn - now) / autumn.
"""
import numpy
import scipy
from scipy.optimize import minimize


def ends(what, box):
    draw = numpy.random.default_rng(7)
    low, high = numpy.array(box, dtype=float).T

    def least(f):
        starts = [low + (high - low) * draw.random(len(box)) for _ in range(40)]
        return min(minimize(f, start, bounds=box, method="L-BFGS-B").fun for start in starts)

    return float(least(what)), float(-least(lambda v: -what(v)))


def adult(v):
    mass, fat, b, i = v
    return fat * mass * 1000 * 9.490 / ((1.7 * b - i * b) * mass**0.75)


def fawn(v):
    mass, fat, spent, b, i = v
    return fat * mass * 1000 * 9.490 / ((spent - i * b) * mass**0.75)


print(f"# made by tests/reference/make_reserve.py with SciPy {scipy.__version__}")
print("what,low_kg,high_kg,reference_low_kg,reference_high_kg,low,high")
rate = (535.9 / 4.184, 1032.8 / 4.184)
for low, high in [(60, 60), (48.5, 55), (70, 96.25), (31, 31.5)]:
    print("adult", low, high, "", "", *ends(adult, [(low, high), (0.205, 0.293), (79, 90), (0.9, 1.1)]), sep=",")
for low, high in [(35, 35), (22.25, 26), (30, 41)]:
    box = [(low, high), (0.107, 0.135), rate, (79, 90), (0.9, 1.1)]
    print("fawn", low, high, "", "", *ends(fawn, box), sep=",")
for low, high, was_low, was_high in [(40, 40, 55, 60), (38.2, 38.4, 41, 52.5), (61, 61, 58, 60)]:
    loss = lambda v: (v[1] - v[0]) / v[1]
    print("loss", low, high, was_low, was_high, *ends(loss, [(low, high), (was_low, was_high)]), sep=",")
