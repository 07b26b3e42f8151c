"""Check values for src/science/diet and src/science/chi_square.rs, made by SciPy and statsmodels.

    python3 -m venv venv && venv/bin/pip install scipy==1.16.3 statsmodels==0.14.5
    venv/bin/python tests/reference/make_diet.py > tests/reference/diet.csv

Rows: goodman and quesenberry_hurst: coverage, k, k counts, then low and high of each. chi_square_cdf: x,
degrees, value. chi_square_quantile: p, degrees, value. pooled: deer, two amounts of each deer, then for the
percent and the volume of the first food: its value, and between what its low and its high end lie; all
resamples counted out where the deer are few, else 200000 draws of SciPy's bootstrap.
"""
from itertools import product

import numpy as np
import scipy
import statsmodels
from scipy.stats import bootstrap, chi2
from statsmodels.stats.proportion import multinomial_proportions_confint

print(f"# made by tests/reference/make_diet.py with SciPy {scipy.__version__}, statsmodels {statsmodels.__version__}, "
      f"NumPy {np.__version__}")

CASES = [[44, 55, 43, 32, 67, 78], [1, 2, 97], [0, 40, 60], [10] * 10, [400, 1, 1, 1], [12, 88, 200, 40, 60, 0, 0, 5]]
for coverage in (0.9, 0.95):
    for counts in CASES:
        n, k = sum(counts), len(counts)
        good = multinomial_proportions_confint(counts, alpha=1 - coverage, method="goodman")
        a = chi2.ppf(coverage, k - 1)
        c = np.array(counts, float)
        root = np.sqrt(a * (a + 4 * c * (n - c) / n))
        quesenberry = np.stack([(a + 2 * c - root), (a + 2 * c + root)], axis=1) / (2 * (n + a))
        for name, ends in (("goodman", good), ("quesenberry_hurst", quesenberry)):
            cells = [coverage, k, *counts, *(float(v) for pair in ends for v in pair)]
            print(name, *map(repr, cells), sep=",")

for df in (1, 2, 3, 5, 9, 20, 69):
    for x in (0.001, 0.5, 3.0, 11.07, 60.0):
        print("chi_square_cdf", x, df, repr(float(chi2.cdf(x, df))), sep=",")
    for p in (0.01, 0.5, 0.9, 0.95, 0.999):
        print("chi_square_quantile", p, df, repr(float(chi2.ppf(p, df))), sep=",")


def percent(table):
    return float(np.mean(table[:, 0] / table.sum(axis=1)))


def volume(table):
    return float(table[:, 0].sum() / table.sum())


def ends(values):
    """Between which the low and the high end of any honest run of 4000 draws lie: the tails 0.025 and 0.975 give
    or take 0.01, four standard errors."""
    return [float(np.quantile(values, p)) for p in (0.015, 0.035, 0.965, 0.985)]


TABLES = [
    [(900, 100), (50, 50), (300, 500), (20, 180), (400, 100)],
    [(10, 90), (80, 20), (45, 55), (60, 40), (5, 95), (33, 67)],
]
for rows in TABLES:
    table = np.array(rows, float)
    n = len(rows)
    out = []
    for of in (percent, volume):
        out += [of(table), *ends([of(table[list(draw)]) for draw in product(range(n), repeat=n)])]
    print("pooled", n, *(v for row in rows for v in row), *map(repr, out), sep=",")

rng = np.random.default_rng(1)
table = np.round(np.stack([rng.uniform(5, 300, 12), rng.uniform(5, 300, 12)], axis=1))
out = []
for of in (percent, volume):
    result = bootstrap((np.arange(12),), lambda i, axis=-1: np.apply_along_axis(lambda j: of(table[j.astype(int)]), axis, i),
                       n_resamples=200000, method="percentile", vectorized=True, rng=np.random.default_rng(2))
    out += [of(table), *ends(result.bootstrap_distribution)]
print("pooled", 12, *(v for row in table.tolist() for v in row), *map(repr, out), sep=",")
