"""Tables. Nothing here computes; services read and write them."""

from webapp.models.attachment import Attachment
from webapp.models.audit import Audit
from webapp.models.base import Base
from webapp.models.floor_line import FloorLine
from webapp.models.job import Job
from webapp.models.log_entry import LogEntry, LogFile
from webapp.models.office import Office
from webapp.models.person import Attempt, Person, Setup, Signed
from webapp.models.review import Checklist, Design, Photo, Release, ReviewItem
from webapp.models.revision import LinkUse, ReviewLink, Revision
from webapp.models.token import Token
from webapp.models.wall import Wall, WallType

__all__ = [
    "Attachment",
    "Attempt",
    "Audit",
    "Base",
    "Checklist",
    "Design",
    "FloorLine",
    "Job",
    "LinkUse",
    "LogEntry",
    "LogFile",
    "Office",
    "Person",
    "Photo",
    "Release",
    "ReviewItem",
    "ReviewLink",
    "Revision",
    "Setup",
    "Signed",
    "Token",
    "Wall",
    "WallType",
]
