"""What the component page shows: every part once, with figures invented for it."""

from dataclasses import replace
from typing import Any

from engine.editions import US_2021, Citation
from engine.fields import Spec
from engine.result import Caution, CheckResult, LimitState
from webapp.drawings.samples import drawings
from webapp.marks import sign
from webapp.showcase_drawings import every_drawing

THEMES = (("light", "Light"), ("dark", "Dark"), ("print", "Print"), ("grey", "Grey"))

_PRACTICE = Citation("common practice")
_STATES = (
    LimitState("above", "Above 1.0: thick", _PRACTICE, 3.5, 3.0, "in", say="It bears {capacity}; {demand} is asked."),
    LimitState("advisory", "Advisory: open, from root-sum-square to sum", _PRACTICE, 1.56, 1.0, advisory=True, spread=(1.36, 1.56)),
    LimitState("below", "At or below: thin", _PRACTICE, 24.0, 30.0, "in"),
    LimitState("beyond", "Beyond 1.6: broken off", _PRACTICE, 5.21, 1.0),
)  # fmt: skip
_CAUTIONS = (
    Caution("Measure the ledge before joists are cut."),
    Caution("Tap the inner foam over the last 12 in.", practice=True),
)
RESULT = CheckResult("showcase", US_2021, _STATES, _CAUTIONS, ("vibration of the floor",))

_SPECS = (
    Spec("core_in", "Lower core", "Fields", "number", "in", 4, 24),
    Spec("gap_in", "End gap of the joist", "Fields", "number", "in", 0, 3, hint="0 where the joist is tight."),
    Spec("pieces", "Bolts in a piece", "Fields", "count", low=2, high=20),
    Spec("size", "Size", "Fields", "choice", options=(("2x4", "2x4, treated"), ("2x6", "2x6, treated"))),
    Spec("tapered", "Tapered top", "Fields", "yes"),
    Spec("lip_in", "Foam left at the lip", "Fields", "number", "in", 0, 2.5),
    Spec("strength_psi", "Strength", "Fields", "number", "psi", 2500, 10000),
)
_VALUES = {
    "core_in": "10", "gap_in": "1/2", "pieces": "4", "size": "2x4", "tapered": "yes", "lip_in": "3",
    "strength_psi": "3,000",
}  # fmt: skip
_ERRORS = {"lip_in": "Enter 0 to 2 1/2 in. The panel is 2 1/2 in thick."}
_INHERITED = {"strength_psi": "from wall W3"}

VERDICTS = (
    ("pass", "Every limit holds. Filled square, tick."),
    ("flag", "One does not, or a fact is missing. Pennant."),
    ("refer", "For a licensed engineer. Ring, arrow."),
    ("advisory", "Measure on site. Ruler, open."),
    ("not checked", "Said as plainly as checked. Dash."),
)
STATIONS = (
    {"station": "1", "what": "Bolt", "ft_in": "0-9", "mm": "229"},
    {"station": "2", "what": "Joist", "ft_in": "1-4", "mm": "406"},
    {"station": "3", "what": "Joist", "ft_in": "2-8", "mm": "813"},
    {"station": "4", "what": "Bolt", "ft_in": "4-9", "mm": "1,448"},
)
COLUMNS = (
    {"label": "Station", "key": "station", "kind": "strong", "fold": "a"},
    {"label": "What", "key": "what", "fold": "c"},
    {"label": "ft in", "key": "ft_in", "align": "right", "fold": "b"},
    {"label": "mm", "key": "mm", "align": "right", "fold": "d"},
)


def _chips() -> list[dict[str, Any]]:
    chips = [{"label": "All", "count": 9, "href": "#", "current": True, "verdict": ""}]
    counted = (("flag", 2), ("refer", 1), ("pass", 6))
    return chips + [
        {"label": sign(v).word, "count": n, "href": "#", "current": False, "verdict": v} for v, n in counted
    ]


def _fields(theme: str) -> dict[str, Any]:
    """The form's parts under names of their own, so that ids stay unique on the page."""

    def own(texts: dict[str, str]) -> dict[str, str]:
        return {f"{theme}_{name}": text for name, text in texts.items()}

    specs = [replace(spec, name=f"{theme}_{spec.name}") for spec in _SPECS]
    return {"specs": specs, "values": own(_VALUES), "errors": own(_ERRORS), "inherited": own(_INHERITED)}


def context(look: str = "") -> dict[str, Any]:
    """Context of `pages/components.html`. Args: look: a key of THEMES for the whole page in it; "" for all beside each other."""
    shown = [(key, words) for key, words in THEMES if look in ("", key)]
    return {
        "themes": [(key, words, _fields(key), drawings(key)) for key, words in shown], "result": RESULT, "verdicts": VERDICTS,
        "stations": STATIONS, "columns": COLUMNS, "chip_items": _chips(), "look": look, "looks": THEMES, "drawn": every_drawing(),
    }  # fmt: skip
