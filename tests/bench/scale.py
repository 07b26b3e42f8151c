"""Time and peak memory of `office season` and `office export` on archives of growing size.

    scale.py PROGRAMS [--season-only] COUNT...     PROGRAMS is cargo's folder of a release build

An export of 10^6 writes some 50 GB: --season-only leaves it out.
Each archive is made, measured and taken away again. Prints one line a run; exit code 1 where time or memory of a carcass
grows by more than half from one size to the next (that is no longer linear), and where nothing was compared.
"""

import os
import pathlib
import shutil
import sys
import tempfile
import time

# How much more a carcass may cost in an archive ten times as large. A page cache and a map's depth cost something.
MOST_GROWTH = 1.5
# Below this a run is mostly its own start.
LEAST_SECONDS = 0.5


def run(arguments, codes=(0,)):
    """Seconds on the clock, seconds of the processor, peak memory in MB."""
    started = time.monotonic()
    quiet = [(os.POSIX_SPAWN_OPEN, 1, os.devnull, os.O_WRONLY, 0), (os.POSIX_SPAWN_OPEN, 2, "scale.err", os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)]
    child = os.posix_spawn(arguments[0], [str(one) for one in arguments], os.environ, file_actions=quiet)
    _, status, used = os.wait4(child, 0)
    if os.waitstatus_to_exitcode(status) not in codes:
        print(open("scale.err", encoding="utf-8").read()[-2000:])
        sys.exit(f"{arguments}: exit code {os.waitstatus_to_exitcode(status)}")
    return time.monotonic() - started, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def main():
    numbers = [one for one in sys.argv[2:] if one != "--season-only"]
    programs, counts = pathlib.Path(sys.argv[1]).resolve(), [int(n) for n in numbers]
    runs = ("season", "export") if numbers == sys.argv[2:] else ("season",)
    office, maker = str(programs / "office"), str(programs / "examples" / "scale-archive")
    work = pathlib.Path(tempfile.mkdtemp(prefix="scale-"))
    os.chdir(work)
    before, grows, compared = {}, [], 0
    print("carcasses  what    MB in or out  seconds  processor s  peak MB  ms a carcass  kB a carcass")
    try:
        for count in counts:
            archive = work / "archive"
            spent = {"make": run([maker, count, archive])}
            size = {"make": archive}
            for what in runs:
                out = work / what
                spent[what] = run([office, "--archive", archive, what, "--out", out])
                size[what] = out
            for what, (clock, processor, peak) in spent.items():
                megabytes = sum(file.stat().st_size for file in size[what].rglob("*") if file.is_file()) / 1e6
                each, kilobytes = processor * 1000 / count, peak * 1024 / count
                print(
                    f"{count:9}  {what:6}  {megabytes:12.1f}  {clock:7.1f}  {processor:11.1f}  {peak:7.0f}"
                    f"  {each:12.2f}  {kilobytes:12.1f}",
                    flush=True,
                )
                if what in before:
                    seconds_before, each_before, kilobytes_before = before[what]
                    if min(seconds_before, processor) > LEAST_SECONDS:
                        compared += 1
                        if each > MOST_GROWTH * each_before:
                            grows.append(f"{what} at {count}: {each:.2f} ms a carcass, {each_before:.2f} before")
                    if kilobytes > MOST_GROWTH * kilobytes_before:
                        grows.append(f"{what} at {count}: {kilobytes:.1f} kB a carcass, {kilobytes_before:.1f} before")
                before[what] = (processor, each, kilobytes)
            for folder in size.values():
                shutil.rmtree(folder)
    finally:
        shutil.rmtree(work)
    for one in grows:
        print(f"not linear: {one}")
    if grows:
        return 1
    if not compared:
        print(f"nothing was compared: give two sizes, with runs of more than {LEAST_SECONDS} s each")
        return 1
    print(f"time and memory of a carcass grow nowhere by more than half from one size to the next ({compared} compared)")
    return 0


if __name__ == "__main__":
    sys.exit(main())
