"""A wood ledger bolted to the side of the wall."""

from engine.attachments.bolted_ledger.geometry import geometry
from engine.attachments.bolted_ledger.inputs import Inputs

__all__ = ["Inputs", "geometry"]
