"""Every kind of drawing for the component page, of the demo job and of the newcomer's cases."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from markupsafe import Markup

from engine import attachments, fields, job_file, set_job
from engine.editions import US_2021
from engine.job import Job, Plan, plan
from engine.placed import Place
from engine.placing import Inputs, placing_plan, runs
from engine.setting_out import SettingOut
from engine.takeoff import bar_list, takeoff
from webapp.drawings import section_svg
from webapp.drawings.bar_shapes import bar_svg
from webapp.drawings.elevation import elevation_svg
from webapp.drawings.plan import plan_svg
from webapp.drawings.plan_words import Carried
from webapp.drawings.pressure import pressure_svg
from webapp.services import checks, demo

MOST_BARS = 6


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing and what it is. Args: small: several of its kind stand beside each other."""

    words: str
    drawing: Markup
    small: bool = False


class Demo:
    """The demo job, read from its file; nothing of a database."""

    @cached_property
    def job(self) -> Job:
        """As typed."""
        return job_file.read(demo.text())

    @cached_property
    def plan(self) -> Plan:
        """Its walls, built."""
        return plan(self.job)

    def set_out(self, wall: str) -> tuple[SettingOut, ...]:
        """One wall set out."""
        return set_job.set_wall(self.plan, wall, self.job.attachments, set_job.asked(self.job, self.plan))

    def carried(self, level: int) -> Iterator[Carried]:
        """What stands at a floor level, with its verdict."""
        for entry, found in zip(self.job.attachments, checks.whole(self.job, self.job.edition), strict=True):
            place, _ = fields.read(Place, entry.place_texts)
            if place is not None and place.level == level and found.result is not None:
                kind = attachments.kind(entry.kind)
                yield Carried(
                    entry.tag, entry.kind, kind.name, entry.wall, level, place.start_ft, place.end_ft,
                    found.result.verdict.value,
                )  # fmt: skip


def every_drawing() -> list[Drawn]:
    """Sections of every kind, a plan, an elevation, a pressure diagram, bars as they are bent."""
    of_demo = Demo()
    first = next(iter(of_demo.plan.walls))
    placed = placing_plan(Inputs(form_pressure_psf=715.0), runs(list(of_demo.plan.walls.values()), 1), US_2021)
    return [
        *_sections(),
        Drawn(
            "Plan",
            Markup(plan_svg(list(of_demo.plan.walls.values()), list(of_demo.carried(1)), {}, prefix="show-plan")),
        ),
        Drawn(
            "Elevation",
            Markup(elevation_svg(of_demo.plan.walls[first], of_demo.set_out(first), prefix="show-elevation")),
        ),
        Drawn("Pressure diagram", Markup(pressure_svg(placed, prefix="show-pressure"))),
        *_bars(of_demo.job),
    ]


def _sections() -> Iterator[Drawn]:
    for kind in checks.offered():
        found = checks.judge(kind.key, {}, US_2021.key)
        yield Drawn(kind.name, Markup(section_svg(kind.key, found.inputs, found.result, prefix=f"show-{kind.key}")))


def _bars(job: Job) -> Iterator[Drawn]:
    """One bar of each shape, the first few."""
    shapes = {line.shape.words: line.shape for line in bar_list(takeoff(job).rows)}
    for number, (words, shape) in enumerate(list(shapes.items())[:MOST_BARS]):
        yield Drawn(words, Markup(bar_svg(shape, prefix=f"show-bar-{number}")), small=True)
