"""A wall alone, for inputs whose geometry contradicts itself: what is known is drawn, what is missing is named."""

from typing import Any

from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Scene, Spot, ViewPlan
from webapp.drawings.shapes import Area, Material, Pen, Shape, rectangle

HEIGHT = 24.0
FOAM_NAMES = ("foam_in", "foam_inner_in", "foam_lower_in")
CORE_NAMES = ("core_in", "lower_core_in")


def plan(inputs: Any, why: str) -> tuple[ViewPlan, ...]:
    """Core and room-side foam, as far as the inputs give them. Args: why: what is wrong, a full sentence."""
    return (ViewPlan(lambda frame: _scene(inputs, why, frame)),)


def _first(inputs: Any, names: tuple[str, ...]) -> float:
    return next((float(getattr(inputs, name)) for name in names if hasattr(inputs, name)), 0.0)


def _scene(inputs: Any, why: str, frame: Frame) -> Scene:
    core, foam = _first(inputs, CORE_NAMES), _first(inputs, FOAM_NAMES)
    ends = (parts.BOTTOM, parts.TOP)
    shapes: list[Shape] = []
    stops, names = [0.0], []
    if core:
        shapes.append(Area(rectangle(-core, 0.0, 0.0, HEIGHT), Material.CONCRETE, Pen.CUT, ends))
        stops, names = [-core, 0.0], ["core"]
    if foam:
        shapes += parts.panel(0.0, foam, 0.0, HEIGHT, ends)
        stops, names = [*stops, foam], [*names, "room-side foam"]
    shapes += parts.breaks(((stops[0], 0.0), (stops[-1], 0.0)), ((stops[0], HEIGHT), (stops[-1], HEIGHT)))
    scale = frame.scale(core + foam + 1.0, HEIGHT)
    window = ((stops[0], 0.0), (max(frame.width / scale + stops[0], stops[-1] + 1.0), HEIGHT))
    chains = (Chain("top", tuple(stops), tuple(names), HEIGHT, phone=tuple(range(len(stops)))),) if names else ()
    whole = Spot((0.0, HEIGHT / 2))
    return Scene(
        "Wall", window, tuple(shapes), chains, spots={"": whole}, missing=(f"what it carries. {why.rstrip('.')}",)
    )
