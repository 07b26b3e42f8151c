"""Check values for src/science/season, made by SciPy, statsmodels and NumPy.

    python3 -m venv venv && venv/bin/pip install scipy==1.16.3 statsmodels==0.14.5
    venv/bin/python tests/reference/make_season.py > tests/reference/season.csv

Rows, each after its name:
newcombe: hits, of, hits, of, coverage, low, high (statsmodels, confint_proportions_2indep).
pooled: number of ages, counts by coded age (the last: that age and above), survival at the maximum of the
likelihood, its standard error from the curvature there (SciPy, minimize_scalar; the curvature by differences).
youngest: number of ages, counts, chi-square of the youngest age given the sum of ages (its distribution counted out
with SciPy's binomial coefficients).
fit: number of ages, counts, survival, chi-square over cells put together from the oldest until five are expected,
degrees (SciPy, chisquare).
half_normal: half-width, number, distances, scale at the maximum, effective half-width, standard error of ln scale by
the information and by the scores, Akaike's criterion (SciPy, minimize_scalar). Distances are made up.
bands: number of bands, cuts, counts, scale, effective half-width, standard error of ln scale by the information. The
first are duck nests, Anderson and Pospahala 1970, as printed; the others are made up.
density: half-width, effective half-width, its coefficient of variation, lines, length and finds of each, carcasses a
square kilometre, encounter coefficient of variation, low, high (NumPy, SciPy's normal quantile).
known: prior's carcasses, states, prior shares, counts of carcasses whose state is known, then mean, low and high of
each share (SciPy, beta: the marginals of the Dirichlet).
two_states: prior's carcasses, prior share of the first, groups, count and two likelihoods of each, then mean, low and
high of the first share (NumPy, the posterior on a grid of 200001 points).
"""
import numpy as np
import scipy
import statsmodels
from scipy.optimize import minimize_scalar
from scipy.special import comb, erf
from scipy.stats import beta, chisquare, norm
from statsmodels.stats.proportion import confint_proportions_2indep

print(f"# made by tests/reference/make_season.py with SciPy {scipy.__version__}, statsmodels "
      f"{statsmodels.__version__}, NumPy {np.__version__}")


def row(name, *cells):
    print(name, *(repr(float(c)) if isinstance(c, (float, np.floating)) else str(int(c)) for c in cells), sep=",")


for a, n, b, m in [(56, 70, 48, 80), (9, 10, 3, 10), (10, 10, 0, 20), (5, 56, 0, 29), (0, 10, 0, 20), (1, 3, 2, 4)]:
    for coverage in (0.9, 0.95):
        low, high = confint_proportions_2indep(a, n, b, m, method="newcomb", compare="diff", alpha=1 - coverage)
        row("newcombe", a, n, b, m, coverage, low, high)

POOLED = [[40, 31, 20, 11, 9, 6, 3, 12], [10, 8, 9, 2], [100, 60, 35, 25, 10, 8, 5, 3, 4], [3, 4, 1, 30]]
for counts in POOLED:
    n, r, m = sum(counts), len(counts) - 1, counts[-1]
    t = sum(k * c for k, c in enumerate(counts))

    def loss(s):
        return -(t * np.log(s) + (n - m) * np.log(1 - s))

    best = minimize_scalar(loss, bounds=(1e-6, 1 - 1e-6), method="bounded", options={"xatol": 1e-13}).x
    # The expected information of lifetimes cut off at r, its expectation summed term by term.
    trials = n * sum(best ** k for k in range(r))
    se = 1 / np.sqrt(trials / (best * (1 - best)))
    row("pooled", len(counts), *counts, float(best), float(se))

for counts in [[162, 110, 55, 41, 20, 14, 7, 5], [30, 40, 20, 10, 5], [12, 5, 6, 2, 1]]:
    n, t = sum(counts), sum(k * c for k, c in enumerate(counts))
    ways = np.array([comb(n, j, exact=True) * comb(t - 1, n - j - 1, exact=True) for j in range(n)], dtype=object)
    total = int(sum(ways))
    p = np.array([float(w / total) if total < 2 ** 1000 else w / total for w in ways], dtype=float)
    j = np.arange(n)
    mean = float((p * j).sum())
    var = float((p * (j - mean) ** 2).sum())
    row("youngest", len(counts), *counts, (counts[0] - mean) ** 2 / var)

for counts, s in [([162, 110, 55, 41, 20, 14, 7, 5], 0.57986), ([40, 31, 20, 11, 9, 6, 3, 12], 0.68), ([9, 30, 6, 3, 1], 0.5)]:
    n = sum(counts)
    expected = [n * s ** k * (1 - s) for k in range(len(counts) - 1)] + [n * s ** (len(counts) - 1)]
    seen, want = list(map(float, counts)), expected
    while want[-1] < 5:
        seen = seen[:-2] + [seen[-2] + seen[-1]]
        want = want[:-2] + [want[-2] + want[-1]]
    chi = chisquare(seen, want, ddof=1, sum_check=False) if "sum_check" in chisquare.__code__.co_varnames else chisquare(seen, want, ddof=1)
    row("fit", len(counts), *counts, s, float(chi.statistic), len(seen) - 2)

rng = np.random.default_rng(1971)


def fitted(x, w):
    def loss(u):
        sigma = np.exp(u)
        return (x ** 2).sum() / (2 * sigma ** 2) + len(x) * np.log(sigma * np.sqrt(np.pi / 2) * erf(w / sigma / np.sqrt(2)))

    u = minimize_scalar(loss, bracket=(np.log(w / 3), np.log(w)), tol=1e-14).x
    h = 1e-3
    info = (-loss(u + 2 * h) + 16 * loss(u + h) - 30 * loss(u) + 16 * loss(u - h) - loss(u - 2 * h)) / (12 * h * h)
    one = lambda v, xi: xi ** 2 / (2 * np.exp(2 * v)) + np.log(np.exp(v) * np.sqrt(np.pi / 2) * erf(w / np.exp(v) / np.sqrt(2)))
    scores = sum(((one(u + h, xi) - one(u - h, xi)) / (2 * h)) ** 2 for xi in x)
    sigma = np.exp(u)
    return sigma, sigma * np.sqrt(np.pi / 2) * erf(w / sigma / np.sqrt(2)), 1 / np.sqrt(info), 1 / np.sqrt(scores), 2 + 2 * loss(u)


for n, sigma, w in [(40, 8.0, 20.0), (80, 30.0, 50.0), (60, 3.0, 25.0)]:
    x = np.abs(rng.normal(0, sigma, 20 * n))
    x = np.round(x[x <= w][:n], 2)
    row("half_normal", w, len(x), *map(float, x), *map(float, fitted(x, w)))

BANDS = [
    ([0, 0.3, 0.6, 0.9, 1.2, 1.5, 1.8, 2.1, 2.4], [74, 73, 79, 66, 78, 58, 52, 54]),
    ([0, 5, 10, 20, 40], [30, 22, 25, 8]),
]
for cuts, counts in BANDS:
    cuts, counts, w = np.array(cuts, float), np.array(counts, float), cuts[-1]

    def loss(u):
        sigma = np.exp(u)
        e = erf(cuts / sigma / np.sqrt(2))
        return -(counts * np.log(np.diff(e) / e[-1])).sum()

    u = minimize_scalar(loss, bracket=(np.log(w / 3), np.log(w)), tol=1e-14).x
    h = 1e-3
    info = (-loss(u + 2 * h) + 16 * loss(u + h) - 30 * loss(u) + 16 * loss(u - h) - loss(u - 2 * h)) / (12 * h * h)
    sigma = np.exp(u)
    mu = sigma * np.sqrt(np.pi / 2) * erf(w / sigma / np.sqrt(2))
    row("bands", len(counts), *map(float, cuts), *counts, float(sigma), float(mu), float(1 / np.sqrt(info)))

for w, mu, cv, lines in [(50.0, 32.0, 0.11, [(2000.0, 7), (3500.0, 9), (1500.0, 2), (4000.0, 12)]), (20.0, 9.5, 0.2, [(900.0, 4), (1100.0, 30)])]:
    l, n = np.array([a for a, _ in lines]), np.array([b for _, b in lines], float)
    k, length, rate = len(l), l.sum(), n.sum() / l.sum()
    encounter = np.sqrt(k / (length ** 2 * (k - 1)) * (l ** 2 * (n / l - rate) ** 2).sum()) / rate
    d = n.sum() / (2 * length * mu) * 1e6
    c = np.exp(norm.ppf(0.975) * np.sqrt(np.log(1 + encounter ** 2 + cv ** 2)))
    cells = [v for a, b in lines for v in (a, b)]
    row("density", w, mu, cv, k, *cells, float(d), float(encounter), float(d / c), float(d * c))

for prior, counts in [([0.2, 0.5, 0.3], [12, 3, 0]), ([0.7, 0.1, 0.2], [0, 0, 0]), ([0.05, 0.05, 0.9], [40, 2, 158])]:
    k = 6.0
    cells = []
    for share, count in zip(prior, counts):
        a, b = k * share + count, k * (1 - share) + sum(counts) - count
        cells += [a / (a + b), *beta.ppf([0.025, 0.975], a, b)]
    row("known", k, len(prior), *prior, *counts, *map(float, cells))

GROUPS = [
    (0.3, [(30, 1.0, 0.5), (20, 0.4, 1.0)]),
    (0.5, [(10, 1.0, 0.05), (6, 0.1, 1.0), (8, 1.0, 0.9)]),
    (0.2, [(100, 1.0, 0.6), (40, 0.3, 1.0), (10, 1.0, 1.0)]),
    (0.6, [(200, 1.0, 0.2), (300, 0.1, 1.0)]),
]
for prior, groups in GROUPS:
    k = 6.0
    x = (np.arange(200001) + 0.5) / 200001
    ln = (k * prior - 1) * np.log(x) + (k * (1 - prior) - 1) * np.log1p(-x)
    for count, a, b in groups:
        ln += count * np.log(a * x + b * (1 - x))
    p = np.exp(ln - ln.max())
    p /= p.sum()
    below = np.cumsum(p)
    ends = [float(x[np.searchsorted(below, q)]) for q in (0.025, 0.975)]
    row("two_states", k, prior, len(groups), *(v for g in groups for v in g), float((p * x).sum()), *ends)
