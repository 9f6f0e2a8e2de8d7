"""Review on site: what is looked at for each kind of attachment, what is measured and how far it may be off, what it comes to."""

from engine.review.as_built import AsBuilt, as_built
from engine.review.checklists import CHECKLISTS, STAGES, WALL, Item, as_rows, items, read_items
from engine.review.measures import MEASURES, Accepted, Measure, accepted, measures

__all__ = [
    "CHECKLISTS",
    "MEASURES",
    "STAGES",
    "WALL",
    "Accepted",
    "AsBuilt",
    "Item",
    "Measure",
    "accepted",
    "as_built",
    "as_rows",
    "items",
    "measures",
    "read_items",
]
