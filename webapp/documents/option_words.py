"""A candidate's sizes in words, as a crew would order them."""

from collections.abc import Callable, Mapping
from typing import Any

from engine import fields
from engine.clauses.us.timber_materials import bolt
from engine.units import System, show

COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


class Words:
    """Inputs as words in a reader's units."""

    def __init__(self, inputs: Any, system: System) -> None:
        self.i, self._system = inputs, system

    def size(self, inches: float) -> str:
        """A length: "3/8 in"."""
        return show(inches, "in", self._system)

    def of(self, name: str) -> str:
        """One of the inputs as a length."""
        return self.size(getattr(self.i, name))

    def bolt(self, name: str) -> str:
        """A bolt's diameter."""
        return self.size(bolt(getattr(self.i, name)).D_in)

    def choice(self, name: str) -> str:
        """The words of a choice."""
        value = getattr(self.i, name)
        return dict(fields.spec(type(self.i), name).options).get(value, str(value))

    def by(self, *names: str) -> str:
        """Lengths joined: "3/8 x 12 x 8 in"."""
        shown = [self.of(name) for name in names]
        unit = shown[-1].rpartition(" ")[2]
        return " x ".join([text.removesuffix(f" {unit}") for text in shown[:-1]] + shown[-1:])


def counted(number: int, one: str, many: str) -> str:
    """A number in words with its noun."""
    word = COUNTS[number] if number < len(COUNTS) else str(number)
    return f"{word} {one if number == 1 else many}"


UPPER = {
    "whole": "foam above whole",
    "cut_joist": "foam above cut at each joist",
    "cut_line": "foam above cut along the line",
}


def _ledge(w: Words) -> str:
    i = w.i
    edge = (
        "square edge"
        if i.top == "square"
        else f"tapered {w.of('taper_depth_in')} deep, {w.of('lip_in')} of foam at the lip"
    )
    plate = (
        "no plate"
        if i.plate == "none"
        else f"{i.plate} plate, {w.size(float(i.bolt))} bolts at {w.of('bolt_spacing_in')}"
    )
    return f"{plate}; {edge}; {UPPER[i.upper_foam]}"


CUTS = {"pads": "foam cut out at each bolt", "strip": "foam cut away along it", "gap": "over the foam"}


def _ledger(w: Words) -> str:
    i = w.i
    rows = counted(i.rows, "row", "rows")
    bolts = f"{w.bolt('bolt')} bolts at {w.of('spacing_in')}, {rows}, {w.of('embedment_in')} deep"
    return f"{i.size} ledger; {bolts}; {CUTS.get(i.contact, i.contact)}"


LEGS = {"two": "two legs", "one": "one leg", "slot": "a leg in a slot", "angle": "an angle"}


def _anchored(w: Words) -> str:
    i = w.i
    one = f"{w.bolt('anchor')} anchor"
    anchors = f"{counted(i.columns * i.rows, one, one + 's')} {w.of('embedment_in')} deep"
    plate = f"{w.by('thickness_in', 'width_in', 'height_in')} plate"
    if i.carried == "ledger":
        ledger = w.by("b_in", "d_in")
        return f"{ledger} ledger; {plate} at {w.of('spacing_in')}; {anchors}"
    bolts = counted(i.f_rows * i.f_columns, f"{w.bolt('bolt')} bolt", f"{w.bolt('bolt')} bolts")
    return f"{plate}; {anchors}; {LEGS.get(i.legs, i.legs)} {w.of('leg_thickness_in')} thick; {bolts} in the joist"


def _cast_in(w: Words) -> str:
    i = w.i
    sheet = w.choice("sheet").partition(",")[0]
    holes = ", lead holes" if i.lead_holes else ""
    screws = f"{counted(i.screws, f'No. {i.gauge} screw', f'No. {i.gauge} screws')} {w.of('length_in')} long{holes}"
    return (
        f"{sheet}, {w.of('plate_height_in')} high, {w.of('embedment_in')} into the core, {w.of('leg_in')} out; {screws}"
    )


KINDS: Mapping[str, Callable[[Words], str]] = {
    "ledge_seat": _ledge,
    "bolted_ledger": _ledger,
    "anchored_plate": _anchored,
    "cast_in_plate": _cast_in,
}


def sizes(kind: str, inputs: Any, system: System) -> str:
    """What there is to buy and set: "2x6 plate, 1/2 in bolts at 48 in; square edge"."""
    text = KINDS[kind](Words(inputs, system))
    return text[:1].upper() + text[1:]
