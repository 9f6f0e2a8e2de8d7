"""The form of a placing plan: which storey of which walls, and what is asked of concrete, pump, weather and forms."""

from collections.abc import Mapping
from dataclasses import dataclass

from engine.units import System
from webapp.forms.attachment import Sheet, summaries
from webapp.forms.quantities import default, keep_all, shown_all
from webapp.services.placing import SPECS

Texts = Mapping[str, str]
NAMES = frozenset(s.name for s in SPECS)
USUAL = {s.name: default(s) for s in SPECS}


@dataclass(frozen=True, slots=True)
class Draft:
    """What the form holds. Args: kept: every text with its unit. raw: what was typed, shown again as typed, in those units."""

    kept: Texts
    raw: Texts
    units: System

    @property
    def shown(self) -> dict[str, str]:
        """Every text as the form shows it."""
        return {**shown_all(SPECS, self.kept, self.units), **self.raw}


def draft(base: Texts, texts: Texts, units: System) -> Draft:
    """What is kept, overlaid with what was typed in those units."""
    raw = {name: text for name, text in texts.items() if name in NAMES}
    before = {**USUAL, **base}
    return Draft({**before, **keep_all(SPECS, raw, units, before)}, raw, units)


def level_of(texts: Texts, storeys: int) -> int:
    """The storey asked for, the lowest where none that is there."""
    text = texts.get("level", "")
    return min(int(text), storeys) if text.isdecimal() and 0 < len(text) < 3 and int(text) > 0 else 1


def wall_ids(texts: Mapping[str, list[str]]) -> list[int] | None:
    """The walls ticked; None where nothing was said about walls."""
    if "wall" not in texts and "walls" not in texts:
        return None
    return [int(text) for text in texts.get("wall", []) if text.isdecimal() and len(text) < 10]


def sheet(now: Draft, address: str, hidden: Texts, errors: Texts) -> Sheet:
    """The form as the page takes it."""
    said = summaries(SPECS, now.kept, now.units)
    return Sheet("placing", address, "post", SPECS, now.shown, address, hidden, errors, summaries=said)
