"""What a file of the job as it stands says of where it comes from: it is a draft, and which revision was frozen last."""

from engine import VERSION
from webapp.models import Job
from webapp.services import revisions
from webapp.store import Database, reading
from webapp.submission.document import short


def drafted(db: Database, job: Job) -> str:
    """The day, and the last submitted revision with its fingerprint in short."""
    with reading(db) as session:
        last = revisions.latest(session, job.id)
    since = f"last submitted: revision {last.letter}, {short(last.fingerprint)}" if last else "none submitted yet"
    return f"draft of {job.updated_at:%Y-%m-%d}; {since}"


def checked_by(job: Job) -> str:
    """The edition set and the program's version."""
    return f"{job.edition}, Wallseat engine {VERSION}"
