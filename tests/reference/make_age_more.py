"""Check values for the evidence beside the look of the teeth and for a reader's own record, made by SciPy.

    python3 -m venv venv && venv/bin/pip install scipy==1.16.3
    venv/bin/python tests/reference/make_age_more.py > tests/reference/age_more.csv

Every constant is typed here again from the sources named in src/science, nothing is read from there.
"""
import numpy as np
import scipy
from scipy import stats

print(f"# made by tests/reference/make_age_more.py with SciPy {scipy.__version__}, NumPy {np.__version__}")
print("kind,a,b,c,value")


def row(kind, a, b, c, value):
    print(f"{kind},{a},{b},{c},{float(value)!r}")


# Growing ends of cannon bones: cuts at 20 (spread 2) and 29 (spread 1.5) months.
for months in [6.0, 8.5, 17.25, 20.0, 20.5, 23.75, 29.0, 32.5, 40.0]:
    line, closed = stats.norm.cdf(months, 20, 2), stats.norm.cdf(months, 29, 1.5)
    for name, value in [("open", 1 - line), ("line", line - closed), ("closed", closed)]:
        row("cannon", months, name, "", value)

# Tooth row: printed equations.
for mm in [63.0, 70.0, 75.0, 80.0, 86.5]:
    row("tooth_row_days", mm, "male", "", np.exp(-4.34 + 2.45 * np.log(mm)))
    row("tooth_row_days", mm, "female", "", np.exp(-4.62 + 2.54 * np.log(mm)))


# Rings: exact, a third of the rest a year off either way, the last third spread over the other ages.
def rings_given_age(exact):
    table = np.zeros((15, 15))
    for age in range(15):
        for count in range(15):
            off = abs(age - count)
            table[age, count] = exact if off == 0 else (1 - exact) / 3 if off == 1 else (1 - exact) / 3 / 12
        table[age] /= table[age].sum()
    return table


def rings_given_class(exact):
    table = rings_given_age(exact)
    weights = np.array([0.21 * 0.79**i for i in range(5)] + [0.79**5])
    return np.vstack([table[:9], weights @ table[9:]])


for exact, name in [(0.70, ""), (0.85, "best"), (0.65, "middle"), (0.45, "lowest")]:
    table = rings_given_class(exact)
    for years in [0, 1, 4, 8, 9, 11, 14]:
        for c in range(10):
            row("rings", years, name, c, table[c, years])


# The published reader by the first molar: mean a - 0.17 (a - 2.5), spread 0.86 + 0.10 (a - 2.5).
def first_molar():
    table = np.zeros((10, 11))
    table[0, :2] = [0.99, 0.01]
    table[1, 1:3] = [0.94, 0.06]
    for c in range(2, 10):
        a = c + 0.5
        d = stats.norm(a - 0.17 * (a - 2.5), 0.86 + 0.10 * (a - 2.5))
        edges = [-np.inf] + list(range(3, 11)) + [np.inf]
        table[c, 2:] = np.diff(d.cdf(edges))
    return table


# Starting point: half wolf kills with a half added to each of eleven counts, half survival.
def shares(sex):
    counts = np.array([24, 13, 16, 8, 13, 21, 12, 16, 6, 6, 7]) + 0.5
    wolf = counts / counts.sum()
    wolf = np.append(wolf[:9], wolf[9:].sum())
    fawn, yearling, adult = {"f": (0.31, 0.80, 0.79), "m": (0.31, 0.41, 0.47)}[sex]
    survival = [fawn, yearling] + [adult] * 7 + [0.0]
    alive, dead = 1.0, []
    for s in survival:
        dead.append(alive * (1 - s))
        alive *= s
    return 0.5 * wolf + 0.5 * np.array(dead)


floored = np.maximum(first_molar(), 0.002)


def one(p):
    return p / p.sum()


# A class called 4.5 on a doe, then rings of 6 (middle grade) joined to it.
call = shares("f") * floored[:, 4]
for c, p in enumerate(one(call)):
    row("call_4", c, "", "", p)
joined = one(call * np.maximum(rings_given_class(0.65)[:, 6], 0.002))
for c, p in enumerate(joined):
    row("call_4_rings_6", c, "", "", p)

# Size of z = -1.5 on the same call: fawns against older, older keep their shares.
z = -1.5
bell = [np.exp(-0.5 * (z - m) ** 2) for m in (-2.0, -0.5, 0.0)]
share = 0.2
sized = call.copy()
sized[0] *= bell[0] / (share * bell[1] + (1 - share) * bell[2])
for c, p in enumerate(one(sized)):
    row("call_4_size", c, "", "", p)

# An antler beam of 350 mm on a buck called 2.5.
buck = shares("m") * floored[:, 2] * np.array([0.002 * 0.93 / 0.07, 0.93] + [0.07] * 8)
for c, p in enumerate(one(buck)):
    row("beam_350", c, "", "", p)

# A smooth brow, sex not known, on the same call: joint of sex and class.
brow = np.array([1 / 3] + [1 / 50] * 9)
female, male = shares("f") * floored[:, 4], shares("m") * floored[:, 4] * brow
total = female.sum() + male.sum()
for c in range(10):
    row("brow", c, "female", "", female[c] / total)
    row("brow", c, "male", "", male[c] / total)

# A reader's own record. Calls on jaws of known age, and on jaws whose rings were counted.
known = {(0, 0): 12, (1, 1): 9, (1, 2): 1, (2, 2): 14, (2, 3): 6, (3, 2): 5, (3, 3): 7, (3, 4): 3, (4, 3): 4,
         (4, 4): 6, (5, 4): 3, (5, 5): 2, (6, 5): 2, (6, 6): 1, (8, 6): 1, (9, 8): 1, (9, 10): 1}
rings = {(2, 3, "middle"): 3, (3, 3, "best"): 4, (4, 3, "best"): 2, (5, 4, ""): 6, (5, 5, ""): 2, (7, 5, "lowest"): 3,
         (9, 7, "best"): 2, (12, 9, "best"): 1, (2, 2, "middle"): 5}
for (a, c), n in known.items():
    row("known", a, c, "", n)
for (years, c, grade), n in rings.items():
    row("by_rings", years, c, grade, n)
base = floored / floored.sum(axis=1, keepdims=True)
exactness = {"": 0.70, "best": 0.85, "middle": 0.65, "lowest": 0.45}
flat = np.full(10, 0.1)
theta = base.copy()


def responsibilities(theta):
    counts, worth = np.zeros((10, 11)), np.zeros(10)
    for (a, c), n in known.items():
        counts[a, c] += n
        worth[a] += n
    for (years, c, grade), n in rings.items():
        share = one(flat * rings_given_class(exactness[grade])[:, years] * theta[:, c])
        counts[:, c] += n * share
        worth += n * share**2
    return counts, worth


for _ in range(5000):
    counts, worth = responsibilities(theta)
    theta = (20 * base + counts) / (20 + counts.sum(axis=1, keepdims=True))
counts, worth = responsibilities(theta)
for a in range(10):
    row("readings", a, "", "", counts[a].sum())
    row("worth", a, "", "", worth[a])
    for c in range(11):
        weight = 20 + worth[a]
        row("mean", a, c, "", theta[a, c])
        row("low", a, c, "", stats.beta.ppf(0.05, theta[a, c] * weight, (1 - theta[a, c]) * weight))
        row("high", a, c, "", stats.beta.ppf(0.95, theta[a, c] * weight, (1 - theta[a, c]) * weight))
