"""Headings to inputs: by the words the forms use, by names of the trade, and with the unit a heading names for its bare numbers."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from engine import units
from engine.errors import BadInput
from engine.fields import Spec
from engine.job_file import BARE, FEET_INCHES
from engine.units import System
from webapp.forms.attachment import PLACE
from webapp.forms.quantities import reader_unit
from webapp.imports.sheets import Table, letters
from webapp.imports.subjects import KIND, WALL, Subject, Target, subjects

# Other headings of the trade, common practice. A name that fits two inputs of a subject is matched to neither.
ALSO: Mapping[str, tuple[str, ...]] = {
    "name": ("line", "mark", "tag", "id"),
    WALL: ("on wall", "wall name", "wall no", "wall mark", "wall id"),
    KIND: ("attachment", "attachment kind", "type"),
    f"{PLACE}level": ("level", "floor level", "floor", "at level"),
    f"{PLACE}start_ft": ("start", "starts at", "from", "station", "at", "start station"),
    f"{PLACE}end_ft": ("end", "ends at", "to", "until", "end station"),
    "length_ft": ("wall length", "overall length", "len"),
    "near_end": ("near end", "named end", "end at station 0"),
    "far_end": ("other end",),
    "x_ft": ("x", "plan x", "across"),
    "y_ft": ("y", "plan y", "up"),
    "bearing_deg": ("direction", "angle"),
    "storeys-1-type": ("wall type", "type"),
    "storeys-1-height_ft": ("storey height", "wall height", "height"),
    "start_ft": ("start", "from", "station", "offset"),
    "width_ft": ("opening width",),
    "sill_ft": ("sill height",),
    "head_ft": ("head height", "header height"),
    "storey": ("level", "floor"),
    "joist_spacing_in": ("joists at", "joist centres", "joists oc"),
    "spacing_in": ("oc", "centres", "on centre"),
    "bolt_spacing_in": ("bolts at", "bolt centres", "bolts oc"),
    "span_ft": ("joist span", "clear span"),
    "depth_in": ("d", "joist size"),
    "dead_psf": ("dead load", "dl", "floor dead"),
    "live_psf": ("live load", "ll", "floor live"),
    "snow_psf": ("snow load", "sl", "roof snow"),
    "uplift_plf": ("wind uplift", "net uplift"),
    "reaction_dead_lb": ("dead reaction", "dl reaction"),
    "reaction_live_lb": ("live reaction", "ll reaction"),
    "reaction_snow_lb": ("snow reaction", "sl reaction"),
    "embedment_in": ("hef", "embed", "embedment depth"),
    "bolt_embedment_in": ("hef", "embed", "embedment depth"),
    "bolt": ("bolt size", "bolt dia", "anchor bolt"),
    "anchor": ("anchor size", "anchor dia"),
    "species": ("wood species",),
}
BRITISH = (("stories", "storeys"), ("story", "storey"), ("center", "centre"), ("gage", "gauge"), ("&", "and"))
FEET = ("ftin", "feetinches", "feetandinches", "ftandin")
SET_OFF = (r"(.*?)\s*[(\[]([^()\[\]]+)[)\]]\s*", r"(.*\S)\s*,\s*([^,]+)")  # a unit in brackets or after a comma
LAST_WORD = r"(.*\S)\s+(\S+)"


@dataclass(frozen=True, slots=True)
class Match:
    """A column and what it is taken for.

    Args: unit: of its bare numbers, "" for words. complaint: why it can't be taken so. sample: its first entry.
    """

    column: int
    heading: str
    target: Target | None
    unit: str = ""
    complaint: str = ""
    sample: str = ""

    @property
    def letter(self) -> str:
        """As the spreadsheet calls it."""
        return letters(self.column)

    @property
    def key(self) -> str:
        """What it is taken for; "" for nothing."""
        return self.target.key if self.target else ""


def headings(subject: Subject, system: System) -> tuple[str, ...]:
    """Headings that are matched to all of a subject's targets, each with the unit a reader's bare number is in."""
    found = []
    for target in subject.targets:
        spec = target.spec
        unit = reader_unit(spec.unit, system) if spec.kind == "number" else ""
        found.append(f"{subject.label(spec)}, {unit}" if unit else subject.label(spec))
    return tuple(found)


def folded(text: str) -> str:
    """Letters and digits of a heading, in one spelling."""
    text = text.casefold()
    for one, other in BRITISH:
        text = text.replace(one, other)
    return re.sub(r"[\W_]+", "", text)


def matched(table: Table, subject: Subject, system: System, chosen: Sequence[str] | None = None) -> tuple[Match, ...]:
    """What each column is taken for. Args: chosen: keys by column, "" for a column left out; None to go by the headings."""
    found: list[Match] = []
    for column, heading in enumerate(table.headings):
        if chosen is None:
            target = _by_heading(heading, subject)
        else:
            target = subject.target(chosen[column]) if column < len(chosen) else None
        sample = next((row.cells[column] for row in table.rows if row.cells[column]), "")
        found.append(_with_unit(Match(column, heading, target, sample=sample), system))
    return tuple(_once(found, by_hand=chosen is not None))


def _once(matches: Iterable[Match], by_hand: bool) -> Iterable[Match]:
    """No input is taken from two columns: the first counts, a second chosen by hand is complained of."""
    seen: dict[str, Match] = {}
    for match in matches:
        first = seen.setdefault(match.key, match) if match.target else match
        if first is match or match.target is None:
            yield match
        elif by_hand:
            label = match.target.spec.label
            yield replace(
                match, complaint=f"Column {first.letter} is taken for “{label}” already. Leave one of them out."
            )
        else:
            yield replace(match, target=None, unit="", complaint="")


def _by_heading(heading: str, subject: Subject) -> Target | None:
    readings = [folded(heading), *(folded(name) for name, _ in _parts(heading, *SET_OFF, LAST_WORD))]
    for names in _names(subject.key):
        for reading in readings:
            if reading and reading in names:
                return subject.target(names[reading])
    return None


@cache
def _names(subject_key: str) -> tuple[dict[str, str], ...]:
    """Folded names to keys: labels first, then the engine's names, those of the trade, and the engine's without their unit.

    A name of two inputs stands for neither.
    """
    subject = subjects()[subject_key]
    tiers: tuple[dict[str, str], ...] = ({}, {}, {}, {})
    for target in subject.targets:
        spec, bare = target.spec, target.key.removeprefix(PLACE)
        labels = (spec.label, f"{spec.group} {spec.label}")
        trade = (*ALSO.get(target.key, ()), *_numbered(target.key), *_named(target.key, subject))
        for tier, names in zip(tiers, (labels, (bare, target.key), trade, (_without_unit(spec, bare),)), strict=True):
            for name in {folded(n) for n in names}:
                tier[name] = target.key if tier.get(name, target.key) == target.key else ""
    return tiers


def _named(key: str, subject: Subject) -> tuple[str, ...]:
    """Ways to head the column of what is imported itself."""
    return (subject.one, f"{subject.one} name", f"{subject.one} no") if key == "name" else ()


def _without_unit(spec: Spec, name: str) -> str:
    """The engine's name without the unit it ends in."""
    return name.rpartition("_")[0] if spec.unit else name


def _numbered(key: str) -> tuple[str, ...]:
    """Ways to head a storey's columns."""
    parts = key.split("-")
    if parts[0] != "storeys":
        return ()
    number, what = parts[1], "type" if parts[2] == "type" else "height"
    return (
        f"storey {number} {what}",
        f"{what} {number}",
        f"wall type {number}" if what == "type" else f"storey height {number}",
    )


def _parts(heading: str, *patterns: str) -> list[tuple[str, str]]:
    """A heading's name and the unit it ends in, by each way to write one: "Length (mm)", "Length, mm", "Length mm"."""
    found = []
    for pattern in patterns:
        match = re.fullmatch(pattern, heading)
        unit = _unit(match[2]) if match else ""
        if match and unit:
            found.append((match[1], unit))
    return found


def _unit(text: str) -> str:
    if folded(text) in FEET:
        return "ft"
    try:
        return units.unit_named(text)
    except BadInput:
        return ""


def _with_unit(match: Match, system: System) -> Match:
    spec = match.target.spec if match.target else None
    if spec is None or spec.kind != "number" or not spec.unit:
        return match
    usual = reader_unit(spec.unit, system)
    for _, unit in _parts(match.heading, *SET_OFF, LAST_WORD):
        if _fits(unit, spec):
            return replace(match, unit=unit)
    for _, unit in _parts(match.heading, *SET_OFF):
        return replace(match, complaint=f"{unit} does not fit “{spec.label}”, which is in {usual} or the like.")
    return replace(match, unit=usual)


def _fits(unit: str, spec: Spec) -> bool:
    try:
        units.convert(1.0, unit, spec.unit)
    except BadInput:
        return False
    return True


def meant(match: Match, cell: str, table: Table) -> str:
    """A cell as the engine reads its input: with the unit of its column, a choice by its value. Raises: BadInput."""
    if match.target is None:
        return cell
    spec, text = match.target.spec, _unquoted(cell)
    if spec.kind == "yes":
        return {"y": "yes", "x": "yes", "n": "no"}.get(text.casefold(), text)
    if spec.kind == "choice":
        return _option(spec, text)
    if spec.kind not in ("number", "count"):
        return text
    if re.match(r"\d{4}-\d\d-\d\d", text):
        raise BadInput(spec.name, "The spreadsheet made a day of this. Format the column as text and type it again.")
    if table.parted == "semicolon" and "," in text:
        raise BadInput(
            spec.name, "Write it with a point and no comma: where semicolons part the columns, a comma can mean either."
        )
    bare = match.unit and BARE.fullmatch(text) and not (spec.unit in units.LENGTHS and FEET_INCHES.fullmatch(text))
    return f"{text} {match.unit}" if bare else text


def _unquoted(cell: str) -> str:
    """Without the apostrophe that keeps spreadsheets from computing a text."""
    return cell[1:] if cell.startswith("'") and cell[1:].startswith(("=", "+", "-", "@")) else cell


def _option(spec: Spec, text: str) -> str:
    """The value meant by a choice's words, by its value in another spelling, or by its size; else the text as it is."""
    if not text or text in dict(spec.options):
        return text
    said = {value for value, words in spec.options if _said(text) in (_said(value), _said(words))}
    if not said and _size(text) is not None:
        said = {value for value, _ in spec.options if _size(value) == _size(text)}
    return said.pop() if len(said) == 1 else text


def _said(text: str) -> str:
    return re.sub(r"^(no\.?|#)(?=\d)", "", re.sub(r"\s+", "", text.casefold()))


@lru_cache(maxsize=1024)
def _size(text: str) -> float | None:
    try:
        return units.parse(text, "in")
    except BadInput:
        return None
