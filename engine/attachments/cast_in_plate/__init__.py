"""A steel plate cast in through the foam, or a bracket or hanger, that takes a joist by screws."""

from engine.attachments.cast_in_plate.geometry import Plate, geometry
from engine.attachments.cast_in_plate.inputs import Inputs

__all__ = ["Inputs", "Plate", "geometry"]
