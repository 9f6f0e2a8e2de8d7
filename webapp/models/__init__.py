"""Tables. Nothing here computes; services read and write them."""

from webapp.models.attachment import Attachment
from webapp.models.base import Base
from webapp.models.job import Job
from webapp.models.wall import Wall, WallType

__all__ = ["Attachment", "Base", "Job", "Wall", "WallType"]
