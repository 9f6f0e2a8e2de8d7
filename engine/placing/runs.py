"""Walls as concrete fills them: one storey of each, with what its openings leave and what its forms may carry."""

from collections.abc import Sequence
from dataclasses import dataclass

from engine.errors import BadInput
from engine.wall import Opening, Wall


@dataclass(frozen=True, slots=True)
class Run:
    """One storey of one wall. Heights are above that storey's floor; `form_psf` is None where no pressure was typed."""

    name: str
    length_ft: float
    height_ft: float
    core_in: float
    web_across_in: float
    web_up_in: float
    form_psf: float | None = None
    openings: tuple[Opening, ...] = ()

    def net_area_ft2(self, z_1_ft: float, z_2_ft: float) -> float:
        """Face of wall less openings between two heights [ft²]."""
        top = min(z_2_ft, self.height_ft)
        if top <= z_1_ft:
            return 0.0
        open_ft2 = sum(o.width_ft * max(min(o.head_ft, top) - max(o.sill_ft, z_1_ft), 0.0) for o in self.openings)
        return max(self.length_ft * (top - z_1_ft) - open_ft2, 0.0)


def run(wall: Wall, level: int) -> Run:
    """The storey below floor level `level` of a wall. Raises: BadInput for a level the wall has not."""
    kind, _, storey = wall.at_level(level)
    return Run(
        name=wall.name,
        length_ft=wall.line.length_ft,
        height_ft=storey.height_ft,
        core_in=kind.core_in,
        web_across_in=kind.web_spacing_in,
        web_up_in=kind.course_in,
        form_psf=kind.form_pressure_psf,
        openings=tuple(o for o in wall.openings if o.storey == level),
    )


def runs(walls: Sequence[Wall], level: int) -> tuple[Run, ...]:
    """That storey of every wall that has it. Raises: BadInput where none has."""
    found = tuple(run(wall, level) for wall in walls if 1 <= level <= len(wall.storeys))
    if not found:
        raise BadInput("level", f"No wall has a storey {level}.")
    return found
