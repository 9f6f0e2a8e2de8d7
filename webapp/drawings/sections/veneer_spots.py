"""Places on a veneer ledge where limit states occur, and the lengths they judge."""

from engine.attachments.veneer_ledge.geometry import Ledge
from engine.attachments.veneer_ledge.inputs import Inputs
from webapp.drawings.scene import Length, Spot
from webapp.drawings.shapes import rectangle


def spots(i: Inputs, g: Ledge, low: float, top: float) -> dict[str, Spot]:
    """By the names the engine gives. Args: low, top: extent of the section shown."""
    corbel = ((-g.p, 0.0), (-g.p, -g.h_lip), (0.0, -g.h), (0.0, 0.0))
    wythe = rectangle(-g.x_out, 0.0, -g.x_back, min(6.0, top))
    tie = min(i.veneer_tie_v_in, top - 2.0)
    ledge = Spot((-0.5 * g.p, -0.4 * g.h_lip), corbel)
    below = Spot((0.3 * g.t, 0.7 * low), rectangle(0.0, low, g.t, -g.h))
    bears = rectangle(-max(g.x_edge, g.x_back + 0.25), -0.8, -g.x_back, 0.0)
    return _steel(g) | {
        "": ledge,
        "ledge": ledge,
        "bearing": Spot((-(g.x_edge + g.x_back) / 2, 0.0), bears),
        "concrete": Spot((-0.3 * g.p, -0.7 * g.h_lip), corbel),
        "corner": Spot((-g.p, -g.h_lip / 2), rectangle(-g.p, -g.h_lip, -0.6 * g.p, 0.0)),
        "lip": Spot((-g.x_edge, -g.h_edge), rectangle(-g.x_edge - 0.4, -g.h_edge, -g.x_edge + 0.4, 0.0)),
        "veneer": Spot((-(g.x_back + g.x_out) / 2, 3.0), wythe),
        "veneer-ties": Spot((-(g.x_back + g.f_out) / 2, tie), rectangle(-g.x_cg, tie - 0.5, 0.0, tie + 0.5)),
        "wall": below,
        "wall-below": below,
        "wall-above": Spot((0.3 * g.t, 0.6 * top), rectangle(0.0, 0.0, g.t, top)),
    }


def _steel(g: Ledge) -> dict[str, Spot]:
    half, y = g.d_b / 2, -g.y_top
    layer = -g.ties[0] if g.ties else y - 3.0
    hook = rectangle(max(g.hook_back - 2.0, 0.0), y - 4.0, g.hook_back, y)
    leg = rectangle(-g.x_tip - 0.3, y - max(g.leg, 1.0), -g.x_tip + 1.5, y + 0.3)
    tie = rectangle(-max(g.tie_reach, 1.0), layer - 0.4, g.hook_back, layer + 0.4)
    return {
        "hook": Spot((g.hook_back - half, y - 2.0), hook),
        "stirrup": Spot((-0.4 * g.p, y - half), rectangle(-g.x_tip, y - g.d_b, g.hook_back, y)),
        "ties": Spot((-0.2 * g.p, layer), tie),
        "tip": Spot((-g.x_tip + half, y - 1.0), leg),
    }


def lengths(g: Ledge) -> dict[str, Length]:
    """By the keys of the lines that judge them."""
    hook = Length((0.0, -g.y_top), (g.hook_back, -g.y_top), "in the core")
    return {
        "veneer-bearing": Length((-g.x_edge, 0.0), (-g.x_back, 0.0), "bears"),
        "veneer-overhang": Length((-g.x_out, 0.0), (-g.p, 0.0), "past the lip"),
        "hook": hook,
        "hook-end": hook,
        "edge-depth": Length((-g.x_edge, -g.h_edge), (-g.x_edge, 0.0), "deep"),
        "tip-fit": Length((-g.x_tip, -g.y_corner), (-g.x_tip, -g.y_top), "high"),
    }
