"""A sill plate bolted to the top of a wall or to a ledge."""

from engine.attachments.sill_plate.geometry import Sill, geometry
from engine.attachments.sill_plate.inputs import Inputs

__all__ = ["Inputs", "Sill", "geometry"]
