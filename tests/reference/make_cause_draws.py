"""The cause model once more, in NumPy and SciPy, over the committed table of cells.

    python3 -m venv v && v/bin/pip install numpy scipy && v/bin/python tests/reference/make_cause_draws.py > tests/reference/cause_draws.csv

Reads tests/reference/cause_table.csv and cause_priors.csv; random numbers by the rule of the project's reference
text on cause of death, 4.3. `--how-many` instead measures how far an end of a range moves between sets of draws,
which is why there are 3,000.
"""

import csv
import sys
from pathlib import Path

import numpy as np
import scipy
from scipy.special import expit, logit, softmax
from scipy.stats import kstest

HERE = Path(__file__).parent
CAUSES = "COY WOLF FEL COUG DOG BEAR STARV VEH SHOT DIS FEED ACC".split()
GRADE = dict(P=0.6, Q=0.8, E=1.1)
CASES = {  # area, answers as row: state
    "E1": ("A", {1: 0, 2: 0, 18: 1, 19: 2, 12: 2}),
    "E2": ("A", {1: 2, 5: 0, 12: 0, 13: 0, 18: 1, 11: 0}),
    "E3": ("A", {14: 0, 16: 0, 1: 1, 15: 1}),
    "E6": ("B", {18: 0, 9: 0, 2: 2, 3: 0}),
    "E11": ("B", {18: 0, 12: 0, 13: 0, 24: 2}),
    "X1": ("C", {4: 2, 6: 1, 7: 1, 8: 1, 10: 2, 16: 1, 17: 3, 20: 0, 21: 1, 22: 0, 23: 3, 25: 1}),
    "X2": ("B", {1: 0, 2: 1, 3: 1, 4: 0, 6: 0, 18: 2, 19: 1, 25: 0, 24: 0}),
}


def rows(name):
    with open(HERE / name, encoding="utf-8") as file:
        yield from csv.DictReader(line for line in file if not line.startswith("#"))


def table():
    out = {}
    for cell in rows("cause_table.csv"):
        row = out.setdefault(int(cell["observation"]), {"block": int(cell["block"]), "cells": {}})
        p = float(cell["mid"]) / 100
        if cell["grade"] == "J":
            down = logit(p) - logit(float(cell["low"]) / 100)
            up = logit(float(cell["high"]) / 100) - logit(p)
        else:
            down = up = GRADE[cell["grade"]]
        row["cells"][int(cell["state_number"]), CAUSES.index(cell["cause"])] = (p, down, up)
    for row in out.values():
        states = max(s for s, _ in row["cells"]) + 1
        row["arrays"] = np.array([[row["cells"][s, c] for c in range(12)] for s in range(states)])
    return out


def normals(draws, r, s, c, seed=1971):
    """Standard normals; draws, r, s, c broadcast."""
    with np.errstate(over="ignore"):
        u64 = lambda x: np.asarray(x, dtype=np.uint64)
        key = ((u64(draws) * u64(32) + u64(r)) * u64(16) + u64(s)) * u64(16) + u64(c)

        def mix(z):
            z = (z ^ (z >> u64(30))) * u64(0xBF58476D1CE4E5B9)
            z = (z ^ (z >> u64(27))) * u64(0x94D049BB133111EB)
            return z ^ (z >> u64(31))

        a = mix(u64(seed) + (u64(2) * key + u64(1)) * u64(0x9E3779B97F4A7C15))
        b = mix(u64(seed) + (u64(2) * key + u64(2)) * u64(0x9E3779B97F4A7C15))
    u = ((a >> u64(11)).astype(float) + 1) * 2.0**-53
    v = (b >> u64(11)).astype(float) * 2.0**-53
    return np.sqrt(-2 * np.log(u)) * np.cos(2 * np.pi * v)


def combine(ln_prior, said, live):
    """said: block -> list of (draws, 12) arrays of ln p."""
    score = ln_prior.copy()
    for parts in said.values():
        stack = np.stack(parts)
        s = stack[:, :, live].max(axis=2) - stack[:, :, live].min(axis=2)
        total, squares = s.sum(axis=0), (s**2).sum(axis=0)
        n_eff = np.where(squares > 0, total**2 / np.where(squares > 0, squares, 1), 1)
        score += (1 / (1 + 0.3 * (n_eff - 1)))[:, None] * stack.sum(axis=0)
    return softmax(score, axis=1)


def run(cells, prior, answers, draws=np.arange(3000), seed=1971):
    prior = np.array(prior)
    prior = prior / prior.sum()
    live = prior > 0
    with np.errstate(divide="ignore"):
        ln_prior = np.log(prior)[None, :]
    mid, drawn = {}, {}
    for r in sorted(answers):
        p, down, up = np.moveaxis(cells[r]["arrays"], 2, 0)
        state = answers[r]
        mid.setdefault(cells[r]["block"], []).append(np.log(np.clip(p[state], 0.001, 0.999))[None, :])
        s, c = np.meshgrid(np.arange(p.shape[0]), np.arange(12), indexing="ij")
        z = normals(draws[:, None, None], r, s[None], c[None], seed)
        q = expit(logit(p)[None] + z * np.where(z < 0, down, up) / 1.645)
        q = np.clip(q / q.sum(axis=1, keepdims=True), 0.001, 0.999)
        drawn.setdefault(cells[r]["block"], []).append(np.log(q[:, state, :]))
    moved = ln_prior + normals(draws[:, None], 0, 0, np.arange(12)[None], seed) * np.log(2) / 1.645
    middle = combine(ln_prior, mid, live)[0]
    all_draws = np.sort(combine(moved, drawn, live), axis=0)
    n = len(draws)
    return middle, all_draws[n // 20 - 1], all_draws[n - n // 20]


def main():
    cells = table()
    priors = {line["set"]: [float(line[c]) for c in CAUSES] for line in rows("cause_priors.csv")}
    if "--how-many" in sys.argv:
        area, answers = "A", {18: 1}
        for n in (500, 1000, 3000, 10000):
            ends = np.array([run(cells, priors[area], answers, np.arange(n), seed)[1:] for seed in range(1, 41)])
            print(n, "draws: sd of COY's ends", ends[:, 0, 0].std().round(4), ends[:, 1, 0].std().round(4))
        return
    sample = normals(np.arange(3000)[:, None, None], np.arange(1, 26)[None, :, None], 1, np.arange(12)[None, None]).ravel()
    assert kstest(sample, "norm").pvalue > 0.01, kstest(sample, "norm")
    print(f"# made by tests/reference/make_cause_draws.py with NumPy {np.__version__} and SciPy {scipy.__version__}")
    print("case,area,answers,cause,figure,low,high")
    for name, (area, answers) in CASES.items():
        middle, low, high = run(cells, priors[area], answers)
        said = " ".join(f"{r}:{s}" for r, s in sorted(answers.items()))
        for c, cause in enumerate(CAUSES):
            print(f"{name},{area},{said},{cause},{float(middle[c])!r},{float(low[c])!r},{float(high[c])!r}")


if __name__ == "__main__":
    main()
