"""Places on a veneer ledge where limit states occur."""

from engine.attachments.veneer_ledge.geometry import Ledge
from engine.attachments.veneer_ledge.inputs import Inputs
from webapp.drawings.scene import Spot
from webapp.drawings.shapes import rectangle


def spots(i: Inputs, g: Ledge, low: float, top: float) -> dict[str, Spot]:
    """By the names the engine gives. Args: low, top: extent of the section shown."""
    edge = -g.x_edge
    bears = rectangle(min(edge, -g.x_back - 0.25), -0.8, -g.x_back, 0.0)
    wythe = rectangle(-g.x_out, 0.0, -g.x_back, min(6.0, top))
    corbel = ((-g.p, 0.0), (-g.p, -g.h_lip), (0.0, -g.h), (0.0, 0.0))
    half = g.d_b / 2
    hook = rectangle(max(g.hook_back - 2.0, 0.0), -g.y_top - 4.0, g.hook_back, -g.y_top)
    leg = rectangle(-g.x_tip - 0.3, -g.y_top - max(g.leg, 1.0), -g.x_tip + 1.5, -g.y_top + 0.3)
    tie = min(i.veneer_tie_v_in, top - 2.0)
    layer = -g.ties[0] if g.ties else -g.y_top - 3.0
    ledge = Spot((-0.5 * g.p, -0.4 * g.h_lip), corbel)
    below = Spot((0.3 * g.t, 0.7 * low), rectangle(0.0, low, g.t, -g.h))
    return {
        "": ledge,
        "ledge": ledge,
        "bearing": Spot(((edge - g.x_back) / 2, 0.0), bears, ((edge, 0.0), (-g.x_back, 0.0)), "bears"),
        "concrete": Spot((-0.3 * g.p, -0.7 * g.h_lip), corbel),
        "corner": Spot((-g.p, -g.h_lip / 2), rectangle(-g.p, -g.h_lip, -0.6 * g.p, 0.0)),
        "hook": Spot(
            (g.hook_back - half, -g.y_top - 2.0), hook, ((0.0, -g.y_top), (g.hook_back, -g.y_top)), "in the core"
        ),
        "lip": Spot(
            (edge, -g.h_edge),
            rectangle(edge - 0.4, -g.h_edge, edge + 0.4, 0.0),
            ((edge, -g.h_edge), (edge, 0.0)),
            "deep",
        ),
        "stirrup": Spot((-0.4 * g.p, -g.y_top - half), rectangle(-g.x_tip, -g.y_top - g.d_b, g.hook_back, -g.y_top)),
        "ties": Spot((-0.2 * g.p, layer), rectangle(-max(g.tie_reach, 1.0), layer - 0.4, g.hook_back, layer + 0.4)),
        "tip": Spot((-g.x_tip + half, -g.y_top - 1.0), leg, ((-g.x_tip, -g.y_corner), (-g.x_tip, -g.y_top)), "high"),
        "veneer": Spot((-(g.x_back + g.x_out) / 2, 3.0), wythe),
        "veneer-ties": Spot((-(g.x_back + g.f_out) / 2, tie), rectangle(-g.x_cg, tie - 0.5, 0.0, tie + 0.5)),
        "wall": below,
        "wall-below": below,
        "wall-above": Spot((0.3 * g.t, 0.6 * top), rectangle(0.0, 0.0, g.t, top)),
    }
