"""Points at which work stops until somebody has looked: an ordered list that an office may change."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from engine.clauses.us.irc_process import may_place_concrete, special_inspection
from engine.editions import Citation
from engine.errors import BadInput
from engine.fields import LONGEST_WORDS
from engine.worksheet import cite

STAGES = ("before placing", "while placing", "after placing")
KEYS = ("stage", "words", "stop", "family", "section")
LONGEST_SOURCE = 60


@dataclass(frozen=True, slots=True)
class HoldPoint:
    """One point. Args: stage: one of STAGES. words: what is looked at. stop: work waits for it. source: None for practice."""

    stage: str
    words: str
    stop: bool = True
    source: Citation | None = None


# IRC 2021 R109.1.1 to R109.4, IBC 2021 110.1 to 110.6 and 1705.3 (read). R109.1.1 speaks of foundations; upper wall placements
# rest on R109.1.4, R109.1.5 or local rules, which is why the list can be changed.
HOLD_POINTS = (
    HoldPoint("before placing", "Forms straight, plumb, braced and tied; bucks braced; cut edges strapped",
              source=cite(may_place_concrete)),
    HoldPoint("before placing", "Bars of the size and spacing drawn, lapped, held in place; dowels in line",
              source=cite(may_place_concrete)),
    HoldPoint("before placing", "Anchors, cast-in plates, sleeves and pockets where the setting out has them",
              source=cite(special_inspection)),
    HoldPoint("before placing", "Inspection asked for by the permit holder, and approved",
              source=Citation("IRC", "R109.3, R109.4")),
    HoldPoint("while placing", "First load: slump, air, temperature, cylinders; slump again at every truck",
              source=cite(special_inspection)),
    HoldPoint("while placing", "Each lift timed; no lift higher, no circuit faster than this plan", stop=False),
    HoldPoint("while placing", "Bulges, lifting forms and leaning walls looked for after every circuit", stop=False),
    HoldPoint("after placing", "Walls plumbed and anchors put right while the concrete is soft", stop=False),
    HoldPoint("after placing", "Work kept in sight until it is approved; what failed is mended before it is covered",
              source=Citation("IBC", "110.1, 110.6")),
    HoldPoint("after placing", "Nothing hung on embedded parts before the concrete has the strength stated"),
)  # fmt: skip


def read_hold_point(row: Mapping[str, str]) -> HoldPoint:
    """One row with the texts of KEYS. Raises: BadInput naming the text."""
    words, stage, stop = row.get("words", "").strip(), row.get("stage", ""), row.get("stop", "yes")
    family, section = row.get("family", "").strip(), row.get("section", "").strip()
    if not 0 < len(words) <= LONGEST_WORDS:
        raise BadInput("words", f"Enter what is looked at, at most {LONGEST_WORDS} characters.")
    if stage not in STAGES:
        raise BadInput("stage", f"Choose one of: {', '.join(STAGES)}.")
    if stop not in ("yes", "no"):
        raise BadInput("stop", "Enter yes or no.")
    for name, text in (("family", family), ("section", section)):
        if len(text) > LONGEST_SOURCE:
            raise BadInput(name, f"Enter at most {LONGEST_SOURCE} characters.")
    if section and not family:
        raise BadInput("family", "Enter the code or standard that the section is of.")
    unknown = sorted(row.keys() - set(KEYS))
    if unknown:
        raise BadInput("", f"No such entry as {', '.join(unknown)}. Known: {', '.join(KEYS)}.")
    return HoldPoint(stage, words, stop == "yes", Citation(family, section) if family else None)


def read_hold_points(rows: Iterable[Mapping[str, str]]) -> tuple[HoldPoint, ...]:
    """An office's own list, in its order. Raises: BadInput naming the row and its text ("3-words")."""
    found = []
    for number, row in enumerate(rows, 1):
        try:
            found.append(read_hold_point(row))
        except BadInput as error:
            raise BadInput(f"{number}-{error.field}", f"Hold point {number}: {error.message}") from None
    return tuple(found)


def write_hold_points(points: Iterable[HoldPoint]) -> tuple[dict[str, str], ...]:
    """As texts that `read_hold_points` reads back."""
    return tuple(
        {
            "stage": p.stage,
            "words": p.words,
            "stop": "yes" if p.stop else "no",
            "family": p.source.family if p.source else "",
            "section": p.source.section if p.source else "",
        }
        for p in points
    )
