"""The published cases, run once against the engine and kept."""

from functools import cache
from threading import Lock

from engine import proving
from engine.proving import Outcome
from webapp.services.listing import Part, Wanted

_running = Lock()


@cache
def _run() -> tuple[Outcome, ...]:
    return proving.run_all(proving.own_cases())


def outcomes() -> tuple[Outcome, ...]:
    """Every case with what the engine computes; the first call runs them, others wait for it."""
    with _running:
        return _run()


def _holds(outcome: Outcome, q: str) -> bool:
    case = outcome.case
    text = " ".join((case.id, case.topic, case.about, case.provenance, *map(str, case.source.values()), case.notes))
    return q.lower() in text.lower()


def page(wanted: Wanted) -> Part[Outcome]:
    """Those that were asked for; counts of all that hold the words."""
    found = [o for o in outcomes() if not wanted.q or _holds(o, wanted.q)]
    counts = {"": len(found)} | proving.counts(found)
    kept = [o for o in found if wanted.verdict in ("", o.verdict)]
    return Part(tuple(kept[wanted.offset : wanted.offset + wanted.size]), len(kept), wanted, counts)
