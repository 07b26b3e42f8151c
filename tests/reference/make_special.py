"""Check values for src/science/special.rs, made by SciPy.

    python3 -m venv venv && venv/bin/pip install scipy==1.16.3
    venv/bin/python tests/reference/make_special.py > tests/reference/special.csv
"""
import scipy
from scipy import stats
from scipy.stats import binomtest

print(f"# made by tests/reference/make_special.py with SciPy {scipy.__version__}")
print("function,a,b,c,value")


def row(name, a, b, c, value):
    print(f"{name},{a!r},{b!r},{c!r},{float(value)!r}")


for z in [-8.0, -5.0, -3.0, -1.775, -1.0, -0.25, 0.0, 0.5, 1.96, 2.75, 4.0, 6.0]:
    row("normal_cdf", z, 0, 0, stats.norm.cdf(z))
for p in [1e-10, 0.001, 0.025, 0.05, 0.3, 0.5, 0.8, 0.975, 0.999]:
    row("normal_quantile", p, 0, 0, stats.norm.ppf(p))
for x, a, b in [(0.1, 0.5, 0.5), (0.3, 2.0, 5.0), (0.7, 2.0, 5.0), (0.02, 3.0, 399.0), (0.5, 30.0, 30.0), (0.9, 10.0, 1.0), (0.999, 0.5, 4.0)]:
    row("beta_cdf", x, a, b, stats.beta.cdf(x, a, b))
for p, a, b in [(0.05, 0.5, 0.5), (0.05, 14.4, 5.6), (0.95, 14.4, 5.6), (0.05, 0.2, 24.8), (0.95, 0.2, 24.8), (0.95, 47.0, 3.0), (0.5, 1.0, 9.0), (0.975, 10.0, 4.0)]:
    row("beta_quantile", p, a, b, stats.beta.ppf(p, a, b))
for k, n in [(9, 13), (11, 13), (3, 24), (2, 401), (3, 401), (4, 401), (0, 20), (20, 20), (81, 263), (38, 55), (2, 69), (2, 8)]:
    for name, method in [("clopper", "exact"), ("wilson", "wilson")]:
        ci = binomtest(k, n).proportion_ci(0.95, method=method)
        row(f"{name}_low", k, n, 0.95, ci.low)
        row(f"{name}_high", k, n, 0.95, ci.high)
