"""Lines about the legs that stand out, at strength level: fasteners bearing in them, shear, blocks, bending."""

from collections.abc import Callable, Sequence
from math import hypot

from engine.attachments.anchored_plate import steel
from engine.attachments.anchored_plate.demand import Effect
from engine.attachments.anchored_plate.geometry import Bracket
from engine.attachments.anchored_plate.inputs import Inputs
from engine.clauses.us.ledger_rules import couple_pull_lb
from engine.result import LimitState
from engine.worksheet import Worksheet, cite

# Reading 8: a couple is held over three quarters of the way from the upper fasteners to the lower end of the contact.
COUPLE_PART = 0.75


def lines(sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect]) -> tuple[LimitState, ...]:
    """Edges, bearing, shear, block, bending, all together; of a ledger its front plate too. Args: effects: at strength level."""
    states = [_edges(sheet, p), _bearing(sheet, i, p, effects), _shear(sheet, i, p, effects)]
    states.append(_block(sheet, i, p, effects))
    if p.front_plate is None and any(e.P for e in effects):
        states.append(_block_pulled(sheet, i, p, effects))
    if p.front_plate is not None:
        states.append(_front(sheet, i, p, effects))
    return (*states, _bending(sheet, i, p, effects), _together(sheet, i, p, effects))


def _most(effects: Sequence[Effect], size: Callable[[Effect], float]) -> tuple[Effect, float]:
    worst = max(effects, key=size)
    return worst, size(worst)


def _parts(p: Bracket) -> int:
    """How many plates the fasteners bear in."""
    return 1 if p.front_plate else len(p.legs)


def _edges(sheet: Worksheet, p: Bracket) -> LimitState:
    least = min(p.leg_beyond, p.leg_above)
    need = sheet.use(steel.least_steel_in, d_in=p.D)
    return LimitState(
        "leg-edges", "Fasteners inside the leg", cite(steel.least_steel_in), need, least, "in",
        say="The outermost fastener has {capacity} of steel beside it; {demand} is needed."
        if least > 0
        else "The outermost fasteners miss the leg; they need {demand} of steel beside them.",
        spot="leg", steps=sheet.take(),
    )  # fmt: skip


def _clear_steel(i: Inputs, p: Bracket) -> float:
    """Least clear steel from a hole to the next or to an edge [in]."""
    hole = steel.hole_in(p.D)
    found = [p.leg_beyond - hole / 2, p.leg_above - hole / 2]
    found += [i.f_row_spacing_in - hole] if i.f_rows > 1 else []
    found += [i.f_column_spacing_in - hole] if i.f_columns > 1 else []
    return min(found)


def _on_one(p: Bracket, e: Effect) -> float:
    """What one fastener brings into one plate of steel [lb]."""
    return hypot(e.V, e.H if p.front_plate else e.P) / len(p.fasteners) / _parts(p)


def _bearing(sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect]) -> LimitState:
    effect, demand = _most(effects, lambda e: _on_one(p, e))
    clear, capacity = _clear_steel(i, p), 0.0
    if clear > 0:
        capacity = sheet.use(
            steel.hole_bearing_lb, d_in=p.D, l_c_in=clear, t_in=p.leg_thickness, F_u_psi=i.f_u_ksi * 1000
        )
    return LimitState(
        "leg-bearing", "Fastener bearing in the leg", cite(steel.hole_bearing_lb), demand, capacity, "lb",
        say="A fastener brings {demand} into a leg; the steel takes {capacity} in bearing or tearing out.",
        combination=effect.label, spot="leg", steps=sheet.take(),
    )  # fmt: skip


def _shear_strength(sheet: Worksheet, i: Inputs, p: Bracket) -> float:
    """Of all legs together, whole and through the fasteners' holes [lb]."""
    h, t = p.leg_height, p.leg_thickness
    gross = sheet.use(steel.shear_yield_lb, F_y_psi=i.f_y_ksi * 1000, h_in=h, t_in=t)
    net = sheet.use(
        steel.shear_rupture_lb, F_u_psi=i.f_u_ksi * 1000, h_in=h, n=i.f_rows, d_h_in=steel.hole_in(p.D), t_in=t
    )
    return len(p.legs) * min(gross, net)


def _shear(sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect]) -> LimitState:
    effect, demand = _most(effects, lambda e: abs(e.V))
    return LimitState(
        "leg-shear", "Legs in shear", cite(steel.shear_yield_lb), demand, _shear_strength(sheet, i, p), "lb",
        say="The member brings {demand}; the steel that stands out carries {capacity} in shear.",
        combination=effect.label, spot="leg", steps=sheet.take(),
    )  # fmt: skip


def _net(length: float, holes: float, p: Bracket) -> float:
    return max(length - holes * steel.hole_in(p.D), 0.0) * p.leg_thickness


def _block(sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect]) -> LimitState:
    """The steel below the upper fasteners and outside the first ones, torn down; as much above where the member lifts."""
    effect, demand = _most(effects, lambda e: abs(e.V))
    down = p.leg_above + (i.f_rows - 1) * i.f_row_spacing_in
    out = p.leg_beyond + (i.f_columns - 1) * i.f_column_spacing_in
    capacity = 0.0
    if min(p.leg_above, p.leg_beyond) > 0:
        capacity = _parts(p) * sheet.use(
            steel.block_shear_lb,
            F_u_psi=i.f_u_ksi * 1000,
            F_y_psi=i.f_y_ksi * 1000,
            A_nv_in2=_net(down, i.f_rows - 0.5, p),
            A_gv_in2=down * p.leg_thickness,
            A_nt_in2=_net(out, i.f_columns - 0.5, p),
            U_bs=1.0 if i.f_columns == 1 else 0.5,
        )
    return LimitState(
        "leg-block", "Block of the leg torn out", cite(steel.block_shear_lb), demand, capacity, "lb",
        say="The member brings {demand}; tearing out the steel around its fasteners takes {capacity}.",
        combination=effect.label, spot="leg", steps=sheet.take(),
    )  # fmt: skip


def _block_pulled(sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect]) -> LimitState:
    """The steel between the upper and lower fasteners, torn out at the leg's end."""
    effect, demand = _most(effects, lambda e: e.P)
    out = p.leg_beyond + (i.f_columns - 1) * i.f_column_spacing_in
    between = (i.f_rows - 1) * i.f_row_spacing_in
    capacity = 0.0
    if p.leg_beyond > 0:
        capacity = _parts(p) * sheet.use(
            steel.block_shear_lb,
            F_u_psi=i.f_u_ksi * 1000,
            F_y_psi=i.f_y_ksi * 1000,
            A_nv_in2=2 * _net(out, i.f_columns - 0.5, p),
            A_gv_in2=2 * out * p.leg_thickness,
            A_nt_in2=_net(between, i.f_rows - 1, p),
            U_bs=1.0,
        )
    return LimitState(
        "leg-block-pull", "Block of the leg pulled out", cite(steel.block_shear_lb), demand, capacity, "lb",
        say="The member pulls {demand}; tearing its fasteners out of the leg's end takes {capacity}.",
        combination=effect.label, spot="leg", steps=sheet.take(),
    )  # fmt: skip


def couple_lever_in(i: Inputs, p: Bracket) -> float:
    """Lever of a ledger's couple on its front plate [in]: from the upper fasteners toward the lower end of the contact."""
    lower = max(-p.leg_height / 2, p.member_y[0])
    return COUPLE_PART * (p.fasteners[0][1] - lower)


def _front(sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect]) -> LimitState:
    """The front plate bent toward its legs by the upper fasteners, which hold the couple of the load beyond its face."""
    effect, V = _most(effects, lambda e: abs(e.V))
    z = couple_lever_in(i, p)
    demand, capacity, T = V, 0.0, 0.0
    if z > 0:
        T = sheet.use(couple_pull_lb, V_lb=V, e_in=p.reaction - p.member_x[0], z_in=z) / i.f_columns
        nearest = max(min(max(a - u, u - b, 0.0) for a, b in p.legs) for u, _ in p.fasteners)
        m = sheet.use(steel.to_leg_in, x_in=nearest, y_in=0.0)
        below = i.f_row_spacing_in / 2 if i.f_rows > 1 else p.leg_above
        b = sheet.use(steel.bending_width_in, m_in=m, a_1_in=max(p.leg_above, 0.0), a_2_in=max(below, 0.0))
        demand = sheet.use(steel.anchor_moment_lb_in, T_lb=T, m_in=m)
        capacity = sheet.use(steel.flat_bending_lb_in, F_y_psi=i.f_y_ksi * 1000, b_in=b, t_in=p.leg_thickness)
        if not m:
            demand, capacity = 0.0, 1.0  # a fastener over a leg bends nothing
    return LimitState(
        "front-bending", "Front plate bending", cite(steel.flat_bending_lb_in), demand, capacity, "lb-in",
        say="The ledger's couple pulls {T} on an upper fastener, which bends the front plate with {demand}; it carries {capacity}."
        if z > 0
        else "The front plate ends above the fasteners: nothing below them holds the ledger's couple.",
        facts={"T": (T, "lb")}, combination=effect.label, spot="leg", steps=sheet.take(),
    )  # fmt: skip


def _lever(p: Bracket) -> float:
    return max(p.reaction - p.x_front, 0.0)


def _bent(sheet: Worksheet, i: Inputs, p: Bracket) -> float:
    """Bending strength of all legs upright; free from the plate to the first fasteners or the front plate [lb-in]."""
    free = (p.front_plate[0] if p.front_plate else min(x for x, _ in p.fasteners)) - p.x_front
    F_y = i.f_y_ksi * 1000
    one = steel.upright_strength_lb_in(sheet, max(free, 0.0), p.leg_height, p.leg_thickness, F_y)
    return len(p.legs) * one


def _bending(sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect]) -> LimitState:
    effect, V = _most(effects, lambda e: abs(e.V))
    return LimitState(
        "leg-bending", "Legs bending at the plate", cite(steel.upright_bending_lb_in), V * _lever(p), _bent(sheet, i, p), "lb-in",
        say="The reaction, {lever} off the plate's face, bends what stands out with {demand}; it carries {capacity}.",
        facts={"lever": (_lever(p), "in")}, combination=effect.label, spot="leg", steps=sheet.take(),
    )  # fmt: skip


def _together(sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect]) -> LimitState:
    """Shear, bending both ways and pull; a load along the wall bends every leg on its flat side as a cantilever."""
    F_y, n, h, t = i.f_y_ksi * 1000, len(p.legs), p.leg_height, p.leg_thickness
    strong, shear = _bent(sheet, i, p), _shear_strength(sheet, i, p)
    weak = n * sheet.use(steel.flat_bending_lb_in, F_y_psi=F_y, b_in=h, t_in=t)
    pull = n * sheet.use(
        steel.tension_lb, F_y_psi=F_y, F_u_psi=i.f_u_ksi * 1000, h_in=h, n=i.f_rows, d_h_in=steel.hole_in(p.D), t_in=t
    )
    able = shear > 0 and pull > 0
    parts = {
        e: (abs(e.V) / shear, abs(e.V) * _lever(p) / strong, abs(e.H) * _lever(p) / weak, e.P / pull)
        for e in effects
        if able
    }
    effect = max(parts, key=lambda e: parts[e][0] ** 2 + sum(parts[e][1:]) ** 2, default=effects[0])
    used = 1.0
    if able:
        r_V, r_x, r_y, r_P = parts[effect]
        used = sheet.use(steel.leg_use, r_V=r_V, r_x=r_x, r_y=r_y, r_P=r_P)
    return LimitState(
        "leg-together", "Legs in shear, bending and pull", cite(steel.leg_use), used, 1.0 if able else 0.0, "",
        say="Shear, bending and pull together use {demand} of {capacity}.", combination=effect.label, spot="leg",
        steps=sheet.take(),
    )  # fmt: skip
