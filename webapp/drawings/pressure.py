"""Pressure against height: one run of forms as it fills, its lifts, what presses on it and what it may carry.

The wall stands at the left, cut and to scale; pressure is drawn from its face to the right.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import floor, log10

from engine import units
from engine.placing import Filling, PlacingPlan, Run
from engine.placing.diagram import Curve
from engine.result import LimitState, Verdict
from engine.units import System
from webapp.drawings import dimensions, furniture, notes, svg
from webapp.drawings.dimensions import String
from webapp.drawings.hand import Hand
from webapp.drawings.layout import WIDTHS
from webapp.drawings.lettering import plain, width_px
from webapp.drawings.paper import Fill, Line, Panel, Sheet
from webapp.drawings.room import Room
from webapp.drawings.shapes import Material, Pen

TALLEST_PX, LARGEST_INCH = 340.0, 4.2
TOP, FOOT, AXIS, PHONE_LINE = 46.0, 58.0, 36.0, 19.0
ROOM = 1.12  # of the plot beyond the largest pressure drawn
STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)
TICKS = 5
EDGE = 18.0


@dataclass(frozen=True, slots=True)
class Plot:
    """Where heights and pressures stand on paper: pixels an inch and a psf, the pixel of the wall's face and of its floor."""

    scale: float
    face: float
    low: float
    height_ft: float
    per_psf: float

    def y(self, up_ft: float) -> float:
        """Pixel of a height above the floor."""
        return self.low - up_ft * 12 * self.scale

    def curve(self, curve: Curve) -> tuple[tuple[float, float], ...]:
        """A curve of depths and pressures on paper."""
        return tuple((self.face + psf * self.per_psf, self.y(self.height_ft - depth)) for depth, psf in curve)


def pressure_svg(plan: PlacingPlan, system: System = "ft in", width_class: str = "desk", prefix: str = "") -> str:
    """The diagram of the run of forms that governs, as SVG. Args: width_class: one of `WIDTHS`. prefix: of its ids."""
    return svg.render(pressure_sheet(plan, system, width_class), prefix or f"pressure-{width_class}")


def pressure_sheet(plan: PlacingPlan, system: System = "ft in", width_class: str = "desk") -> Sheet:
    """The same for any renderer."""
    wide = WIDTHS[width_class]
    sheet = Sheet(wide.width)
    hand = Hand(sheet, Room((0, 0, sheet.width, 0)), system, wide.sizes)
    run = next(run for run in plan.runs if run.name == plan.diagram.run)
    lifts = [row.filling for row in plan.lifts if row.filling.from_ft < run.height_ft - 1e-9]
    plot = _plot(plan, run, lifts, hand, wide.full)
    sheet.height = plot.low + AXIS + (FOOT if wide.full else 2 * PHONE_LINE + 12)
    hand.room.bounds = (0, 0, sheet.width, sheet.height)
    panel = Panel(plot.scale)
    sheet.panels.append(panel)
    _wall(panel, plot, run, lifts, sheet.width - 8)
    _curves(panel, plot, plan)
    _axis(hand, panel, plot)
    _forms(hand, panel, plot, plan)
    _lift_words(hand, plot, run, lifts, wide.full)
    _heights(hand, plot, run, lifts, wide.full)
    _title(hand, panel, plan, wide.full)
    _say(hand, plot, plan, wide.full)
    sheet.finding = f"Pressure on wall {run.name} as it fills. {plan.result['form-pressure'].sentence(system)}"
    sheet.description = " ".join(_in_words(plan, run, lifts, system))
    return sheet


def _plot(plan: PlacingPlan, run: Run, lifts: Sequence[Filling], hand: Hand, full: bool) -> Plot:
    scale = min(TALLEST_PX / (run.height_ft * 12), LARGEST_INCH)
    left = (88.0 if len(lifts) > 1 else 60.0) if full else 66.0
    right = _lift_room(hand, lifts) if full else 10.0
    face = left + run.core_in * scale
    largest = max(psf for _, psf in (*plan.diagram.head, *plan.diagram.aci, *plan.diagram.ciria))
    largest = max(largest, plan.diagram.form_psf or 0.0)
    return Plot(
        scale,
        face,
        TOP + run.height_ft * 12 * scale,
        run.height_ft,
        (hand.sheet.width - face - right) / (ROOM * largest),
    )


def _lift_room(hand: Hand, lifts: Sequence[Filling]) -> float:
    return max(width_px(_lift_name(f), hand.sizes.note) for f in lifts) + width_px("  0:00 to 00:00", hand.sizes.sub)


def _wall(panel: Panel, plot: Plot, run: Run, lifts: Sequence[Filling], right: float) -> None:
    """The core cut through, with the top of every lift through it and across the sheet."""
    x0, x1 = plot.face - run.core_in * plot.scale, plot.face
    corners = ((x0, plot.low), (x1, plot.low), (x1, plot.y(run.height_ft)), (x0, plot.y(run.height_ft)))
    panel.layers["hatch"].append(Fill(corners, Material.CONCRETE))
    for x in (x0, x1):
        panel.layers["outline"].append(Line(((x, plot.low), (x, plot.y(run.height_ft))), Pen.CUT))
    for filling in lifts[1:]:
        y = plot.y(filling.from_ft)
        panel.layers["hidden"].append(Line(((x0, y), (x1, y)), Pen.SEEN))
        panel.layers["hidden"].append(Line(((x1, y), (right, y)), Pen.DIMENSION))


def _tone(plan: PlacingPlan) -> str:
    return "flag" if plan.result["form-pressure"].verdict is Verdict.FLAG else "pass"


def _curves(panel: Panel, plot: Plot, plan: PlacingPlan) -> None:
    aci = plot.curve(plan.diagram.aci)
    panel.layers["tint"].append(Fill((*aci, (plot.face, aci[-1][1]), (plot.face, aci[0][1])), "tint", tone=_tone(plan)))
    panel.layers["outline"].append(Line(plot.curve(plan.diagram.head), Pen.SEEN))
    panel.layers["outline"].append(Line(aci, Pen.CUT))
    if plan.diagram.ciria:
        panel.layers["outline"].append(Line(plot.curve(plan.diagram.ciria), Pen.HIDDEN))


def _shown_unit(system: System) -> tuple[str, float]:
    """The reader's unit of pressure and how many psf one of it is."""
    return ("kPa", units.convert(1.0, "kPa", "psf")) if system == "mm" else ("psf", 1.0)


def _axis(hand: Hand, panel: Panel, plot: Plot) -> None:
    """Pressures along the floor, in round steps of the reader's unit."""
    unit, psf = _shown_unit(hand.system)
    right = hand.sheet.width - 8
    longest = (right - plot.face) / plot.per_psf / psf
    rough = longest / TICKS
    power = 10.0 ** floor(log10(rough))
    step = next(s * power for s in STEPS if s * power >= rough - 1e-12)
    size = hand.sizes.scale
    panel.layers["outline"].append(Line(((plot.face - 30, plot.low), (right, plot.low)), Pen.SEEN))
    spare = width_px(f"{units.grouped(longest, 1)} {unit}", size) / 2 / plot.per_psf / psf
    last = max(0, floor((longest - spare) / step))
    for number in range(last + 1):
        x, figure = plot.face + number * step * psf * plot.per_psf, units.grouped(number * step, 1)
        panel.layers["outline"].append(Line(((x, plot.low), (x, plot.low + 5)), Pen.SEEN))
        words = f"{figure} {unit}" if number == last else figure
        hand.write(x, plot.low + 7 + size, words, size, "sub", align="middle")


def _forms(hand: Hand, panel: Panel, plot: Plot, plan: PlacingPlan) -> None:
    """What the forms may carry, as a line from the floor past the top."""
    may = plan.diagram.form_psf
    if may is None:
        return
    x, top = plot.face + may * plot.per_psf, plot.y(plot.height_ft)
    panel.layers["outline"].append(Line(((x, plot.low), (x, top - 10)), Pen.GOVERNS, tone=_tone(plan)))
    words = f"the forms may carry {units.show(may, 'psf', hand.system)}"
    half = width_px(words, hand.sizes.note, True) / 2
    middle = min(max(x, half + 8), hand.sheet.width - half - 8)
    hand.write(middle, top - 17, words, hand.sizes.note, bold=True, align="middle", tone=_tone(plan))
    hand.mind(((x, plot.low), (x, top - 10)))


def clock(minutes: float) -> str:
    """Minutes since the first concrete as hours and minutes: 69 -> "1:09"."""
    whole = round(minutes)
    return f"{whole // 60}:{whole % 60:02d}"


def _lift_name(filling: Filling) -> str:
    return f"lift {filling.number}"


def _lift_words(hand: Hand, plot: Plot, run: Run, lifts: Sequence[Filling], full: bool) -> None:
    """Each lift's number and when it goes in: at the right of the sheet, on a phone at the left of the wall."""
    low = 0.0
    for filling in lifts:
        y = plot.y((filling.from_ft + min(filling.to_ft, run.height_ft)) / 2) + 0.36 * hand.sizes.note
        when = f"{clock(filling.starts_min)} to {clock(filling.starts_min + filling.minutes)}"
        if low and low - y < hand.sizes.note * (1.1 if full else 2.4):
            continue  # thinner lifts than words: the table beside names them all
        low = y
        if full:
            hand.write(hand.sheet.width - 8, y, when, hand.sizes.sub, "sub", align="end")
            after = hand.sheet.width - 14 - width_px(when, hand.sizes.sub)
            hand.write(after, y, _lift_name(filling), hand.sizes.note, align="end")
        else:
            hand.write(10, y - 6, _lift_name(filling), hand.sizes.note)
            hand.write(10, y + hand.sizes.sub - 4, f"at {clock(filling.starts_min)}", hand.sizes.sub, "sub")


def _heights(hand: Hand, plot: Plot, run: Run, lifts: Sequence[Filling], full: bool) -> None:
    """The lifts as a dimension string left of the wall, the whole height beyond it."""
    if not full:
        return
    edge = plot.face - run.core_in * plot.scale
    levels = (*(f.from_ft for f in lifts), run.height_ft)
    strings = [(levels, edge - 27)]
    if len(lifts) > 1:
        strings.append(((0.0, run.height_ft), edge - 55))
    for stops, line in strings:
        inches = tuple((b - a) * 12 for a, b in pairwise(stops))
        string = String("y", tuple(plot.y(s) for s in stops), inches, line, (edge,) * len(stops), plot.scale)
        dimensions.ink(hand, string)
        figures = [plain(units.show(one / 12, "ft", hand.system), hand.sizes.figure) for one in inches]
        dimensions.figures(hand, string, letters=figures)


def _title(hand: Hand, panel: Panel, plan: PlacingPlan, full: bool) -> None:
    state, height = plan.result["form-pressure"], hand.sheet.height
    words = _headline(plan, state, hand.system)
    if full:
        left = furniture.scale_bar(hand, panel, panel.scale, hand.sheet.width - EDGE, height - 34, building=True)
        furniture.title(hand, panel, plan.diagram.run, words, EDGE, height - 30, left - 20)
    else:
        furniture.plain_title(
            hand, f"{plan.diagram.run}, {words[0].lower()}{words[1:]}", 14, height - 14, hand.sheet.width - 14
        )


def _headline(plan: PlacingPlan, state: LimitState, system: System) -> str:
    """What was found, in a line."""
    said = f"{units.show(state.demand or 0.0, 'psf', system)} at {units.show(plan.inputs.temperature_F, '°F', system)}"
    if state.capacity is None:
        return f"Up to {said}, on forms of unknown strength"
    return f"Up to {said}, on forms for {units.show(state.capacity, 'psf', system)}"


def _say(hand: Hand, plot: Plot, plan: PlacingPlan, full: bool) -> None:
    """Each curve's name beside it, its largest pressure and from where it stands."""
    for name, curve in _named(plan):
        deep, most = max(curve, key=lambda point: (round(point[1], 6), -point[0]))
        ((x, y),) = plot.curve(((deep, most),))
        low = plot.y(0.0)
        target = (x, (y + low) / 2) if low - y > 30 else ((x + plot.face) / 2, (y + plot.y(plot.height_ft)) / 2)
        if name == "liquid head":
            ((x0, y0),) = plot.curve((curve[0],))
            target = x0 + (x - x0) * 0.7, y0 + (y - y0) * 0.7
        depth = units.show(round(deep * 12) / 12, "ft", hand.system)
        where = f"at {depth}" if deep >= curve[-1][0] - 1e-9 else f"from {depth} down"
        sub = f"{units.show(most, 'psf', hand.system)} {where}" if full else ""
        notes.leader_note(hand, target, notes.block(hand, name, sub, 150.0))


def _named(plan: PlacingPlan) -> Iterator[tuple[str, Curve]]:
    yield "ACI 347R", plan.diagram.aci
    if plan.diagram.ciria:
        yield "CIRIA 108", plan.diagram.ciria
    if plan.diagram.head != plan.diagram.aci:
        yield "liquid head", plan.diagram.head


def _in_words(plan: PlacingPlan, run: Run, lifts: Sequence[Filling], system: System) -> Iterator[str]:
    yield f"Wall {run.name}, {units.show(run.height_ft, 'ft', system)} high, core {units.show(run.core_in, 'in', system)}."
    for filling in lifts:
        height = units.show(min(filling.to_ft, run.height_ft) - filling.from_ft, "ft", system)
        yield f"Lift {filling.number}: {height}, {clock(filling.starts_min)} to {clock(filling.starts_min + filling.minutes)}."
    for name, curve in _named(plan):
        yield f"By {name}: {units.show(max(psf for _, psf in curve), 'psf', system)} at most."
