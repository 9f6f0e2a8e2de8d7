"""Lines about limits, contact with the concrete, kind of bolt, wood and moisture."""

from engine.attachments.bolted_ledger.geometry import Ledger
from engine.attachments.bolted_ledger.inputs import DIAMETERS, Inputs
from engine.clauses.us.irc_connections import (
    BoltKind,
    bolt_kind_permitted,
    largest_separator_in,
    ledger_hole_in,
    wood_permitted,
)
from engine.clauses.us.irc_moisture import (
    below_grade_ledger_needs_treatment,
    fastener_coating_ok,
    framing_on_wall_needs_treatment,
    plain_bolt_allowed,
)
from engine.clauses.us.irc_scope import r608_limits_exceeded
from engine.clauses.us.timber_materials import species
from engine.result import LimitState
from engine.worksheet import Worksheet, cite

# Steel by its key -> how R608.9.1.1 names it; a threaded rod of Grade 36 is the clause's A36 rod.
GRADES = {"F1554-36": "F1554 Gr 36", "F1554-55": "F1554 Gr 55", "F1554-105": "F1554 Gr 105", "A307": "A307 Gr A"}
ROD_GRADES = {**GRADES, "F1554-36": "A36"}


def scope(sheet: Worksheet, i: Inputs) -> LimitState:
    """Limits of R608.2; beyond them the code asks for a design."""
    category, _, town = i.seismic.partition("-")
    across = i.direction == "perpendicular"
    computed = not across or i.reaction != "typed"
    run_on = across and i.reaction == "continuous"
    beyond = sheet.use(
        r608_limits_exceeded,
        plan_ft=i.plan_ft,
        floor_span_ft=max(i.span_ft, i.second_span_ft if run_on else 0.0) if across else 0.0,
        mean_roof_ft=i.roof_ft,
        stories=i.stories,
        floor_dead_psf=i.dead_psf if computed else 0.0,
        speed_mph=i.wind_mph or 0.0,
        exposure=i.exposure,
        sdc=category,
        building="townhouse" if town else "detached",
    )
    return LimitState(
        "scope", "Within the prescriptive limits", cite(r608_limits_exceeded), holds=not beyond,
        say=f"Beyond the limits: {', '.join(beyond)}." if beyond else "Building, span and floor load are within limits.",
        refer="Beyond R608.2 the wall and its floor connection are designed: bring this check, spans, loads and wind and "
        "seismic data to a licensed engineer." if beyond else "",
        spot="ledger", steps=sheet.take(),
    )  # fmt: skip


def contact(sheet: Worksheet, i: Inputs, place: Ledger) -> tuple[LimitState, ...]:
    """Ledger tight to concrete at each bolt: the cut-out in the foam and the sheet between."""
    return _hole(sheet, i, place), _separator(sheet, i)


def _hole(sheet: Worksheet, i: Inputs, place: Ledger) -> LimitState:
    title, need = "Foam cut out at the bolts", sheet.use(ledger_hole_in, f_in=i.foam_in)
    steps = sheet.take()
    if i.contact == "gap":
        return LimitState(
            "hole", title, cite(ledger_hole_in), holds=False, spot="contact", steps=steps,
            say="{foam} of foam is left behind the ledger; at each bolt it must be cut out, {need} across.",
            facts={"foam": (i.foam_in, "in"), "need": (need, "in")},
        )  # fmt: skip
    if i.contact == "strip":
        return LimitState(
            "hole", title, cite(ledger_hole_in), holds=True, spot="contact", steps=steps,
            say="The foam is cut away along the whole ledger, so that every bolt finds concrete.",
        )  # fmt: skip
    return LimitState(
        "hole", title, cite(ledger_hole_in), need, place.hole, "in", spot="contact", steps=steps,
        say="The foam is cut out {capacity} across at each bolt; for this foam {demand} is needed.",
    )  # fmt: skip


def _separator(sheet: Worksheet, i: Inputs) -> LimitState:
    most = sheet.use(largest_separator_in)
    return LimitState(
        "separator", "Sheet between ledger and concrete", cite(largest_separator_in), i.separator_in, most, "in",
        say="{demand} lies between ledger and concrete at the bolts; {capacity} is the most.",
        spot="contact", steps=sheet.take(),
    )  # fmt: skip


def materials(sheet: Worksheet, i: Inputs) -> tuple[LimitState, ...]:
    """Kind and steel of the bolts, density of the wood."""
    kind: BoltKind = "headed"
    grade = GRADES[i.steel]
    if i.head == "nut":
        kind, grade = "threaded rod with embedded nut", ROD_GRADES[i.steel]
    elif i.head == "hook":
        kind, grade = "L-hook", ""
    allowed = sheet.use(bolt_kind_permitted, kind=kind, grade=grade)
    say = "Bolts of this kind and steel are those of the details."
    if not allowed:
        say = "Use headed bolts, or Grade 36 rods with a nut cast in: this kind and steel are not in the details."
        if i.head == "hook":
            say = "Hooked bolts pull out first and are barred in the floor details: use headed bolts."
    bolt = LimitState(
        "bolt-kind", "Kind of bolt", cite(bolt_kind_permitted), holds=allowed, say=say, spot="bolt", steps=sheet.take()
    )
    G = species(i.species).G
    dense = sheet.use(wood_permitted, G=G)
    wood = LimitState(
        "wood-density", "Wood of the ledger", cite(wood_permitted), holds=dense, spot="ledger", steps=sheet.take(),
        say="The wood's specific gravity is {G}; 0.42 or more is asked for.", facts={"G": (G, "")},
    )  # fmt: skip
    return bolt, wood


def moisture(sheet: Worksheet, i: Inputs) -> tuple[LimitState, ...]:
    """Decay of the ledger and coating of its bolts."""
    return _decay(sheet, i), _coating(sheet, i)


def _decay(sheet: Worksheet, i: Inputs) -> LimitState:
    rule = below_grade_ledger_needs_treatment if i.below_grade else framing_on_wall_needs_treatment
    if i.below_grade:
        needed = sheet.use(below_grade_ledger_needs_treatment, retarder=i.retarder)
    else:
        needed = sheet.use(framing_on_wall_needs_treatment, height_in=i.ground_in)
    holds = not needed or i.treatment != "plain"
    where = "below grade" if i.below_grade else "this near the ground"
    say = "The wood resists decay, or stands where it need not."
    if not holds:
        say = f"Use treated or naturally durable wood {where}" + (
            ", or an approved vapor retarder behind it." if i.below_grade else "."
        )
    return LimitState(
        "decay", "Decay of the ledger", cite(rule), holds=holds, say=say, spot="ledger", steps=sheet.take()
    )


def _coating(sheet: Worksheet, i: Inputs) -> LimitState:
    title, source = "Bolts in treated wood", cite(fastener_coating_ok)
    if i.treatment != "treated":
        say = "The wood is not treated, so that the bolts' coating is free."
        return LimitState("coating", title, source, holds=True, say=say, spot="bolt")
    holds = sheet.use(fastener_coating_ok, coating=i.coating, fastener="bolt", borate_dry=i.borate_dry)
    holds = holds or sheet.use(plain_bolt_allowed, D_in=DIAMETERS[i.bolt])
    say = "The bolts' coating or size suits treated wood."
    if not holds:
        say = "Use hot-dip galvanized or stainless bolts in treated wood."
    return LimitState("coating", title, source, holds=holds, say=say, spot="bolt", steps=sheet.take())
