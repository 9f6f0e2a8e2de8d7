"""Lines about what is listed by others: hangers on the ledger, and the ties that hold the wall and the floor together."""

from engine.attachments.bolted_ledger.demand import Carried, combination, least_tie_plf
from engine.attachments.bolted_ledger.inputs import Inputs
from engine.clauses.us.irc_connections import detail, permitted
from engine.clauses.us.irc_scope import speed_column_mph
from engine.clauses.us.ledger_rules import cross_grain_barred, tie_pull_lb, ties_fall_on_bolts
from engine.clauses.us.loads import Loads, governing_allowable
from engine.clauses.us.wall_anchorage import integrity_tie_lb, steel_part_force_lb
from engine.editions import Citation, Edition
from engine.errors import OutOfScope
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite

LISTING = Citation("the part's listing")
PROJECT_RULE = Citation("project rule")
WIND_TIE = "Table of wind ties"


def hanger(i: Inputs, load: Carried, edition: Edition, how: tuple[Step, ...]) -> tuple[LimitState, ...]:
    """Capacity, report and fasteners of the hangers; nothing where joists run along the ledger.

    Args: how: the steps that gave the joist's reaction.
    """
    if i.direction != "perpendicular":
        return ()
    return (_hanger_capacity(i, load, edition, how), _report("hanger", "Hanger report", i), _fasteners(i))


def _hanger_capacity(i: Inputs, load: Carried, edition: Edition, how: tuple[Step, ...]) -> LimitState:
    title, most = "Hanger", governing_allowable(edition, load.joist, duration=False)
    if i.hanger_capacity_lb is None:
        return LimitState(
            "hanger", title, LISTING, holds=False, spot="hanger",
            say="Enter the capacity that the hanger's listing gives on this ledger; it is never guessed.",
        )  # fmt: skip
    return LimitState(
        "hanger", title, LISTING, most.demand, i.hanger_capacity_lb, "lb", combination=most.label, spot="hanger", steps=how,
        say="A joist brings {demand}; its hanger is listed for {capacity} on this ledger, taken without increase for duration.",
    )  # fmt: skip


def _report(part: str, title: str, i: Inputs) -> LimitState:
    """A listing counts with its number and while it runs."""
    number, end = getattr(i, f"{part}_report").strip(), getattr(i, f"{part}_expires")
    shown = number.replace("{", "(").replace("}", ")")
    asked = [words for words, given in (("number", number), ("end date", end)) if not given]
    if asked:
        say, holds = f"Enter the {' and '.join(asked)} of the {part}'s report.", False
    elif i.today and i.today > end:
        say, holds = f"Report {shown} ran out on {end}; enter one that holds on {i.today}.", False
    else:
        say, holds = f"Report {shown} runs until {end}.", True
    return LimitState(f"{part}-report", title, LISTING, holds=holds, say=say, spot=part)


def _fasteners(i: Inputs) -> LimitState:
    facts = {"there": (float(i.hanger_fasteners), ""), "listed": (float(i.hanger_listed or 0), "")}
    say = "{there} fasteners go into the ledger; the listing asks for {listed}."
    if i.hanger_listed is None:
        say = "Enter how many fasteners the hanger's listing puts into the ledger."
    holds = i.hanger_listed is not None and i.hanger_fasteners >= i.hanger_listed
    return LimitState("hanger-fasteners", "Hanger fasteners", LISTING, holds=holds, say=say, facts=facts, spot="hanger")


def ties(sheet: Worksheet, i: Inputs, load: Carried, edition: Edition, within: bool) -> tuple[LimitState, ...]:
    """Wood out of cross-grain bending, the ties' strength and report, where they are held, the prescriptive table beside.

    Args: within: the building is inside the limits of the table.
    """
    states = [_cross_grain(sheet, i, load), *_typed_forces(i)]
    if i.ties == "listed":
        states += [_tie_capacity(sheet, i, load, edition), _report("tie", "Tie report", i)]
        if i.tie_anchor == "ledger bolt":
            states.append(_on_bolts(sheet, i))
    return (*states, wind_tie_table(sheet, i, within))


def _cross_grain(sheet: Worksheet, i: Inputs, load: Carried) -> LimitState:
    """The wall's pull and push may not bend the ledger across its grain: code in categories C and up, project rule below."""
    least_tie_plf(sheet, i)
    by_code = sheet.use(cross_grain_barred, category=_category(i))
    rule = "The code bars it in this category." if by_code else "This is a project rule in this category."
    held = i.ties == "listed"
    say = "Add ties from joists or blocking to the concrete: {force} across the wall would bend the ledger across its grain."
    if held:
        say = "Listed ties take {force} across the wall; the ledger's bolts carry weight and shear along it only."
    return LimitState(
        "cross-grain", "Ledger kept out of cross-grain bending", cite(cross_grain_barred) if by_code else PROJECT_RULE,
        holds=held, say=f"{say} {rule}", facts={"force": (max(load.across.W, load.across.E), "plf")}, spot="tie",
        steps=sheet.take(),
    )  # fmt: skip


def _category(i: Inputs) -> str:
    return i.seismic.partition("-")[0]


def _typed_forces(i: Inputs) -> list[LimitState]:
    if _category(i) not in ("A", "B") and not i.out_seismic_plf:
        return [
            LimitState(
                "tie-force", "Force across the wall", cite(integrity_tie_lb), holds=False, spot="tie",
                say="Enter the earthquake force across the wall; the least tie alone is not enough in this category.",
            )
        ]  # fmt: skip
    if not i.out_wind_plf:
        return [
            LimitState(
                "tie-force", "Force across the wall", cite(integrity_tie_lb), holds=False, spot="tie",
                say="Enter the wind force across the wall, to the floor.",
            )
        ]  # fmt: skip
    return []


def _tie_capacity(sheet: Worksheet, i: Inputs, load: Carried, edition: Edition) -> LimitState:
    title = "Ties between wall and floor"
    if i.tie_capacity_lb is None:
        return LimitState(
            "tie", title, LISTING, holds=False, spot="tie",
            say="Enter the tie's listed capacity; it is never guessed.", steps=sheet.take(),
        )  # fmt: skip
    E = load.across.E
    if cross_grain_barred(_category(i)):
        E = sheet.use(steel_part_force_lb, F_p_lb=E)
    most = governing_allowable(edition, Loads(W=load.across.W, E=E), duration=False)
    c = combination(edition, most.label)
    demand = sheet.use(tie_pull_lb, w_plf=c.W * load.across.W + c.E * E, s_in=i.tie_spacing_in)
    return LimitState(
        "tie", title, LISTING, demand, i.tie_capacity_lb, "lb", combination=most.label, spot="tie",
        say="Each tie takes {demand}; it is listed for {capacity}.", steps=sheet.take(),
    )  # fmt: skip


def _on_bolts(sheet: Worksheet, i: Inputs) -> LimitState:
    fall = sheet.use(ties_fall_on_bolts, tie_in=i.tie_spacing_in, bolt_in=i.spacing_in)
    return LimitState(
        "tie-bolts", "A bolt at each tie", cite(ties_fall_on_bolts), holds=fall, advisory=True, spot="tie",
        say="Ties {tie} apart fall on bolts {bolt} apart."
        if fall
        else "Ties {tie} apart do not fall on bolts {bolt} apart: set a bolt at each tie besides.",
        facts={"tie": (i.tie_spacing_in, "in"), "bolt": (i.spacing_in, "in")}, steps=sheet.take(),
    )  # fmt: skip


def wind_tie_table(sheet: Worksheet, i: Inputs, within: bool) -> LimitState:
    """The prescriptive table beside, advisory: it ties the wall against wind and says nothing of weight."""
    if not within:
        return _no_table("The prescriptive table of wind ties does not apply beyond the limits of R608.2.")
    if i.wind_mph is None or i.ties != "listed":
        return _no_table("Enter wind speed and ties to read the prescriptive table of wind ties beside.")
    number = detail("wood", "floor", "side", "perpendicular" if i.direction == "perpendicular" else "parallel")
    try:
        sheet.use(speed_column_mph, speed_mph=i.wind_mph, exposure=i.exposure)
        cell = sheet.use(
            permitted,
            table=number,
            bolt_in=i.spacing_in,
            tie_in=i.tie_spacing_in,
            speed_mph=i.wind_mph,
            exposure=i.exposure,
        )
    except OutOfScope as limit:
        sheet.take()
        return _no_table(f"{limit.rule}: {limit.why}")
    allowed = "permits" if cell.permitted else "does not permit"
    return LimitState(
        "wind-tie-table", f"{WIND_TIE} beside", Citation("IRC", f"Table R608.9({number})"), holds=cell.permitted, advisory=True,
        say=f"As a wind tie the table {allowed} bolts {{bolt}} and ties {{tie}} apart at this wind speed. It says nothing of "
        "the weight the bolts carry.",
        facts={"bolt": (i.spacing_in, "in"), "tie": (i.tie_spacing_in, "in")}, spot="tie", steps=sheet.take(),
    )  # fmt: skip


def _no_table(why: str) -> LimitState:
    return LimitState("wind-tie-table", f"{WIND_TIE} beside", cite(permitted), say=why, unchecked=why, spot="tie")
