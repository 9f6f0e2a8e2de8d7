"""Lines about limits, concrete, decay and what the bolts are coated with."""

from engine.attachments.sill_plate.bolts import rule
from engine.attachments.sill_plate.geometry import Sill
from engine.attachments.sill_plate.inputs import Inputs
from engine.clauses.us.irc_moisture import fastener_coating_ok, framing_on_wall_needs_treatment, plain_bolt_allowed
from engine.clauses.us.irc_scope import Exposure, r608_limits_exceeded
from engine.clauses.us.irc_walls import minimum_f_c_psi
from engine.editions import Citation
from engine.result import LimitState
from engine.worksheet import Worksheet, cite

IRC_SEISMIC = Citation("IRC", "R301.2.2")  # category E leaves the residential code. provenance: memory
IBC_LIGHT_FRAME = Citation("IBC", "2308")
IBC_DECAY = Citation("IBC", "2304.12")
IBC_FASTENERS = Citation("IBC", "2304.10.6.1")
PRACTICE = Citation("common practice")


def scope(sheet: Worksheet, i: Inputs) -> LimitState:
    """Limits beyond which wall and plate are designed: of R608.2 above ground, of the code itself on a foundation."""
    beyond, source = _beyond(sheet, i)
    return LimitState(
        "scope", "Within the prescriptive limits", source, holds=not beyond, spot="plate", steps=sheet.take(),
        say=f"Beyond the limits: {', '.join(beyond)}." if beyond else "The building is within the limits.",
        refer="Beyond these limits the wall and its plate are designed: bring this check, the building's sizes, wind and "
        "seismic data to a licensed engineer." if beyond else "",
    )  # fmt: skip


def _beyond(sheet: Worksheet, i: Inputs) -> tuple[tuple[str, ...], Citation]:
    r = rule(i)
    if r.code == "IBC":
        high = r.category.startswith(("D", "E"))
        return ((f"seismic category {r.category}",) if high else ()), IBC_LIGHT_FRAME
    if i.foundation:
        return (("seismic category E",) if r.category == "E" else ()), IRC_SEISMIC
    exposure: Exposure = i.wind_exposure  # type: ignore[assignment]
    found = sheet.use(
        r608_limits_exceeded, stories=i.stories, exposure=exposure, sdc=r.category, building=r.building,
        speed_mph=(i.wind_mph or 0.0) if i.carries != "wall" else 0.0,
    )  # fmt: skip
    return (*found, *(() if i.inside_r608 else ("the building's sizes or loads",))), cite(r608_limits_exceeded)


def strength(sheet: Worksheet, i: Inputs) -> LimitState:
    """Least concrete strength."""
    least = sheet.use(
        minimum_f_c_psi, weathering="negligible", sdc=rule(i).category, exposed=True, foundation=i.foundation
    )
    return LimitState(
        "strength", "Concrete strength", cite(minimum_f_c_psi), least, i.f_c_psi, "psi",
        say="The concrete is {capacity}; the least is {demand}.",
        refer="Concrete below the code's least strength: bring test results to a licensed engineer."
        if i.f_c_psi < least else "",
        spot="concrete", steps=sheet.take(),
    )  # fmt: skip


def moisture(sheet: Worksheet, i: Inputs, p: Sill) -> tuple[LimitState, ...]:
    """Decay, what keeps water from the plate, and the bolts' coating."""
    return _decay(sheet, i), _capillary(i), _coating(sheet, i, p)


def _decay(sheet: Worksheet, i: Inputs) -> LimitState:
    needed = sheet.use(framing_on_wall_needs_treatment, height_in=i.ground_in)
    holds = not needed or i.treatment != "plain"
    return LimitState(
        "decay", "Decay of the plate", IBC_DECAY if i.code == "IBC" else cite(framing_on_wall_needs_treatment),
        holds=holds, spot="plate", steps=sheet.take(),
        say="The plate stands {height} above the ground and resists decay, or need not."
        if holds
        else "The plate stands only {height} above the ground: use treated or naturally durable wood.",
        facts={"height": (i.ground_in, "in")},
    )  # fmt: skip


def _capillary(i: Inputs) -> LimitState:
    dry = i.barrier or i.treatment != "plain"
    return LimitState(
        "capillary", "Water from the concrete", PRACTICE, holds=dry, advisory=True, spot="plate",
        say="A layer under the plate or its own wood keeps the concrete's moisture harmless."
        if dry
        else "Lay a capillary break under untreated wood on concrete.",
    )  # fmt: skip


def _coating(sheet: Worksheet, i: Inputs, p: Sill) -> LimitState:
    title, code = "Bolts in treated wood", rule(i).code
    source = IBC_FASTENERS if code == "IBC" else cite(fastener_coating_ok)
    if i.treatment != "treated":
        say = "The wood is not treated, so that the bolts' coating is free."
        return LimitState("coating", title, source, holds=True, say=say, spot="anchor")
    holds = sheet.use(fastener_coating_ok, coating=i.coating, fastener="bolt", borate_dry=i.borate_dry)
    holds = holds or sheet.use(plain_bolt_allowed, D_in=p.D, code=code)
    say = "The bolts' coating or size suits treated wood."
    if not holds:
        say = "Use hot-dip galvanized or stainless bolts in treated wood: this code excepts no size."
    return LimitState("coating", title, source, holds=holds, say=say, spot="anchor", steps=sheet.take())
