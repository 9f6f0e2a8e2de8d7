"""The form of an attachment: its place on a wall, its own inputs, and those that follow the wall shown beside them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from engine import attachments as kinds
from engine import fields
from engine.attachments import Kind
from engine.fields import Spec, specs
from engine.placed import Place
from engine.units import System
from webapp.forms.quantities import keep_all, reader_unit, shown, shown_all

PLACE = "at_"
SUMMARY_WORDS = 3


@dataclass(frozen=True, slots=True)
class Sheet:
    """A form as `partials/attachment.html` takes it."""

    id: str
    action: str
    method: str
    specs: tuple[Spec, ...]
    values: Mapping[str, str]
    live: str
    hidden: Mapping[str, str]
    errors: Mapping[str, str] = field(default_factory=dict)
    inherited: Mapping[str, str] = field(default_factory=dict)
    summaries: Mapping[str, str] = field(default_factory=dict)

    @property
    def labels(self) -> dict[str, str]:
        """Field -> its words, for the summary of errors."""
        return {s.name: s.label for s in self.specs}


def place_specs(kind: Kind, walls: Iterable[tuple[int, str]]) -> tuple[Spec, ...]:
    """The fields of a place: the wall, the floor level, the stations."""
    options = tuple((str(wall_id), name) for wall_id, name in walls)
    wall = Spec(name=f"{PLACE}wall", label="Wall", group="Place", kind="choice", options=options)
    own = (
        replace(s, name=PLACE + s.name) for s in specs(Place) if kind.repeats or not (kind.point and s.name == "end_ft")
    )
    if kind.point:
        own = (replace(s, label="At, from the wall's named end") if s.name.endswith("start_ft") else s for s in own)
    if kind.repeats:
        several = "For several along a ledger: where the last may stand."
        own = (replace(s, hint=several) if s.name.endswith("end_ft") else s for s in own)
    return wall, *own


def kept_inputs(kind_key: str, texts: Mapping[str, str], system: System, before: Mapping[str, str]) -> dict[str, str]:
    """The kind's own inputs as they are to be kept; what did not come back stays as it was."""
    known = specs(kinds.kind(kind_key).inputs)
    return {**before, **keep_all(known, texts, system, before)}


def kept_place(kind: Kind, texts: Mapping[str, str], system: System, before: Mapping[str, str]) -> dict[str, str]:
    """The place's texts under the names of `Place`, and "wall"."""
    own = {name.removeprefix(PLACE): text for name, text in texts.items() if name.startswith(PLACE)}
    place = {**before, **keep_all(specs(Place), own, system, before)}
    place["wall"] = own.get("wall", before.get("wall", ""))
    if kind.point and not kind.repeats:
        place["end_ft"] = ""
    return place


def as_shown(
    known: tuple[Spec, ...], kept: Mapping[str, str], inherited: Mapping[str, str], system: System
) -> dict[str, str]:
    """Texts of all fields: kept ones as fields show them, inherited ones as words."""
    values = shown_all(known, {**kept, **inherited}, system)
    for spec in known:
        if spec.name in inherited and spec.kind == "choice":
            values[spec.name] = dict(spec.options).get(inherited[spec.name], inherited[spec.name])
    return values


def place_errors(errors: Mapping[str, str]) -> dict[str, str]:
    """Messages under the form's names."""
    at = {s.name for s in specs(Place)} | {"wall"}
    return {(PLACE + name if name in at else name or "form"): message for name, message in errors.items()}


def summaries(known: Iterable[Spec], kept: Mapping[str, str], system: System) -> dict[str, str]:
    """One line a group, for a phone: its first few entries that apply."""
    found: dict[str, list[str]] = {}
    for spec in known:
        words = found.setdefault(spec.group, [])
        text = kept.get(spec.name, "")
        if len(words) < SUMMARY_WORDS and text and fields.applies(spec, kept):
            words.append(_entry(spec, text, system))
    return {group: ", ".join(word for word in words if word) for group, words in found.items()}


def _entry(spec: Spec, text: str, system: System) -> str:
    if spec.kind == "choice":
        return dict(spec.options).get(text, text)
    if spec.kind == "yes":
        return spec.label.lower() if text == "yes" else ""
    unit = reader_unit(spec.unit, system)
    figure = shown(spec, text, system)
    return f"{figure} {unit}" if unit and unit != "ft" else figure


def defaults(kind: Kind, today: str = "") -> dict[str, str]:
    """A kind's defaults as texts; a field without one is empty. Args: today: for what is judged by the day."""
    found = {s.name: "" if s.default is None else fields.write_one(s, s.default) for s in specs(kind.inputs)}
    return found | {s.name: today for s in specs(kind.inputs) if s.wall == "job.today"}


def overridden(before: Mapping[str, str], changes: Mapping[str, Any]) -> dict[str, str]:
    """Kept texts with some of them replaced; what is not known is left out."""
    return {name: str(changes.get(name, text)) for name, text in before.items()}
