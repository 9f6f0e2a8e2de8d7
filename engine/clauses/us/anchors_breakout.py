"""The cone of a group worked through for its geometry: used by tension (17.6.2) and by pryout (17.7.3)."""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from engine.clauses.us import anchors_tension as t
from engine.clauses.us.anchors_area import clusters, projected_tension_area_in2
from engine.clauses.us.anchors_materials import concrete_strength_used_psi
from engine.clauses.us.anchors_model import AnchorGroup
from engine.worksheet import Worksheet


class Cone(NamedTuple):
    """Nominal strength [lb], the embedment it was worked with [in], how many edges are within 1.5 of the real embedment."""

    N_lb: float
    h_in: float
    edges: int


def together(group: AnchorGroup, loaded: Sequence[int], reach_in: float) -> tuple[tuple[int, ...], ...]:
    """The loaded anchors parted into groups whose squares of that reach overlap, chain by chain (17.5.1.3.1)."""
    if len(loaded) == 1:
        return (tuple(loaded),)
    x, y = group.x_in, group.y_in

    def linked(a: int, b: int) -> bool:
        i, j = loaded[a], loaded[b]
        return abs(x[i] - x[j]) < reach_in and abs(y[i] - y[j]) < reach_in

    return tuple(tuple(loaded[i] for i in chain) for chain in clusters(len(loaded), linked))


def largest_gap(places: Sequence[float], beside: Sequence[float | None], reach_in: float) -> float:
    """Largest spacing between neighbours along one line, also to the next anchors of a row within reach [in]."""
    distinct = sorted(set(places))
    gaps = [b - a for a, b in pairwise(distinct)]
    gaps += [gap for gap in beside if gap is not None and gap < reach_in]
    return max(gaps, default=0.0)


def strength_psi(sheet: Worksheet, group: AnchorGroup) -> float:
    """The concrete strength counted; a step only where it is cut [psi]."""
    if group.f_c_psi <= 10000:
        return group.f_c_psi
    return sheet.use(concrete_strength_used_psi, f_c_psi=group.f_c_psi)


def cone(
    sheet: Worksheet, group: AnchorGroup, members: tuple[int, ...], e_x_in: float = 0.0, e_y_in: float = 0.0
) -> Cone:
    """Nominal breakout of these anchors. Args: members: numbers in the group. e_x_in, e_y_in: eccentricity of the force [in]."""
    x, y = [group.x_in[i] for i in members], [group.y_in[i] for i in members]
    edges = [min(face.c[i] for i in members) for face in group.faces]
    near = [c for c in edges if c < 1.5 * group.h_ef_in]
    h_ef = _counted_depth(sheet, group, x, y, near)
    A_Nc = _projected(sheet, group, x, y, h_ef)
    A_Nco = sheet.use(t.cone_area_in2, h_ef_in=h_ef)
    psi_ed = sheet.use(t.edge_factor_tension, c_a_min_in=min(edges), h_ef_in=h_ef) if edges else 1.0
    factors = {
        "A_Nc_in2": A_Nc,
        "A_Nco_in2": A_Nco,
        "psi_ed_N": psi_ed,
        "psi_c_N": sheet.use(t.cracking_factor_tension, cracked=group.assumed_cracked),
        "psi_cp_N": sheet.use(t.splitting_factor),
        "N_b_lb": _basic(sheet, group, h_ef),
    }
    if len(members) == 1:
        return Cone(sheet.use(t.breakout_lb, **factors), h_ef, len(near))
    psi_ec = 1.0
    if e_x_in or e_y_in:
        psi_ec = sheet.use(t.eccentricity_factor_tension, e_Nx_in=e_x_in, e_Ny_in=e_y_in, h_ef_in=h_ef)
    return Cone(sheet.use(t.group_breakout_lb, psi_ec_N=psi_ec, **factors), h_ef, len(near))


def _counted_depth(
    sheet: Worksheet, group: AnchorGroup, x: Sequence[float], y: Sequence[float], near: Sequence[float]
) -> float:
    """The real embedment, or what stands for it beside three or more near edges; before any area is taken [in]."""
    h_ef = group.h_ef_in
    if len(near) < 3:
        return h_ef
    s = max(largest_gap(x, (group.next_x1_in, group.next_x2_in), 3 * h_ef), largest_gap(y, (), 3 * h_ef))
    return sheet.use(t.reduced_depth_in, c_a_max_in=max(near), s_in=s, h_ef_in=h_ef)


def _projected(sheet: Worksheet, group: AnchorGroup, x: Sequence[float], y: Sequence[float], h_ef: float) -> float:
    x_from, x_to, y_from, y_to = group.cut_in
    return sheet.use(
        projected_tension_area_in2,
        x_in=tuple(x),
        y_in=tuple(y),
        h_ef_in=h_ef,
        x_from_in=x_from,
        x_to_in=x_to,
        y_from_in=y_from,
        y_to_in=y_to,
    )


def _basic(sheet: Worksheet, group: AnchorGroup, h_ef: float) -> float:
    """Headed anchors 11 to 25 in deep take the expression made for them, all others the general one."""
    deep = group.head.kind == "headed" and 11 <= h_ef <= 25
    basic = t.basic_breakout_deep_lb if deep else t.basic_breakout_lb
    return sheet.use(basic, lambda_a=group.lambda_a, f_c_psi=strength_psi(sheet, group), h_ef_in=h_ef)
