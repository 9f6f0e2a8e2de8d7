"""`wallseat prove`: published cases computed again."""

import argparse
import json
import sys
from collections.abc import Sequence

from engine import proving
from engine.proving import Case, Outcome
from webapp.documents.values import short

AGREED, DISAGREED, UNUSABLE = 0, 1, 2


def run(options: argparse.Namespace) -> int:
    """Print computed beside published. Returns: 0 when none disagrees, 1 when one does, 2 for an unusable file."""
    try:
        cases = _cases(options)
    except (OSError, ValueError) as error:
        print(f"wallseat: {options.cases}: {error}", file=sys.stderr)
        return UNUSABLE
    outcomes = proving.run_all(cases)
    counts = proving.counts(outcomes)
    if options.json:
        print(json.dumps({"counts": counts, "cases": [o.to_json() for o in outcomes]}, ensure_ascii=False, indent=2))
    else:
        _print(outcomes, counts, options.all)
    return DISAGREED if counts["disagree"] else AGREED


def _cases(options: argparse.Namespace) -> Sequence[Case]:
    if options.cases is None:
        return proving.own_cases()
    text = options.cases.read_text(encoding="utf-8-sig")
    if not text.lstrip().startswith("["):
        raise ValueError("a file of cases is one JSON list")
    return proving.read_cases(text)


def _print(outcomes: Sequence[Outcome], counts: dict[str, int], everything: bool) -> None:
    for outcome in outcomes:
        if everything or outcome.verdict != "agree":
            _print_one(outcome)
    print(", ".join(f"{count} {verdict.replace('_', ' ')}" for verdict, count in counts.items()))


def _print_one(outcome: Outcome) -> None:
    case = outcome.case
    print(
        f"{outcome.verdict.replace('_', ' '):<9} {case.id}  {case.topic}  ({', '.join(map(str, case.source.values()))})"
    )
    if outcome.reason:
        print(f"          {outcome.reason}")
    for name, published in case.expected.items():
        computed = short(outcome.computed[name]) if name in outcome.computed else "not computed"
        print(f"          {name}: computed {computed}, published {short(published)}")
