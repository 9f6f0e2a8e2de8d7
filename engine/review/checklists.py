"""What is looked at on site, by kind and stage: the published points first, then what the trade looks at.

IRC 2021 R109 and IBC 2021 110 and 1705.3 (read) name the inspections; lines without a source are common practice. An office changes
the lists; a change is a new version, and a review keeps the one it was made with.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from engine.clauses.us.irc_process import may_place_concrete, special_inspection
from engine.editions import Citation
from engine.errors import BadInput
from engine.fields import LONGEST_WORDS
from engine.review.measures import AFTER, BEFORE, FRAMING
from engine.worksheet import cite

STAGES = (BEFORE, AFTER, FRAMING)
WALL = "wall"  # the list of a wall rather than of an attachment
MOST_ITEMS = 40


@dataclass(frozen=True, slots=True)
class Item:
    """One line to tick. Args: words: what is so. stop: work waits for it. source: None for common practice."""

    words: str
    stop: bool = False
    source: Citation | None = None


FORMS, CAST_IN = cite(may_place_concrete), cite(special_inspection)
SILL = Citation("IRC", "R403.1.6")  # two anchors a piece, in the middle third of the plate
SET_OUT = Item("Each stands at its station; what is off is measured", True, CAST_IN)

CHECKLISTS: Mapping[tuple[str, str], tuple[Item, ...]] = {
    (WALL, BEFORE): (
        Item("Forms straight, plumb, braced and tied; cut edges strapped", True, FORMS),
        Item("Bars of the size and spacing drawn, lapped, held in place", True, FORMS),
        Item("Bucks braced; sleeves and pockets in place", True, FORMS),
        Item("Inspection asked for by the permit holder, and approved", True, Citation("IRC", "R109.3, R109.4")),
    ),
    (WALL, AFTER): (
        Item("Concrete consolidated; no bulge, no void heard behind the foam", source=CAST_IN),
        Item("Wall plumb; embedded parts put right while the concrete was soft"),
        Item("Slump and temperature on the pour card", source=CAST_IN),
    ),
    (WALL, FRAMING): (Item("Nothing is hung on the wall before the concrete has the strength stated", True),),
    ("ledge_seat", BEFORE): (
        SET_OUT,
        Item("Foam cut clean at the ledge, nothing loose on it"),
        Item("Bolts held so that they keep their depth in soft concrete", source=CAST_IN),
        Item("Vertical bars lap into the wall above"),
    ),
    ("ledge_seat", AFTER): (Item("Concrete full to the lip, no voids"), Item("Ledge level; bolts plumb and clean")),
    ("ledge_seat", FRAMING): (
        Item("Plate bears over its whole width"),
        Item("Joist ends held against rotation"),
        Item("Nuts and washers on every bolt"),
    ),
    ("bolted_ledger", BEFORE): (
        SET_OUT,
        Item("Foam cut away to the core at every bolt, so that concrete reaches the ledger"),
        Item("Membrane or separator between wood and concrete"),
        Item("Bolts held so that they keep their depth in soft concrete", source=CAST_IN),
    ),
    ("bolted_ledger", AFTER): (Item("Concrete full at every cut-out"), Item("Bolts square to the wall")),
    ("bolted_ledger", FRAMING): (
        Item("Washers under every nut; nuts tight"),
        Item("Hangers of the kind listed, every hole filled as listed"),
        Item("Ties across the wall fixed where drawn"),
    ),
    ("anchored_plate", BEFORE): (
        SET_OUT,
        Item("Plate flat against the form or its pad, anchors at full depth", source=CAST_IN),
        Item("Anchor steel and heads as drawn"),
    ),
    ("anchored_plate", AFTER): (Item("Concrete full behind the plate, no voids"), Item("Plate flush and plumb")),
    ("anchored_plate", FRAMING): (Item("Nuts tight; fasteners to the member as drawn"),),
    ("cast_in_plate", BEFORE): (
        SET_OUT,
        Item("Part of the listing named; holes in the core side open for concrete", source=CAST_IN),
        Item("Plate held square while concrete goes in"),
    ),
    ("cast_in_plate", AFTER): (
        Item("Concrete round the plate, no voids"),
        Item("Plate clean of paste where the joist goes"),
    ),
    ("cast_in_plate", FRAMING): (
        Item("Every listed hole has its screw, of the gauge listed"),
        Item("Joist tight to its seat; web filled where drawn"),
    ),
    ("beam_pocket", BEFORE): (
        SET_OUT,
        Item("Form of the pocket braced; bars each side as drawn", True, FORMS),
        Item("Seat at its level, nothing above it"),
    ),
    ("beam_pocket", AFTER): (Item("Seat level and full; core left behind the pocket"),),
    ("beam_pocket", FRAMING): (
        Item("Air at top, sides and end of a wood beam, not filled with foam"),
        Item("Beam held down and sideways as drawn; shims listed"),
    ),
    ("sill_plate", BEFORE): (
        SET_OUT,
        Item("Bolts held at their depth", source=CAST_IN),
        Item("Two bolts and more in every piece", source=SILL),
    ),
    ("sill_plate", AFTER): (
        Item("Bolts within the middle third of the plate", source=SILL),
        Item("Top of the wall level"),
    ),
    ("sill_plate", FRAMING): (Item("Plate treated or separated"), Item("Washers as drawn; nuts tight")),
    ("veneer_ledge", BEFORE): (
        Item("A stirrup in every web space drawn, hooked into the core", True, FORMS),
        Item("Main bar and tip bar in their holders, covers held"),
        Item("Corner bars and extra stirrup in place"),
    ),
    ("veneer_ledge", AFTER): (Item("Ledge full to the lip, no voids"), Item("Top of the ledge at its level")),
    ("veneer_ledge", FRAMING): (
        Item("Flashing and weeps in the first course"),
        Item("Two thirds of the brick and more bears on the ledge"),
        Item("Ties fixed into what they are meant for"),
    ),
    ("gable_end", BEFORE): (
        Item("Pieces stand as numbered, webs over webs"),
        Item("Cut edges strapped and tied through; strongbacks up", True, FORMS),
        Item("Bolts of the rake plate held square to it", source=CAST_IN),
    ),
    ("gable_end", AFTER): (
        Item("Concrete full to the rake, no voids"),
        Item("Lifts as planned, written on the pour card"),
    ),
    ("gable_end", FRAMING): (Item("Rake plate bears over its whole width; nuts and washers on"),),
}


def items(kind: str, stage: str) -> tuple[Item, ...]:
    """The list of a kind of attachment, or of `WALL`, at a stage; empty where there is nothing to look at."""
    return CHECKLISTS.get((kind, stage), ())


def read_items(rows: Iterable[Mapping[str, str]]) -> tuple[dict[str, str], ...]:
    """An office's own list, each row with "key", "words" and "stop" ("yes" or "no"). Raises: BadInput naming the row."""
    found: list[dict[str, str]] = []
    keys: set[str] = set()
    for number, row in enumerate(rows, 1):
        words, key = row.get("words", "").strip(), row.get("key", "").strip()
        if not 0 < len(words) <= LONGEST_WORDS:
            raise BadInput("words", f"Line {number}: enter what is looked at, at most {LONGEST_WORDS} characters.")
        if not key or len(key) > 40 or key in keys:
            raise BadInput("key", f"Line {number}: every line needs a short name of its own.")
        if len(found) == MOST_ITEMS:
            raise BadInput("words", f"Keep to {MOST_ITEMS} lines; nobody ticks more.")
        keys.add(key)
        found.append({"key": key, "words": words, "stop": "yes" if row.get("stop") == "yes" else "no"})
    return tuple(found)


def as_rows(found: Iterable[Item]) -> tuple[dict[str, str], ...]:
    """Lines as rows that `read_items` reads; keys are their places."""
    return tuple(
        {"key": f"line-{number}", "words": item.words, "stop": "yes" if item.stop else "no"}
        for number, item in enumerate(found, 1)
    )
