"""Lines of chapter 17 for tension: steel, breakout, pullout, side-face blowout."""

from collections.abc import Iterator, Sequence
from math import isfinite

from engine.clauses.us import anchors_tension as t
from engine.clauses.us.anchors_area import chains
from engine.clauses.us.anchors_breakout import cone, strength_psi, together
from engine.clauses.us.anchors_line import (
    PREFIX,
    Where,
    cite,
    concrete_tension_lb,
    several,
    steel_area_in2,
    steel_strength_psi,
    worst,
)
from engine.clauses.us.anchors_model import AnchorGroup, Face
from engine.clauses.us.anchors_phi import design_strength_lb, phi_breakout, phi_pullout, phi_steel_tension
from engine.errors import BadInput, OutOfScope
from engine.result import LimitState
from engine.worksheet import Worksheet


def tension_lines(
    sheet: Worksheet, group: AnchorGroup, N_u_lb: Sequence[float], where: Where = PREFIX
) -> tuple[LimitState, ...]:
    """Every mode in tension; none where no anchor is pulled.

    Args: N_u_lb: factored tension on each anchor, 0 or less where pressed [lb]. Raises: BadInput when the counts differ
    or a load is no number.
    """
    if len(N_u_lb) != len(group.positions_in):
        raise BadInput("N_u_lb", f"Give one tension for each of the {len(group.positions_in)} anchors.")
    if not all(isfinite(N) for N in N_u_lb):
        raise BadInput("N_u_lb", "Give every tension as a number of pounds.")
    loaded = tuple(i for i, N in enumerate(N_u_lb) if N > 0)
    if not loaded:
        return ()
    most = max(N_u_lb)
    return (
        _steel(sheet, group, most, where),
        worst(_breakouts(sheet, group, loaded, N_u_lb, where)),
        _pullout(sheet, group, most, where),
        _side_face(sheet, group, loaded, N_u_lb, where),
    )


def _steel(sheet: Worksheet, group: AnchorGroup, N_u: float, where: Where) -> LimitState:
    area = steel_area_in2(sheet, group)
    N_sa = sheet.use(t.steel_tension_lb, A_se_in2=area, f_uta_psi=steel_strength_psi(sheet, group))
    capacity = sheet.use(design_strength_lb, phi=sheet.use(phi_steel_tension, ductile=group.steel.ductile), R_n_lb=N_sa)
    say = "The most loaded anchor pulls with {demand}; its steel carries {capacity}."
    return where.line(
        sheet, "steel-tension", "Anchor steel in tension", cite(t.steel_tension_lb), N_u, capacity, say=say
    )


def resultant_offset(places: Sequence[float], forces: Sequence[float]) -> float:
    """How far the resultant of forces lies from the plain centre of their places [in]."""
    if len(places) == 1:
        return 0.0
    offset = abs(sum(p * f for p, f in zip(places, forces, strict=True)) / sum(forces) - sum(places) / len(places))
    return offset if offset > 1e-9 else 0.0  # equal forces leave a few last bits of a float


def _breakouts(
    sheet: Worksheet, group: AnchorGroup, loaded: tuple[int, ...], N_u_lb: Sequence[float], where: Where
) -> Iterator[LimitState]:
    """One line for each set of anchors that shares a cone."""
    for members in together(group, loaded, 3 * group.h_ef_in):
        forces = [N_u_lb[i] for i in members]
        e_x = resultant_offset([group.x_in[i] for i in members], forces)
        e_y = resultant_offset([group.y_in[i] for i in members], forces)
        broken = cone(sheet, group, members, e_x, e_y)
        phi = sheet.use(phi_breakout, supplementary=group.supplementary_tension)
        capacity = concrete_tension_lb(sheet, group, phi, broken.N_lb)
        say = (
            f"{{demand}} pulls on {several(len(members))}; the cone, {several(broken.edges, 'edge')} near and {{h_ef}} of "
            "embedment counted, carries {capacity}."
        )
        facts = {"h_ef": (broken.h_in, "in")}
        source = cite(t.breakout_lb if len(members) == 1 else t.group_breakout_lb)
        yield where.line(
            sheet, "breakout", "Concrete breakout in tension", source, sum(forces), capacity, say=say, facts=facts
        )


def _pullout(sheet: Worksheet, group: AnchorGroup, N_u: float, where: Where) -> LimitState:
    try:
        N_p = _under_foot(sheet, group)
    except OutOfScope as short:
        say = "The anchor pulls with {demand}; its hook is too short for the code to give it a strength."
        return where.line(sheet, "pullout", "Pullout", cite(t.hook_length_used_in), N_u, refer=str(short), say=say)
    psi_c = sheet.use(t.cracking_factor_pullout, cracked=group.assumed_cracked)
    N_pn = sheet.use(t.pullout_lb, psi_c_P=psi_c, N_p_lb=N_p)
    capacity = concrete_tension_lb(sheet, group, sheet.use(phi_pullout), N_pn)
    what = "the concrete under its head" if group.head.kind == "headed" else "its hook"
    say = f"The most loaded anchor pulls with {{demand}}; {what} holds {{capacity}}."
    return where.line(sheet, "pullout", "Pullout", cite(t.pullout_lb), N_u, capacity, say=say)


def _under_foot(sheet: Worksheet, group: AnchorGroup) -> float:
    f_c = strength_psi(sheet, group)
    if group.head.kind == "headed":
        return sheet.use(t.headed_pullout_lb, A_brg_in2=group.head.A_brg_in2, f_c_psi=f_c)
    e_h = sheet.use(t.hook_length_used_in, e_h_in=group.head.e_h_in, d_a_in=group.d_a_in)
    return sheet.use(t.hooked_pullout_lb, f_c_psi=f_c, e_h_in=e_h, d_a_in=group.d_a_in)


def _side_face(
    sheet: Worksheet, group: AnchorGroup, loaded: tuple[int, ...], N_u_lb: Sequence[float], where: Where
) -> LimitState:
    """The worst row along any face nearer than h_ef / 2.5."""
    rows = list(_rows(group, loaded))
    title, source = "Side-face blowout", cite(t.side_face_lb)
    if not rows:
        say = "No side face is nearer than 0.4 of the embedment, so the concrete beside the head cannot burst off."
        return where.line(sheet, "side-face", title, source, holds=True, say=say)
    if group.head.kind == "hooked":
        refer = (
            "A hooked bolt deeper than 2.5 times its edge distance: the code gives side-face strength for heads only. "
            "Use a headed bolt, less embedment or more edge distance, or bring it to a licensed engineer."
        )
        say = "The code gives no side-face strength for a hooked bolt this near a face."
        return where.line(sheet, "side-face", title, source, refer=refer, say=say)
    return worst(_blowout(sheet, group, face, members, N_u_lb, where) for face, members in rows)


def _rows(group: AnchorGroup, loaded: tuple[int, ...]) -> Iterator[tuple[Face, tuple[int, ...]]]:
    for face in group.faces:
        near = [i for i in loaded if group.h_ef_in > 2.5 * face.c[i]]
        if near:
            for row in chains(near, face.u, 6 * min(face.c[i] for i in near)):
                yield face, row


def _blowout(
    sheet: Worksheet, group: AnchorGroup, face: Face, members: tuple[int, ...], N_u_lb: Sequence[float], where: Where
) -> LimitState:
    """A row shares one strength; none of its anchors counts on more than a single one has."""
    c = min(face.c[i] for i in members)
    N_sb = sheet.use(
        t.side_face_lb,
        c_a1_in=c,
        A_brg_in2=group.head.A_brg_in2,
        lambda_a=group.lambda_a,
        f_c_psi=strength_psi(sheet, group),
    )
    forces = [N_u_lb[i] for i in members]
    demand = sum(forces)
    N_n = _row_strength(sheet, face, members, c, N_sb)
    if max(forces) / N_sb > demand / N_n:
        demand, N_n = max(forces), N_sb
    phi = sheet.use(phi_breakout, supplementary=group.supplementary_tension)
    capacity = concrete_tension_lb(sheet, group, phi, N_n)
    say = "{demand} pulls {c_a1} from a side face; the concrete beside the heads holds {capacity}."
    source = cite(t.side_face_lb if len(members) == 1 else t.row_side_face_lb)
    return where.line(
        sheet, "side-face", "Side-face blowout", source, demand, capacity, say=say, facts={"c_a1": (c, "in")}
    )


def _row_strength(sheet: Worksheet, face: Face, members: tuple[int, ...], c: float, N_sb: float) -> float:
    gaps = [gap for gap in face.gaps if gap is not None and gap < 6 * c]
    if len(members) == 1 and not gaps:
        sides = face.sides(members)
        if not sides or min(sides) >= 3 * c:
            return N_sb
        return sheet.use(t.corner_side_face_lb, c_a2_in=min(sides), c_a1_in=c, N_sb_lb=N_sb)
    u = [face.u[i] for i in members]
    if not gaps:
        return sheet.use(t.row_side_face_lb, s_in=max(u) - min(u), c_a1_in=c, N_sb_lb=N_sb)
    return sheet.use(
        t.row_part_side_face_lb,
        s_in=max(u) - min(u),
        s_1_in=_side_part(face.gaps[0], c),
        s_2_in=_side_part(face.gaps[1], c),
        c_a1_in=c,
        N_sb_lb=N_sb,
    )


def _side_part(gap: float | None, c: float) -> float:
    """Spacing that counts on one side of a part of a long row: none nearer than 6 c_a1 is as good as a free end [in]."""
    return 6 * c if gap is None else min(gap, 6 * c)
