"""A gable end of cut courses: the forms and their offcuts, the concrete by lifts, the plate along the rakes."""

from engine.attachments.gable_end.geometry import Gable, geometry
from engine.attachments.gable_end.inputs import Inputs

__all__ = ["Gable", "Inputs", "geometry"]
