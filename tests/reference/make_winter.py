"""An invented daily winter log and the indices over it, worked out again in exact fractions.

    python3 tests/reference/make_winter.py tests/reference      (Python 3, no packages)

The log is synthetic: it says nothing of any real winter and serves only to compare two programs. It has
days at exactly 0 F and 18 in, missing cells, missing days, and two places of which one is written in
Celsius and centimetres that were converted from whole degrees F and inches.
"""
import csv
import datetime
import pathlib
import random
import sys
from fractions import Fraction

ZERO_F = Fraction(-160, 9)
INCH = Fraction(254, 100)


def days(seed):
    """One place: (date, minimum F or None, depth in inches or None), with gaps."""
    draw = random.Random(seed)
    depth = 0.0
    out = []
    for n in range(212):
        date = datetime.date(2030, 11, 1) + datetime.timedelta(days=n)
        cold = 18 - 26 * (1 - abs(n - 90) / 110)
        minimum = round(cold + draw.gauss(0, 8))
        depth = max(0, min(34, depth + draw.choice([-1, -1, 0, 0, 0, 3]) + (1 if n < 100 else -0.6)))
        if draw.random() < 0.03:
            continue
        out.append((date,
                    None if draw.random() < 0.04 else (0 if draw.random() < 0.1 else minimum),
                    None if draw.random() < 0.05 else (18 if draw.random() < 0.06 else round(depth))))
    return out


def points(log, start, end, strict, inches):
    """Low and high end of a point index, and what is missing."""
    table = {date: (minimum, depth) for date, minimum, depth in log}
    low = high = no_minimum = no_depth = 0
    date = start
    last = min(end, max(table))
    while date <= last:
        minimum, depth = table.get(date, (None, None))
        if minimum is None:
            no_minimum += 1
            high += 1
        else:
            c = (Fraction(minimum) - 32) * Fraction(5, 9)
            hit = c < ZERO_F if strict else c <= ZERO_F
            low, high = low + hit, high + hit
        if depth is None:
            no_depth += 1
            high += 1
        else:
            hit = Fraction(depth) * INCH >= inches * INCH
            low, high = low + hit, high + hit
        date += datetime.timedelta(days=1)
    return low, high, no_minimum, no_depth


def mondays(log):
    """Michigan's running sum in inches from 1 November, Mondays read and missing."""
    table = {date: depth for date, _, depth in log}
    total, read, missing = Fraction(0), 0, 0
    date = datetime.date(2030, 11, 1)
    while date <= max(table):
        if date.weekday() == 0:
            if table.get(date) is None:
                missing += 1
            else:
                total, read = total + table[date], read + 1
        date += datetime.timedelta(days=1)
    return total, read, missing


def half_up(x, places):
    """Rounded half away from zero, as text."""
    scaled = abs(x) * 10**places
    whole = int(scaled + Fraction(1, 2))
    text = f"{whole // 10**places}.{whole % 10**places:0{places}d}" if places else str(whole)
    return ("-" if x < 0 and whole else "") + text


def main(folder):
    places = {"Cedar flat": days(11), "North ridge": days(12)}
    with open(folder / "winter-synthetic-f-in.csv", "w", newline="") as out:
        rows = csv.writer(out, lineterminator="\n")
        rows.writerow(["station", "date", "snow depth (in)", "tmin (F)"])
        for date, minimum, depth in places["Cedar flat"]:
            rows.writerow(["Cedar flat", date, "" if depth is None else depth, "M" if minimum is None else minimum])
    with open(folder / "winter-synthetic-converted.csv", "w", newline="") as out:
        rows = csv.writer(out, lineterminator="\n")
        rows.writerow(["DATE", "NAME", "TMIN", "SNWD"])
        for date, minimum, depth in places["North ridge"]:
            c = "" if minimum is None else half_up((Fraction(minimum) - 32) * Fraction(5, 9), 1)
            mm = "" if depth is None else half_up(Fraction(depth) * INCH * 10, 0)
            rows.writerow([date, "North ridge", c, mm])
    seasons = {"wisconsin": ((2030, 12, 1), (2031, 4, 30), False, 18), "minnesota": ((2030, 11, 1), (2031, 5, 31), False, 15),
               "new_york": ((2030, 12, 1), (2031, 4, 30), False, 18), "vermont": ((2030, 12, 1), (2031, 4, 30), True, 18)}
    with open(folder / "winter.csv", "w", newline="") as out:
        out.write("# made by tests/reference/make_winter.py from the invented logs beside it\n")
        out.write("place,index,low,high,missing_first,missing_second\n")
        for place, log in places.items():
            for index, (start, end, strict, inches) in seasons.items():
                figures = points(log, datetime.date(*start), datetime.date(*end), strict, inches)
                out.write(f"{place},{index},{','.join(map(str, figures))}\n")
            total, _, missing = mondays(log)
            high = "" if missing else float(total)
            out.write(f"{place},michigan_total_snow,{float(total)},{high},{missing},\n")


if __name__ == "__main__":
    main(pathlib.Path(sys.argv[1]))
