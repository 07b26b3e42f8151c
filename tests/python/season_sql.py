"""The season's counts as SQL over the Parquet export, and what the office itself counted, row for row.

The same statements run on DuckDB (test_sql.py) and on Apache Spark in local mode (spark_season.py, in tests/long). What
rests on draws (shares of causes and ages, comparisons, survival, density) is no matter of SQL and is not asked here.
"""

import csv
import os
import pathlib
import subprocess

TESTS = pathlib.Path(__file__).parent.parent
ROOT = TESTS.parent
TABLES = ["carcasses", "findings"]

# Wilson 1927 for k of n; z is the normal's quantile of 0.975, statistics.NormalDist().inv_cdf(0.975).
Z = "1.959963984540054"
MIDDLE = f"(k + {Z} * {Z} / 2) / (n + {Z} * {Z})"
HALF = f"{Z} / (n + {Z} * {Z}) * SQRT(k * (n - k) / n + {Z} * {Z} / 4)"
WILSON_LOW = f"CASE WHEN n > 0 THEN CASE WHEN k = 0 THEN 0 ELSE ROUND({MIDDLE} - {HALF}, 4) END END"
WILSON_HIGH = f"CASE WHEN n > 0 THEN CASE WHEN k = n THEN 1 ELSE ROUND({MIDDLE} + {HALF}, 4) END END"

# Table of the season, the columns that are compared, and the key in front.
QUESTIONS = {
    "carcasses": ["count", "carcasses"],
    "condition": [
        "age", "carcasses", "exhausted", "depleted", "partly_used", "cannot_say", "not_looked", "of", "low_share",
        "low_95", "high_95",
    ],
    "findings": [
        "finding", "seen", "not_seen", "differ", "cant_tell", "not_looked", "part_gone", "share", "low_95", "high_95",
    ],
    "called": ["called", "carcasses", "of", "share", "low_95", "high_95"],
    "map": ["middle_latitude", "middle_longitude", "cell_m", "carcasses"],
}
# Rows of carcasses.csv that are no count of rows of the export.
NOT_IN_SQL = {
    "visits_without_a_carcass", "aged", "not_aged", "sexed", "not_sexed", "cause_seen", "cause_nothing_seen",
    "cause_poor_fit", "weeks_spread", "weeks_apart", "weeks_no_window",
}


def office():
    """The program: named by the surroundings, or where cargo puts it."""
    target = pathlib.Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target"))
    return os.environ.get("MARROWBOOK_OFFICE", str(target / "debug" / "office"))


def make(folder):
    """The demo's invented season, its export and its season run below a folder."""
    demo = pathlib.Path(office()).parent / "examples" / "demo-season"
    assert demo.exists(), f"{demo} is not there; cargo test --features cli builds it"
    subprocess.run([str(demo), str(folder / "demo")], check=True, capture_output=True)
    archive = folder / "demo" / "archive"
    surroundings = {**os.environ, "MARROWBOOK_PASSPHRASE": "quillback ridge is invented"}
    # 3: a stranger's phone is among the files. The squares of map and export are the same 2000 m.
    for arguments in (["export", "--out", folder / "export", "--cell", "2000"], ["season", "--out", folder / "season"]):
        ran = subprocess.run(
            [office(), "--archive", str(archive), *map(str, arguments)],
            capture_output=True, text=True, env=surroundings, check=False,
        )
        assert ran.returncode == 3, ran


def native(folder, question):
    """What the office counted."""
    with open(folder / "season" / f"{question}.csv", newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def statement(folder, question, season):
    text = (TESTS / "python" / "sql" / f"{question}.sql").read_text(encoding="utf-8")
    # Which findings a season asks is the office's list; the counts are not.
    asked = " UNION ALL ".join(f"SELECT '{row['finding']}' AS finding" for row in native(folder, "findings"))
    return (
        text.replace("{season}", season).replace("{asked}", asked)
        .replace("{wilson_low}", WILSON_LOW).replace("{wilson_high}", WILSON_HIGH)
    )


def plain(value):
    """A cell as a number where it is one, so that 0 and 0.0 are one."""
    if value is None or value == "":
        return None
    try:
        return round(float(value), 9)
    except ValueError:
        return value


def season_of(folder):
    text = (folder / "season" / "season.json").read_text(encoding="utf-8")
    return text.split('"winter": "', 1)[1].split('"', 1)[0]


def compare(folder, ask):
    """Every question asked by `ask(sql)`, which gives rows as lists: those that differ, by question."""
    season = season_of(folder)
    differing, compared = {}, 0
    for question, columns in QUESTIONS.items():
        rows = ask(statement(folder, question, season))
        by_sql = sorted([[plain(cell) for cell in row] for row in rows], key=str)
        wanted = [row for row in native(folder, question) if row.get("count") not in NOT_IN_SQL]
        by_office = sorted([[plain(row[column]) for column in columns] for row in wanted], key=str)
        compared += len(by_office)
        if by_sql != by_office:
            differing[question] = {
                "sql": [row for row in by_sql if row not in by_office],
                "office": [row for row in by_office if row not in by_sql],
            }
    return compared, differing
