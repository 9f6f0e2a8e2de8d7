"""`make bench`: a check beside its bare arithmetic, a job's page beside its bare template, setting out by length, options, load.

Prints a table and writes tests/bench/latest.json: a list of {name, value, unit, ratio_to, ratio}.
"""

import gc
import json
import sys
from itertools import pairwise
from math import inf
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time_ns

from tests.bench import load, log, options, package
from tests.bench.measured import Measured, medians_ms
from tests.bench.page import Served
from tests.bench.setting_out import LENGTHS_FT, MOST_200_FT_MS, MOST_GROWTH, setting_out
from webapp.services import checks

LATEST = Path(__file__).parent / "latest.json"
ROUNDS = 300
PAGE_ROUNDS = 60
SETTING_OUT_ROUNDS = 15
OPTIONS_ROUNDS = 9
ATTACHMENTS = 200
MOST_CHECK_MS, MOST_CHECK_RATIO, MOST_PAGE_RATIO = 1.0, 6.0, 2.0


def of_checks() -> list[Measured]:
    """Every kind at its usual values: with its working, and the same functions with recording off."""
    from engine import attachments
    from engine.editions import US_2021

    found = []
    for kind in checks.offered():
        inputs = kind.inputs()
        full, bare = medians_ms(
            lambda key=kind.key, i=inputs: attachments.check(key, i, US_2021),
            lambda key=kind.key, i=inputs: attachments.check(key, i, US_2021, recording=False),
            ROUNDS,
        )
        name = f"{kind.key}, recording off"
        found += [
            Measured(f"{kind.key}, full check", full, "ms", name, full / bare, (MOST_CHECK_MS, MOST_CHECK_RATIO)),
            Measured(name, bare, "ms", "", None),
        ]
    return found


def of_pages() -> list[Measured]:
    """A job's page of many attachments from the database, and its template from ready values."""
    with TemporaryDirectory() as folder, Served(Path(folder), ATTACHMENTS) as served:
        page, template = medians_ms(served.page, served.template, PAGE_ROUNDS)
    name = f"template of {ATTACHMENTS} attachments, values ready"
    return [
        Measured(
            f"page of {ATTACHMENTS} attachments", page, "ms", name, page / template, (float("inf"), MOST_PAGE_RATIO)
        ),
        Measured(name, template, "ms", "", None),
    ]


def of_setting_out() -> list[Measured]:
    """A wall set out at three lengths: the time at 200 ft, and its growth with the length."""
    found = []
    for shorter, longer in pairwise(LENGTHS_FT):
        long, short = medians_ms(setting_out(longer), setting_out(shorter), SETTING_OUT_ROUNDS)
        most = MOST_200_FT_MS if longer == 200 else float("inf")
        name = f"setting out {shorter} ft of wall"
        found.append(Measured(f"setting out {longer} ft of wall", long, "ms", name, long / short, (most, MOST_GROWTH)))
    return found


def of_options() -> list[Measured]:
    """A floor line's candidates searched and ranked, by the time of one core: of 10,000, beside single checks, by their number."""
    candidates = options.searched().candidates
    some = candidates[:: options.EVERY]
    every, single = medians_ms(options.searched, options.single_checks(some), OPTIONS_ROUNDS, process_time_ns)
    more, fewer = options.plates(2 * options.SPACINGS), options.plates(options.SPACINGS)
    long, short = medians_ms(more, fewer, OPTIONS_ROUNDS, process_time_ns)
    each, alone = every / len(candidates), single / len(some)
    name, half = "options, 10,000 single checks", f"options, plates at {options.SPACINGS} spacings"
    most = options.MOST_10_000_MS, options.MOST_OF_SINGLE_CHECKS
    return [
        Measured("options, 10,000 candidates ranked", each * 10_000, "ms", name, each / alone, most),
        Measured(name, alone * 10_000, "ms", "", None),
        Measured("options, candidates a second", 1000 / each, "1/s", "", None),
        Measured(
            f"options, plates at {2 * options.SPACINGS} spacings",
            long,
            "ms",
            half,
            long / short,
            (inf, options.MOST_GROWTH),
        ),
    ]


def of_packages() -> list[Measured]:
    """A calculation package at three sizes: seconds and room at 100 attachments, and its growth with their number."""
    found: list[Measured] = []
    before: tuple[str, float] | None = None
    for count in package.COUNTS:
        made, name = package.made(package.order(count)), f"package of {count} attachments"
        bound = package.MOST_S if count == 100 else float("inf")
        # How much longer an attachment takes than in a package of the size before.
        growth = made.seconds / count / before[1] if before else None
        most = package.MOST_GROWTH if before else float("inf")
        found.append(
            Measured(name, made.seconds, "s", f"{before[0]}, an attachment" if before else "", growth, (bound, most))
        )
        found.append(Measured(f"{name}, largest process", made.megabytes, "MB", "", None, (package.MOST_MB, inf)))
        before = (name, made.seconds / count)
    usual = package.made(package.realistic(100))
    return [*found, Measured("package of 100 attachments, 8 of them different", usual.seconds, "s", "", None)]


def main() -> int:
    """Measure, print, write. Returns: 0 when everything that must be reached is."""
    gc.collect()
    gc.freeze()  # as the server does once it has started
    rows = [
        *of_checks(),
        *of_pages(),
        *of_setting_out(),
        *of_options(),
        *of_packages(),
        *log.of_logs(),
        *load.of_load(),
    ]
    for row in rows:
        ratio = f"{row.ratio:6.2f} x {row.ratio_to}" if row.ratio is not None else ""
        print(f"{row.name:<46}{row.value:9.3f} {row.unit}  {ratio}{'' if row.reached else '   TOO SLOW'}")
    LATEST.write_text(json.dumps([row.to_json() for row in rows], indent=1) + "\n", encoding="utf-8")
    print(f"Written to {LATEST}")
    return 0 if all(row.reached for row in rows) else 1


if __name__ == "__main__":
    sys.exit(main())
