"""Quantities between a form and its keeper.

A field's label names the reader's unit, so a bare number is in that unit; it is kept with its unit ("235 mm"), and whoever reads
it later in the other system sees it converted. A field that comes back as it was shown keeps the text it was shown from.
"""

import re
from collections.abc import Mapping
from math import floor, log10

from engine import units
from engine.errors import BadInput
from engine.fields import Spec
from engine.job_file import BARE, FEET_INCHES
from engine.units import System

Texts = Mapping[str, str]
FIGURES, MOST_DECIMALS = 6, 9  # of a converted figure; more decimals are not read back
_PARTS = re.compile(r"(?P<number>-?[\d.,/½¼¾⅛⅜⅝⅞⅓⅔\s-]*[\d½¼¾⅛⅜⅝⅞⅓⅔.])\s*(?P<unit>[^\d\s./,-].*)")


def reader_unit(unit: str, system: System) -> str:
    """The unit a reader's bare number is in."""
    return units.METRIC[unit][0] if system == "mm" and unit in units.METRIC else unit


def explicit(spec: Spec, text: str, system: System) -> str:
    """What was typed, with the unit it was meant in; text that is no number, or names its unit, as it is."""
    typed = text.strip()
    if spec.kind != "number" or not spec.unit or not BARE.fullmatch(typed):
        return typed
    if spec.unit in units.LENGTHS and FEET_INCHES.fullmatch(typed):
        return typed
    return f"{typed} {reader_unit(spec.unit, system)}"


def shown(spec: Spec, kept: str, system: System) -> str:
    """A kept text as a field shows it: without its unit where that is the label's, else converted; unreadable text as it is."""
    if spec.kind != "number" or not spec.unit:
        return kept
    wanted = reader_unit(spec.unit, system)
    number, unit = _parted(kept)
    if unit == wanted:
        return number
    try:
        if wanted == spec.unit and (BARE.fullmatch(kept) or FEET_INCHES.fullmatch(kept)):
            return kept
        return _figure(units.convert(units.parse(kept, spec.unit), spec.unit, wanted), wanted)
    except BadInput:
        return kept


def _parted(text: str) -> tuple[str, str]:
    """A text's number and the one unit it names; ("", "") where it names none, or two as feet and inches do."""
    parts = _PARTS.fullmatch(text)
    try:
        return (parts["number"].strip(), units.unit_named(parts["unit"])) if parts else ("", "")
    except BadInput:
        return "", ""


def _figure(value: float, unit: str) -> str:
    if unit == "in" and abs(value * 16 - round(value * 16)) < 1e-6:
        return units.fraction(value)
    if unit == "ft" and abs(value * 192 - round(value * 192)) < 1e-5:
        feet = units.feet_inches(value * 12)
        return feet.removesuffix("-0")
    if value == 0 or abs(value) >= 1e6:
        return f"{value:.0f}"
    decimals = min(max(FIGURES - 1 - floor(log10(abs(value))), 0), MOST_DECIMALS)
    text = f"{value:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def keep(spec: Spec, text: str, system: System, before: str | None = None) -> str:
    """The text to keep of what came back. Args: before: what was kept so far, if anything."""
    if before is not None and text.strip() == shown(spec, before, system):
        return before
    return explicit(spec, text, system)


def keep_all(specs: tuple[Spec, ...], texts: Texts, system: System, before: Texts | None = None) -> dict[str, str]:
    """`keep` for those of the fields that came back."""
    known = before or {}
    return {s.name: keep(s, texts[s.name], system, known.get(s.name)) for s in specs if s.name in texts}


def shown_all(specs: tuple[Spec, ...], kept: Texts, system: System) -> dict[str, str]:
    """Every field's text as shown; a field nothing is kept of shows its default, or nothing."""
    return {s.name: shown(s, kept.get(s.name, default(s)), system) for s in specs}


def default(spec: Spec) -> str:
    """A field's default as text."""
    from engine.fields import write_one

    return write_one(spec, spec.default) if spec.default is not None else ""
