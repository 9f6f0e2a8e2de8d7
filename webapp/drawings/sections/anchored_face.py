"""The face of an anchored plate from the room: anchors, legs and member cut, every distance on the plate."""

from engine.attachments.anchored_plate.geometry import Bracket
from engine.attachments.anchored_plate.inputs import Inputs
from webapp.drawings.scene import Chain, Frame, Scene, Spot
from webapp.drawings.shapes import Area, Disc, Material, Pen, Shape, rectangle

BESIDE = 3.0


def face(i: Inputs, g: Bracket, frame: Frame) -> Scene:
    """The plate with everything on it, cut just before the legs' ends."""
    half_w, half_h = g.width / 2, g.height / 2
    member_z = g.member_z or (-half_w, half_w)
    low, high = min(-half_h, g.member_y[0]), max(half_h, g.member_y[1])
    side = max(half_w, -member_z[0], member_z[1])
    shapes: list[Shape] = [Area(rectangle(-half_w, -half_h, half_w, half_h), Material.STEEL_SEEN, Pen.CUT_LIGHT)]
    if g.member_z is not None:
        shapes.append(Area(rectangle(*_corners(g)), Material.WOOD_CUT, Pen.CUT_LIGHT))
    for z0, z1 in g.legs:
        shapes.append(Area(rectangle(z0, -g.leg_height / 2, z1, g.leg_height / 2), Material.STEEL_CUT))
    for z, y in g.anchors:
        shapes.append(Disc((z, y), 0.9 * g.d_a, False, Pen.SEEN))
        shapes.append(Disc((z, y), g.d_a / 2))
    columns = (-half_w, *g.columns, half_w)
    rows = (-half_h, *reversed(g.rows), half_h)
    chains = (
        Chain("bottom", columns, _names("side of the plate to the anchors", "between columns", len(g.columns)), low,
              "plate width", tuple(range(len(columns)))),
        Chain("left", rows, _names("plate's edge to the anchors", "between rows", len(g.rows)), -side, "plate height",
              tuple(range(len(rows)))),
    )  # fmt: skip
    by = 1.5 * g.d_a
    anchors = rectangle(g.columns[0] - by, g.rows[-1] - by, g.columns[-1] + by, g.rows[0] + by)
    window = ((-side - 0.3, low), (side + BESIDE, high))
    found = {"anchors": Spot((g.columns[-1], g.rows[0]), anchors)}
    return Scene("The plate from the room", window, tuple(shapes), chains, spots=found)


def _corners(g: Bracket) -> tuple[float, float, float, float]:
    assert g.member_z is not None
    return g.member_z[0], g.member_y[0], g.member_z[1], g.member_y[1]


def _names(end: str, between: str, count: int) -> tuple[str, ...]:
    return (end, *[between] * (count - 1), end)
