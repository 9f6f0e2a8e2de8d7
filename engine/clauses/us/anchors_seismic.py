"""Anchors under earthquake in seismic design categories C to F: ACI 318-19 17.10, and what IBC 1905.1.8 deems to satisfy it."""

from typing import Literal

from engine.clauses.us import anchors_tension as t
from engine.clauses.us.anchors_line import PREFIX, Where, cite, steel_area_in2, steel_strength_psi
from engine.clauses.us.anchors_model import AnchorGroup
from engine.result import LimitState
from engine.worksheet import Worksheet, clause

Route = Literal["none", "ductile anchor", "yielding attachment", "most delivered", "overstrength", "wall force"]
TENSION_ROUTES = ("ductile anchor", "yielding attachment", "most delivered", "overstrength", "wall force")
SHEAR_ROUTES = ("yielding attachment", "most delivered", "overstrength")
WORDS = {
    "ductile anchor": "a ductile anchor with length to stretch",
    "yielding attachment": "an attachment that yields first",
    "most delivered": "the most the attachment can deliver",
    "overstrength": "earthquake multiplied by the overstrength factor",
    "wall force": "the wall anchorage force of ASCE 7 12.11.2.1",
}


@clause(
    "ACI 318",
    "17.10.5.1",
    title="Share of the earthquake in tension",
    symbol="E / U",
    formula="E_N / N_u",
    provenance="memory",
)
def tension_share(E_N_lb: float, N_u_lb: float) -> float:
    """Up to 0.2 no further rule applies. Args: earthquake part and whole of the factored tension [lb]. Source: 17.10.5.1."""
    return E_N_lb / N_u_lb


@clause(
    "ACI 318",
    "17.10.6.1",
    title="Share of the earthquake in shear",
    symbol="E / U",
    formula="E_V / V_u",
    provenance="memory",
)
def shear_share(E_V_lb: float, V_u_lb: float) -> float:
    """Up to 0.2 no further rule applies. Args: earthquake part and whole of the factored shear [lb]. Source: 17.10.6.1."""
    return E_V_lb / V_u_lb


@clause(
    "ACI 318",
    "17.10.5.3(a)",
    title="Concrete strength asked by a ductile anchor",
    symbol="1.2 N_sa",
    unit="lb",
    formula="1.2 * N_sa",
)
def strength_over_steel_lb(N_sa_lb: float) -> float:
    """What every concrete mode must exceed so that the steel yields first. Args: N_sa_lb: nominal steel strength [lb]."""
    return 1.2 * N_sa_lb


@clause(
    "ACI 318",
    "17.10.5.3(a)",
    title="Length to stretch",
    symbol="l_str",
    unit="in",
    formula="8 * d_a",
)
def stretch_length_in(d_a_in: float) -> float:
    """Free length of a ductile anchor. Args: d_a_in: diameter [in]. Source: ACI 318-19 17.10.5.3(a)."""
    return 8 * d_a_in


def tension_route_line(
    sheet: Worksheet, E_N_lb: float, N_u_lb: float, route: Route, where: Where = PREFIX
) -> LimitState | None:
    """Whether one of the ways of 17.10.5.3 was chosen where earthquake is above a fifth of the tension; None without any.

    Args: E_N_lb: earthquake part of the factored tension N_u_lb. route: how the anchors were designed.
    """
    if not (E_N_lb > 0 and N_u_lb > 0):
        return None
    share = sheet.use(tension_share, E_N_lb=E_N_lb, N_u_lb=N_u_lb)
    return _route(sheet, "tension", share, route, TENSION_ROUTES, where)


def shear_route_line(
    sheet: Worksheet, E_V_lb: float, V_u_lb: float, route: Route, where: Where = PREFIX
) -> LimitState | None:
    """The same for shear (17.10.6.3). The wall force of ASCE 7 is worded for tension and does not stand for shear."""
    if not (E_V_lb > 0 and V_u_lb > 0):
        return None
    share = sheet.use(shear_share, E_V_lb=E_V_lb, V_u_lb=V_u_lb)
    return _route(sheet, "shear", share, route, SHEAR_ROUTES, where)


def _route(
    sheet: Worksheet, what: str, share: float, route: Route, allowed: tuple[str, ...], where: Where
) -> LimitState:
    source = cite(tension_share if what == "tension" else shear_share)
    small = share <= 0.2
    holds = small or route in allowed
    if small:
        say = f"Earthquake is {{share}} of the {what}, not above 0.2: no further rule."
    elif holds:
        say = f"Earthquake is {{share}} of the {what}; the anchors are designed for {WORDS[route]}."
    else:
        ways = ", ".join(WORDS[way] for way in allowed)
        say = f"Earthquake is {{share}} of the {what}, above 0.2: design the anchors for one of {ways}."
    facts = {"share": (share, "")}
    title = f"Earthquake in {what}"
    return where.line(sheet, f"seismic-{what}", title, source, holds=holds, say=say, facts=facts)


def ductile_lines(
    sheet: Worksheet, group: AnchorGroup, N_concrete_n_lb: float, stretch_in: float, where: Where = PREFIX
) -> tuple[LimitState, ...]:
    """What the way of the ductile anchor asks: concrete above 1.2 of the steel, length to stretch, a ductile steel.

    Args: N_concrete_n_lb: least nominal strength of the concrete modes for one anchor [lb]. stretch_in: free length [in].
    """
    N_sa = sheet.use(
        t.steel_tension_lb, A_se_in2=steel_area_in2(sheet, group), f_uta_psi=steel_strength_psi(sheet, group)
    )
    needed, source = sheet.use(strength_over_steel_lb, N_sa_lb=N_sa), cite(strength_over_steel_lb)
    say = "Concrete must hold {demand}, a fifth more than the steel; it holds {capacity}."
    strength = where.line(
        sheet, "seismic-order", "Steel yields before concrete", source, needed, N_concrete_n_lb, say=say
    )
    least = sheet.use(stretch_length_in, d_a_in=group.d_a_in)
    say = "{capacity} of the anchor is free to stretch; {demand} is the least."
    length = where.line(sheet, "seismic-stretch", "Length to stretch", source, least, stretch_in, "in", say=say)
    say = f"{group.steel.label} {'is' if group.steel.ductile else 'is not'} a ductile steel."
    steel = where.line(sheet, "seismic-steel", "Ductile steel", source, holds=group.steel.ductile, say=say)
    return strength, length, steel
