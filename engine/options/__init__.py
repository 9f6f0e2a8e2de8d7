"""Options: every way of carrying one floor line on one wall, over sizes that can be bought, checked in full and ranked."""

from engine.floor import Floor
from engine.options.candidates import Candidate
from engine.options.comparison import (
    MEASURES,
    RULE,
    Chosen,
    Comparison,
    Failed,
    Measure,
    Ranked,
    choose,
    compare,
    demands,
    why,
)
from engine.options.offers import OFFERS, Offer
from engine.options.prepare import Line, Refused, Way
from engine.options.quantities import Quantities
from engine.options.rates import Rates, Total, total
from engine.options.search import Search

__all__ = [
    "MEASURES",
    "OFFERS",
    "RULE",
    "Candidate",
    "Chosen",
    "Comparison",
    "Failed",
    "Floor",
    "Line",
    "Measure",
    "Offer",
    "Quantities",
    "Ranked",
    "Rates",
    "Refused",
    "Search",
    "Total",
    "Way",
    "choose",
    "compare",
    "demands",
    "total",
    "why",
]
