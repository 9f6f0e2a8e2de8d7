"""Places on a ledge and what stands on it where limit states occur."""

from collections.abc import Iterator

from engine.attachments.ledge_seat.geometry import Seat, face_at_depth_in
from engine.attachments.ledge_seat.inputs import Inputs
from webapp.drawings.scene import Length, Spot
from webapp.drawings.shapes import rectangle


def spots(i: Inputs, g: Seat, low: float, top: float, member_top: float) -> dict[str, Spot]:
    """By the names the engine gives. Args: low, top: extent of the section shown. member_top: of the joist [in]."""
    return dict((*_seat(g, member_top), *_wall(i, g, low, top), *(_bolt(i, g) if g.plate_width else ())))


def lengths(i: Inputs, g: Seat) -> dict[str, Length]:
    """By the keys of the lines that judge them."""
    y, middle = g.plate_thickness, g.x_U + g.t_U / 2
    bears = Length((g.bears_from, y), (g.bears_to, y), "bears")
    found = {
        "bearing-code": bears,
        "bearing-drawing": bears,
        "ledge": Length((g.x_B, 0.0), (g.x_E, 0.0), "wide"),
        "lap": Length((middle, 0.0), (middle, i.lap_in), "lapped"),
    }
    if g.plate_width:
        found["bolt-embedment"] = Length((g.x_bolt, -i.bolt_embedment_in), (g.x_bolt, 0.0), "deep")
    return found


def _seat(g: Seat, member_top: float) -> Iterator[tuple[str, Spot]]:
    y = g.plate_thickness
    a, b = g.bears_from, max(g.bears_to, g.bears_from + 0.25)
    under = rectangle(a, 0.0, b, y or 0.75)
    yield "", Spot((g.x_J + 3.0, y + 0.3 * (member_top - y)), rectangle(g.x_J, y, g.x_J + 6.0, member_top))
    yield "bearing", Spot(((a + b) / 2, y / 2), under)
    yield "joist", Spot(((a + b) / 2, y + 0.5), rectangle(a, y, b, min(y + 1.5, member_top)))
    yield "concrete", Spot(((a + b) / 2, -0.5), rectangle(a, -2.0, b, 0.0))
    back, edge = sorted((g.x_B, g.x_E))
    yield "ledge", Spot(((back + edge) / 2, 0.0), rectangle(back, -0.75, edge, 0.0))
    if g.lip_projection > 0:
        corners = ((g.t_L, -g.lip_depth), (g.x_E, 0.0), (g.t_L, 0.0))
        yield "lip", Spot((g.t_L + g.lip_projection / 3, -0.8), corners)


def _wall(i: Inputs, g: Seat, low: float, top: float) -> Iterator[tuple[str, Spot]]:
    lap, middle = min(i.lap_in, top), g.x_U + g.t_U / 2
    beside = rectangle(middle - 1, 0.0, middle + 1, lap)
    yield "wall", Spot((g.t_L / 2, 0.6 * low), rectangle(0.0, low, g.t_L, -0.5))
    yield "bars", Spot((middle, lap / 2), beside)


def _bolt(i: Inputs, g: Seat) -> Iterator[tuple[str, Spot]]:
    d, foot, x = float(i.bolt), -i.bolt_embedment_in, g.x_bolt
    yield "anchor", Spot((x, 0.75 * foot), rectangle(x - d, foot, x + d, 0.0))
    plate = rectangle(g.x_P, 0.0, g.plate_edge, g.plate_thickness)
    yield "plate", Spot(((g.x_P + g.plate_edge) / 2, g.plate_thickness / 2), plate)
    near, far = sorted((x, face_at_depth_in(g, -foot)))
    yield "cover", Spot(((near + far) / 2, foot), rectangle(near, foot, far, foot + 1.0))
