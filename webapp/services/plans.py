"""A job in plan: its walls as built, its attachments by their kept summaries, where their joists stand."""

from dataclasses import dataclass

from sqlalchemy.orm import Session

from engine import attachments as kinds
from engine import fields
from engine.placed import Place
from engine.wall import Wall
from webapp.services import attachments, setting_out
from webapp.services.attachments import AttachmentRow
from webapp.services.listing import Wanted

MOST_JOISTED = 80  # attachments of a level: more of them are drawn without the joists they carry


@dataclass(frozen=True, slots=True)
class Hung:
    """An attachment with its place read. Args: joists: stations of those it carries [in]."""

    row: AttachmentRow
    place: Place
    joists: tuple[float, ...] = ()

    @property
    def end_ft(self) -> float | None:
        """Where it ends; None at a point."""
        kind = kinds.KINDS.get(self.row.kind)
        return None if kind is not None and kind.point else self.place.end_ft


@dataclass(frozen=True, slots=True)
class JobPlan:
    """One floor level of a job. Args: walls: those that can be built, in order. levels: how many the job has."""

    walls: tuple[Wall, ...]
    hung: tuple[Hung, ...]
    levels: int
    unfit: tuple[str, ...] = ()


def of_job(session: Session, job_id: int, level: int) -> JobPlan:
    """A floor level of a job; the nearest one it has. Raises: Missing."""
    laid = setting_out.of_job(session, job_id)
    walls = tuple(laid.standing.plan.walls.values())
    levels = max((len(wall.storeys) for wall in walls), default=0)
    level = max(1, min(level, levels))
    found = [hung for row in attachments.everything(session, job_id, Wanted(sort="tag")) if (hung := _hung(row))]
    here = [hung for hung in found if hung.place.level == level]
    joists = _joists(laid, here) if len(here) <= MOST_JOISTED else {}
    shown = tuple(Hung(one.row, one.place, joists.get(one.row.tag, ())) for one in here)
    return JobPlan(walls, shown, levels, tuple(laid.standing.plan.unfit.values()))


def _hung(row: AttachmentRow) -> Hung | None:
    place, _ = fields.read(Place, {"level": str(row.level), "start_ft": row.start, "end_ft": row.end})
    return None if place is None else Hung(row, place)


def _joists(laid: setting_out.Layout, here: list[Hung]) -> dict[str, tuple[float, ...]]:
    """Stations of the joists each attachment carries, by tag [in]."""
    used = {hung.row.wall for hung in here}
    outs = [laid.wall(wall_id) for wall_id, row in laid.standing.walls.items() if row.name in used]
    return {entry.tag: entry.stations("joist") for out in outs for entry in out.entries if entry.stations("joist")}
