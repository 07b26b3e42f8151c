"""Densities of the measures of predators by SciPy.

    python3 -m venv v && v/bin/pip install scipy && v/bin/python tests/reference/make_predators.py > tests/reference/predators.csv

The means and standard deviations are those of the project's reference text on cause of death, 2.1 and 2.2.
"""

import math

import scipy
from scipy.stats import norm, uniform

UPPER = dict(coyote=(31.5, 2.5), bobcat=(24, 2.3), lynx=(25, 2.5), marten=(11, 1), fisher=(17, 2.5), red_fox=(19.5, 2.5),
             gray_fox=(16.5, 2), wolf=(44, 4), cougar=(46, 5), bear=(50, 7), dog=(35, 9))
LOWER = dict(coyote=(28.5, 2.2), bobcat=(20, 2.3), wolf=(38.5, 3.25), cougar=(36.5, 4.25))
WIDTH = dict(wolf=(9.8, 1.15), coyote=(5.3, 0.53))
SCAT = dict(coyote=(20, 3.6), gray_fox=(15, 2.05), wolf=(27, 5))

print(f"# made by tests/reference/make_predators.py with SciPy {scipy.__version__}; see its head for the command")
print("measure,animal,x,density")
for what, models, more, low, span, xs in [
    ("upper", UPPER, 2, 8, 62, [9, 11, 16, 20, 24, 28, 32, 36, 40, 46, 55, 68]),
    ("lower", LOWER, 2, 8, 62, [12, 20, 25, 30, 38, 44]),
    ("width", WIDTH, 0, 2, 14, [2.5, 4, 5.3, 6.5, 7.5, 9.8, 12, 15]),
    ("scat", SCAT, 0, 5, 40, [8, 14, 20, 29, 30, 38, 44]),
]:
    for animal, (mean, sd) in models.items():
        for x in xs:
            density = 0.9 * norm.pdf(x, mean, math.hypot(sd, more)) + 0.1 * uniform.pdf(x, low, span)
            print(f"{what},{animal},{x},{density!r}")
