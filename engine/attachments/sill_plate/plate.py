"""Lines about the plate itself: its size, what of it stands on concrete, the ledge behind it."""

from engine.attachments.sill_plate.geometry import Sill, back_of_ledge_in, on_concrete_in
from engine.attachments.sill_plate.inputs import PLATES, Inputs
from engine.clauses.us import sill_rules as rules
from engine.clauses.us.irc_bearing import PLATE_AREA_IN2, plate_area_ok
from engine.clauses.us.irc_sills import sill_plate_ok
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite


def lines(sheet: Worksheet, i: Inputs, p: Sill, placed: tuple[Step, ...]) -> tuple[LimitState, ...]:
    """Every line about the plate. Args: placed: the steps that placed it."""
    states = [_on_core(sheet, p, placed)]
    if i.stands_on == "ledge":
        states.append(_behind(p, placed))
    if i.code == "IRC":
        states.append(_size(sheet, i))
    if i.carries == "wall":
        states.append(_studs(sheet, i, p))
    elif i.code == "IRC":
        states.append(_area(sheet, i, p))
    return tuple(states)


def _on_core(sheet: Worksheet, p: Sill, placed: tuple[Step, ...]) -> LimitState:
    share = sheet.use(rules.share_on_concrete, b_c_in=p.on_concrete, b_in=p.width)
    stands = p.on_concrete > 0
    return LimitState(
        "plate-on-core", "Plate on the concrete", cite(on_concrete_in), holds=stands, spot="plate",
        say="{on} of the plate's {width} stands on concrete, {share} of it; the rest lies on foam, which carries nothing."
        if stands and share < 1
        else "The whole {width} of the plate stands on concrete."
        if stands
        else "The plate lies beside the concrete: move it onto the core.",
        facts={"on": (p.on_concrete, "in"), "width": (p.width, "in"), "share": (share, "")},
        steps=(*placed, *sheet.take()),
    )  # fmt: skip


def _behind(p: Sill, placed: tuple[Step, ...]) -> LimitState:
    over = p.x_B - p.x_0
    clear = over <= 1e-9
    return LimitState(
        "plate-ledge", "Plate clear of the wall above", cite(back_of_ledge_in), holds=clear, spot="plate", steps=placed,
        say="The plate starts {over} clear of the wall above." if clear else "The plate runs {over} into the wall above.",
        facts={"over": (abs(over), "in")},
    )  # fmt: skip


def _size(sheet: Worksheet, i: Inputs) -> LimitState:
    size = PLATES[i.plate]
    large = sheet.use(sill_plate_ok, t_nom_in=size.t_nom_in, b_nom_in=size.b_nom_in)
    return LimitState(
        "plate-size", "Least sill plate", cite(sill_plate_ok), holds=large, spot="plate", steps=sheet.take(),
        say="The plate is a nominal 2x4 or larger." if large else "Use a nominal 2x4 or larger.",
    )  # fmt: skip


def _studs(sheet: Worksheet, i: Inputs, p: Sill) -> LimitState:
    rule = rules.ibc_plate_under_studs_ok if i.code == "IBC" else rules.plate_under_studs_ok
    sheet.use(rule, b_in=p.width, stud_in=i.stud_in)
    return LimitState(
        "plate-studs", "Plate under the studs", cite(rule), i.stud_in, p.width, "in", spot="plate", steps=sheet.take(),
        say="The plate is {capacity} wide; the studs on it are {demand}.",
    )  # fmt: skip


def _area(sheet: Worksheet, i: Inputs, p: Sill) -> LimitState:
    """48 sq in of nominal area turns bearing on concrete into bearing on wood; only the part on concrete counts."""
    size = PLATES[i.plate]
    nominal = size.b_nom_in * p.on_concrete / p.width
    sheet.use(plate_area_ok, b_nom_in=nominal, t_nom_in=size.t_nom_in, l_in=p.piece)
    return LimitState(
        "plate-area", "Plate enough to bear on as on wood", cite(plate_area_ok), PLATE_AREA_IN2, nominal * p.piece, "in²",
        say="A piece has {capacity} of nominal area on concrete; joists bear on it as on wood from {demand}.",
        spot="plate", steps=sheet.take(),
    )  # fmt: skip
