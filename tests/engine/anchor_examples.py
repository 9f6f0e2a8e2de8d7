"""Anchor groups that several tests start from."""

from dataclasses import replace
from typing import Any

from engine.clauses.us.anchors_materials import head, hook, steel
from engine.clauses.us.anchors_model import AnchorGroup
from engine.result import LimitState


def group(*positions: tuple[float, float], **more: Any) -> AnchorGroup:
    """5/8 in F1554 Grade 36 rods with heavy hex nuts, 7 in deep in 3,000 psi, edges far, unless told otherwise."""
    d_a = more.pop("d_a_in", 0.625)
    facts: dict[str, Any] = {
        "positions_in": positions or ((0.0, 0.0),),
        "d_a_in": d_a,
        "steel": steel("F1554-36"),
        "head": head("heavy hex", d_a),
        "h_ef_in": 7.0,
        "f_c_psi": 3000.0,
    }
    return AnchorGroup(**(facts | more))


def l_bolt(e_h_in: float = 2.25, **more: Any) -> AnchorGroup:
    """A 1/2 in L bolt, 7 in deep."""
    return group(**({"d_a_in": 0.5, "head": hook(e_h_in, 0.5), "cover_in": 0.75} | more))


def mirrored(of: AnchorGroup) -> AnchorGroup:
    """The same anchors with left and right changed over."""
    return replace(
        of,
        positions_in=tuple((-x, y) for x, y in of.positions_in),
        c_x1_in=of.c_x2_in,
        c_x2_in=of.c_x1_in,
        next_x1_in=of.next_x2_in,
        next_x2_in=of.next_x1_in,
    )


def by_key(lines: tuple[LimitState, ...]) -> dict[str, LimitState]:
    """Lines by what follows "anchor-" in their key."""
    return {line.key.removeprefix("anchor-"): line for line in lines}
