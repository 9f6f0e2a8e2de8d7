"""Lines of chapter 17 for shear: steel, breakout toward and along each edge, pryout."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from math import hypot, isfinite

from engine.clauses.us import anchors_shear as v
from engine.clauses.us.anchors_area import chains, projected_shear_area_in2
from engine.clauses.us.anchors_breakout import cone, largest_gap, strength_psi, together
from engine.clauses.us.anchors_line import PREFIX, Where, cite, several, steel_area_in2, steel_strength_psi, worst
from engine.clauses.us.anchors_lines_tension import resultant_offset
from engine.clauses.us.anchors_model import EDGES, AnchorGroup, Face
from engine.clauses.us.anchors_phi import design_strength_lb, phi_breakout, phi_pullout, phi_steel_shear
from engine.errors import BadInput
from engine.result import LimitState
from engine.worksheet import Worksheet

Vectors = Sequence[tuple[float, float]]
Forces = dict[int, float]
SAME_ROW = 1e-6  # inches between anchors that still stand in one row
NOISE = 1e-9  # share of the largest force below which a component is a rounding remainder


def shear_lines(sheet: Worksheet, group: AnchorGroup, V_u_lb: Vectors, where: Where = PREFIX) -> tuple[LimitState, ...]:
    """Every mode in shear: one line a loaded edge and direction; none where nothing is sheared.

    Args: V_u_lb: factored shear (x, y) on each anchor [lb]. Raises: BadInput when the counts differ or one is no number.
    """
    if len(V_u_lb) != len(group.positions_in):
        raise BadInput("V_u_lb", f"Give one shear for each of the {len(group.positions_in)} anchors.")
    most = max(hypot(x, y) for x, y in V_u_lb)
    if not all(isfinite(x) and isfinite(y) for x, y in V_u_lb):
        raise BadInput("V_u_lb", "Give every shear as a number of pounds.")
    if most == 0:
        return ()
    lines = [_steel(sheet, group, most, where)]
    for face in group.faces:
        across, sign = (0 if face.k < 2 else 1), (1 if face.k % 2 else -1)
        push = _above({i: sign * V[across] for i, V in enumerate(V_u_lb)}, most)
        if push:
            lines.append(worst(_toward(sheet, group, face, push, where)))
        slide = {i: V[1 - across] for i, V in enumerate(V_u_lb)}
        ways = [way for way in (_above(slide, most), _above({i: -f for i, f in slide.items()}, most)) if way]
        if ways:
            lines.append(worst(line for way in ways for line in _along(sheet, group, face, way, where)))
    lines.append(worst(_pryouts(sheet, group, V_u_lb, most, where)))
    return tuple(lines)


def _above(forces: Forces, most: float) -> Forces:
    return {i: f for i, f in forces.items() if f > NOISE * most}


def _steel(sheet: Worksheet, group: AnchorGroup, V_u: float, where: Where) -> LimitState:
    steel = v.steel_shear_lb if group.steel.threaded else v.stud_steel_shear_lb
    V_sa = sheet.use(steel, A_se_in2=steel_area_in2(sheet, group), f_uta_psi=steel_strength_psi(sheet, group))
    if group.grout_pad:
        V_sa = sheet.use(v.grouted_shear_lb, V_sa_lb=V_sa)
    capacity = sheet.use(design_strength_lb, phi=sheet.use(phi_steel_shear, ductile=group.steel.ductile), R_n_lb=V_sa)
    say = "The most loaded anchor is sheared with {demand}; its steel carries {capacity}."
    return where.line(sheet, "steel-shear", "Anchor steel in shear", cite(steel), V_u, capacity, say=say)


def rows_from(face: Face, members: Sequence[int]) -> list[tuple[int, ...]]:
    """Anchors in rows by their distance to a face, nearest first."""
    ordered = sorted(members, key=lambda i: face.c[i])
    return [tuple(row) for _, row in groupby(ordered, key=lambda i: round(face.c[i] / SAME_ROW))]


def row_cases(face: Face, push: Forces) -> Iterator[Forces]:
    """Which rows break out with how much of the shear toward a face (Fig. R17.7.2.1b).

    A row with another one nearer behind it than its own edge distance takes everything. Otherwise it takes its share, and
    then the rows behind it take everything without it.
    """
    total, rows = sum(push.values()), rows_from(face, list(push))
    for number, front in enumerate(rows):
        own = sum(push[i] for i in front)
        behind = rows[number + 1] if number + 1 < len(rows) else None
        crowded = behind is not None and face.c[behind[0]] - face.c[front[0]] < face.c[front[0]]
        sharing = own if crowded else sum(push[i] for row in rows[number:] for i in row)
        yield {i: push[i] * (total / sharing) for i in front}
        if crowded:
            return


def _toward(sheet: Worksheet, group: AnchorGroup, face: Face, push: Forces, where: Where) -> Iterator[LimitState]:
    name = group.edge_names[face.k]
    for case in row_cases(face, push):
        c = min(face.c[i] for i in case)
        for members in chains(tuple(case), face.u, 3 * c):
            forces = [case[i] for i in members]
            e_V = resultant_offset([face.u[i] for i in members], forces)
            V_cb = _prism(sheet, group, face, members, e_V)
            phi = sheet.use(phi_breakout, supplementary=group.supplementary_shear)
            capacity = sheet.use(design_strength_lb, phi=phi, R_n_lb=V_cb)
            yield where.line(
                sheet,
                f"shear-{EDGES[face.k]}",
                f"Concrete breakout toward {name}",
                cite(v.shear_breakout_lb),
                sum(forces),
                capacity,
                say=f"{{demand}} pushes toward {name}, {{c_a1}} away; the concrete there carries {{capacity}}.",
                facts={"c_a1": (c, "in")},
            )


def _along(sheet: Worksheet, group: AnchorGroup, face: Face, slide: Forces, where: Where) -> Iterator[LimitState]:
    """The row nearest a face, with its share of the shear along that face."""
    near, name = rows_from(face, list(slide))[0], group.edge_names[face.k]
    c = min(face.c[i] for i in near)
    for members in chains(near, face.u, 3 * c):
        V_cb = sheet.use(v.parallel_shear_breakout_lb, V_cb_lb=_prism(sheet, group, face, members, None))
        phi = sheet.use(phi_breakout, supplementary=group.supplementary_shear)
        capacity = sheet.use(design_strength_lb, phi=phi, R_n_lb=V_cb)
        yield where.line(
            sheet,
            f"shear-along-{EDGES[face.k]}",
            f"Concrete breakout beside {name}",
            cite(v.parallel_shear_breakout_lb),
            sum(slide[i] for i in members),
            capacity,
            say=f"{{demand}} runs along {name}, {{c_a1}} away; the concrete there carries {{capacity}}.",
            facts={"c_a1": (c, "in")},
        )


def _prism(sheet: Worksheet, group: AnchorGroup, face: Face, members: tuple[int, ...], e_V: float | None) -> float:
    """Nominal breakout of anchors in one row toward a face; along it (e_V None) side edges have no edge effect [lb]."""
    h_a, sides, u = group.h_a_in, face.sides(members), tuple(face.u[i] for i in members)
    c = _counted_distance(sheet, face, members, h_a, sides)
    u_from, u_to = face.cut
    A_Vc = sheet.use(projected_shear_area_in2, u_in=u, c_a1_in=c, u_from_in=u_from, u_to_in=u_to, h_a_in=h_a)
    A_Vco = sheet.use(v.prism_area_in2, c_a1_in=c)
    psi_ec = sheet.use(v.eccentricity_factor_shear, e_V_in=e_V, c_a1_in=c) if e_V else 1.0
    edged = sides and e_V is not None
    psi_ed = sheet.use(v.edge_factor_shear, c_a2_in=min(sides), c_a1_in=c) if edged else 1.0
    thin = h_a is not None and h_a < 1.5 * c
    psi_h = sheet.use(v.thickness_factor_shear, c_a1_in=c, h_a_in=h_a) if thin else 1.0
    return sheet.use(
        v.shear_breakout_lb,
        A_Vc_in2=A_Vc,
        A_Vco_in2=A_Vco,
        psi_ec_V=psi_ec,
        psi_ed_V=psi_ed,
        psi_c_V=sheet.use(v.cracking_factor_shear, cracked=group.assumed_cracked, edge_bars=group.edge_bars),
        psi_h_V=psi_h,
        V_b_lb=_basic(sheet, group, c),
    )


def _counted_distance(
    sheet: Worksheet, face: Face, members: tuple[int, ...], h_a: float | None, sides: list[float]
) -> float:
    """The real edge distance, or what stands for it where both side edges and the thickness are near [in]."""
    c = min(face.c[i] for i in members)
    if h_a is None or len(sides) < 2 or max(h_a, *sides) >= 1.5 * c:
        return c
    s = largest_gap([face.u[i] for i in members], face.gaps, 3 * c)
    return sheet.use(v.reduced_edge_distance_in, c_a2_max_in=max(sides), h_a_in=h_a, s_in=s, c_a1_in=c)


def _basic(sheet: Worksheet, group: AnchorGroup, c: float) -> float:
    f_c = strength_psi(sheet, group)
    l_e = sheet.use(v.bearing_length_in, h_ef_in=group.h_ef_in, d_a_in=group.d_a_in)
    by_anchor = sheet.use(
        v.basic_shear_by_anchor_lb, l_e_in=l_e, d_a_in=group.d_a_in, lambda_a=group.lambda_a, f_c_psi=f_c, c_a1_in=c
    )
    limit = sheet.use(v.basic_shear_limit_lb, lambda_a=group.lambda_a, f_c_psi=f_c, c_a1_in=c)
    return sheet.use(v.basic_shear_lb, V_ba_lb=by_anchor, V_bb_lb=limit)


def _pryouts(sheet: Worksheet, group: AnchorGroup, V_u_lb: Vectors, most: float, where: Where) -> Iterator[LimitState]:
    """One line for each set of sheared anchors that shares a cone."""
    loaded = [i for i, V in enumerate(V_u_lb) if hypot(*V) > NOISE * most]
    for members in together(group, loaded, 3 * group.h_ef_in):
        demand, e_x, e_y = _shear_resultant(group, members, V_u_lb)
        N_cp = cone(sheet, group, members, e_x, e_y).N_lb
        k_cp = sheet.use(v.pryout_factor, h_ef_in=group.h_ef_in)
        V_cp = sheet.use(v.pryout_lb, k_cp=k_cp, N_cp_lb=N_cp)
        capacity = sheet.use(design_strength_lb, phi=sheet.use(phi_pullout), R_n_lb=V_cp)
        yield where.line(
            sheet,
            "pryout",
            "Concrete pryout",
            cite(v.pryout_lb),
            demand,
            capacity,
            say=f"{{demand}} of shear levers {several(len(members))} out backward; the concrete behind holds {{capacity}}.",
            facts={"k_cp": (k_cp, "")},
        )


def _shear_resultant(group: AnchorGroup, members: tuple[int, ...], V_u_lb: Vectors) -> tuple[float, float, float]:
    """Force on the group and its offset from the group's centre along x and y [lb, in].

    Where torsion turns some anchors against the others no resultant stands for them: every anchor is then taken as loaded
    like the most loaded one.
    """
    forces = [V_u_lb[i] for i in members]
    R_x, R_y = sum(x for x, _ in forces), sum(y for _, y in forces)
    if any(R_x * x + R_y * y <= 0 for x, y in forces):
        return len(members) * max(hypot(x, y) for x, y in forces), 0.0, 0.0
    n = len(members)
    mid_x, mid_y = sum(group.x_in[i] for i in members) / n, sum(group.y_in[i] for i in members) / n
    T = sum(
        (group.x_in[i] - mid_x) * V[1] - (group.y_in[i] - mid_y) * V[0] for i, V in zip(members, forces, strict=True)
    )
    R = hypot(R_x, R_y)
    e = abs(T) / R if abs(T) > NOISE * R else 0.0  # inches; less is a rounding remainder
    return R, e * abs(R_y) / R, e * abs(R_x) / R
