"""Check values for src/science/fisher.rs, made by SciPy.

    python3 -m venv venv && venv/bin/pip install scipy==1.16.3
    venv/bin/python tests/reference/make_fisher.py > tests/reference/fisher.csv
"""
import scipy
from scipy.stats import fisher_exact

print(f"# made by tests/reference/make_fisher.py with SciPy {scipy.__version__}")
print("hits_a,n_a,hits_b,n_b,value")
for a, n, b, m in [(8, 142, 5, 259), (6, 142, 1, 259), (14, 142, 6, 259), (5, 75, 1, 126), (0, 10, 10, 10), (3, 6, 3, 6),
                   (1, 2, 1, 900), (40, 400, 70, 380), (0, 25, 0, 30), (25, 25, 30, 30), (12, 13, 3, 24), (9, 13, 2, 11)]:
    print(f"{a},{n},{b},{m},{float(fisher_exact([[a, n - a], [b, m - b]]).pvalue)!r}")
