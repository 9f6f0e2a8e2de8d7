"""Work to measure: a floor line searched by every way there is and ranked, beside single checks of the same candidates."""

from collections.abc import Callable
from dataclasses import replace

from engine import attachments
from engine.editions import US_2021
from engine.options import Candidate, Floor, Line, Search, compare
from engine.options.search import Checking
from engine.options.sizes import Choices
from engine.placed import Place, Site
from engine.wall import Storey, WallLine, WallType, wall

MOST_10_000_MS = 500.0
MOST_OF_SINGLE_CHECKS = 0.5
MOST_GROWTH = 3.0  # twice the candidates: twice the time, and half as much again for a busy machine
EVERY = 50  # of how many candidates one is checked by itself
SPACINGS = 12
LISTED = {
    "bolted_ledger": {
        "hanger_capacity_lb": "1400 lb", "hanger_report": "Report 1", "hanger_expires": "2027-06-01", "hanger_listed": "10",
        "tie_capacity_lb": "2000 lb", "tie_report": "Report 2", "tie_expires": "2027-06-01",
    },
    "cast_in_plate": {
        "listed_lb": "1500 lb", "report": "Report 3", "issued": "2025-06-01", "expires": "2027-06-01",
        "listed_f_c_psi": "2500 psi", "listed_foam_least_in": "1 in", "listed_foam_most_in": "4 in",
        "listed_embedment_in": "3 in", "listed_spacing_in": "8 in", "listed_screws": "4", "listed_gauge": "8",
    },
}  # fmt: skip
Work = Callable[[], object]


def floor_line() -> Line:
    """30 ft of floor on a 10 in wall under a 6 in one, with listings for every part that needs one."""
    types = {"lower": WallType(core_in=10.0, vertical_bar="4"), "upper": WallType()}
    made = wall("W1", WallLine(length_ft=40.0), [Storey("lower"), Storey("upper")], [], types)
    place = Place(level=1, start_ft=2.0, end_ft=32.0)
    return Line(Floor(), place, made, Site(), US_2021, standards=LISTED, today="2026-11-25")


def searched() -> Search:
    """Every candidate checked, and ranked."""
    search = Search(floor_line())
    for _ in search.run():
        pass
    compare(search)
    return search


def single_checks(candidates: list[Candidate]) -> Work:
    """Each by itself. Args: candidates: some of a search."""
    given = [(c.way.offer.kind, c.inputs) for c in candidates]
    return lambda: [attachments.check(kind, inputs, US_2021, recording=False) for kind, inputs in given]


def plates(spacings: int) -> Work:
    """Bolted plates on the ledge. Args: spacings: how many of their bolts, each of which all lines but a few must be asked for."""
    way = next(way for way in Search(floor_line()).ways if way.offer.key == "ledge-plate")
    apart = Choices(("bolt_spacing_in",), tuple((16.0 + 2 * number,) for number in range(spacings)))
    more = replace(way, choices=(*way.choices[:-1], apart))
    return lambda: list(Checking(more).run())
