"""A beam end in a pocket of the wall."""

from engine.attachments.beam_pocket.geometry import Pocket, geometry
from engine.attachments.beam_pocket.inputs import Inputs

__all__ = ["Inputs", "Pocket", "geometry"]
