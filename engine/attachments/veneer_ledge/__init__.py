"""A ledge of the core, run out through the outer foam, that carries masonry veneer."""

from engine.attachments.veneer_ledge.geometry import Ledge, geometry
from engine.attachments.veneer_ledge.inputs import Inputs

__all__ = ["Inputs", "Ledge", "geometry"]
