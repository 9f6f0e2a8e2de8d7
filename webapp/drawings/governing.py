"""What governs, shown where it occurs: the tint, the judged dimension, the note with its mark."""

from dataclasses import dataclass

from engine import units
from engine.result import LimitState
from webapp.drawings import dimensions, notes, words
from webapp.drawings.dimensions import String, Style
from webapp.drawings.hand import Block, Hand
from webapp.drawings.paper import Circle, Fill, Line, Panel
from webapp.drawings.scene import Scene, Spot
from webapp.drawings.shapes import Pen
from webapp.drawings.view import View

RING = 11.0
SAME = 1e-6


@dataclass(frozen=True, slots=True)
class Judged:
    """The governing line as a drawn dimension: from and to [in] on one axis, what it does, and the length asked of it."""

    along: str
    stops: tuple[float, float]
    across: float
    says: str
    asked_in: float
    asks: str


def judged(state: LimitState, scene: Scene, system: units.System) -> Judged | None:
    """The governing line as a dimension: where the view has the length it judges, and that is the length in the result."""
    drawn = scene.lengths.get(state.key)
    if drawn is None or state.unit != "in" or state.demand is None or state.capacity is None:
        return None
    (ax, ay), (bx, by) = drawn.start, drawn.end
    along, stops, across = ("x", (ax, bx), ay) if abs(bx - ax) >= abs(by - ay) else ("y", (ay, by), ax)
    length = stops[1] - stops[0]
    if length > 0 and abs(length - state.capacity) < SAME:
        asked, asks = state.demand, "needed"
    elif length > 0 and abs(length - state.demand) < SAME:
        asked, asks = state.capacity, "allowed"
    else:
        return None
    return Judged(along, stops, across, f"{units.show(length, 'in', system)} {drawn.does}".strip(), asked, asks)


def tone(state: LimitState) -> str:
    """The verdict's name as a class of colour."""
    return state.verdict.value.replace(" ", "-")


def tint(panel: Panel, view: View, spot: Spot, colour: str) -> None:
    """A wash of the verdict's colour over the spot, its edge inked."""
    if len(spot.tint) >= 3:
        corners = view.pixels(spot.tint)
        panel.layers["tint"] += [Fill(corners, "tint", colour), Line(corners, Pen.GOVERNS, closed=True, tone=colour)]


def ring(hand: Hand, view: View, spot: Spot, colour: str) -> None:
    """The mark of a small comparison drawing: a ring round the spot."""
    x, y = view.px(spot.point)
    hand.sheet.dimensions.append(Circle(x, y, RING, Pen.GOVERNS_SLASH, tone=colour))


def ways(hand: Hand, state: LimitState, scene: Scene, *widths: float) -> list[Block]:
    """The governing line as a block of words, broken for each width: its figure and what is asked, or its ratio."""
    measured = judged(state, scene, hand.system)
    if measured:
        said = measured.says, f"{units.show(measured.asked_in, 'in', hand.system)} {measured.asks}"
    else:
        said = words.governing(state, hand.system)
    return [notes.block(hand, *said, room_px=room_px, tone=tone(state)) for room_px in widths]


def note(hand: Hand, view: View, scene: Scene, spot: Spot, state: LimitState) -> None:
    """The governing line as a note with a leader; a judged length is also inked in its place."""
    measured = judged(state, scene, hand.system)
    if measured:
        _in_place(hand, view, scene, measured, tone(state))
    notes.leader_note(hand, view.px(spot.point), *ways(hand, state, scene, 230, 150, 95), sign=state.verdict)


def _in_place(hand: Hand, view: View, scene: Scene, measured: Judged, colour: str) -> None:
    """The judged length inked where it is, in the verdict's colour, if all of it is shown; its figure stands in the note."""
    axis = 0 if measured.along == "x" else 1
    low, high = scene.window[0][axis], scene.window[1][axis]
    if view.zoom > 1 or min(measured.stops) < low or max(measured.stops) > high:
        return
    stops = tuple(view.px((s, 0))[0] if measured.along == "x" else view.px((0, s))[1] for s in measured.stops)
    line = view.px((0, measured.across))[1] if measured.along == "x" else view.px((measured.across, 0))[0]
    length = measured.stops[1] - measured.stops[0]
    string = String(measured.along, stops, (length,), line, None, view.scale)
    dimensions.ink(hand, string, Style(Pen.GOVERNS, Pen.GOVERNS_SLASH, colour))
