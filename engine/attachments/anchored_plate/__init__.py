"""An anchored steel plate or angle that carries a joist, a beam or a ledger off the wall's face."""

from engine.attachments.anchored_plate.geometry import Bracket, geometry
from engine.attachments.anchored_plate.inputs import Inputs

__all__ = ["WIDTH", "Bracket", "Inputs", "geometry"]

WIDTH = "width_in"  # the input that says how much of the wall it takes
