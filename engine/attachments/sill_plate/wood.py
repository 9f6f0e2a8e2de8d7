"""Lines about the plate's wood at its bolts, allowable stress: washers, dowels along and across the grain, edges."""

from collections.abc import Iterator

from engine.attachments.sill_plate.bolts import washer
from engine.attachments.sill_plate.demand import Acting, gravest
from engine.attachments.sill_plate.geometry import Sill
from engine.attachments.sill_plate.inputs import Inputs
from engine.clauses.us.irc_loads import load_per_bolt_lb
from engine.clauses.us.sill_lines import PlateBolts, Push, dowel, net_pull_lb, washer_bearing
from engine.clauses.us.sill_rules import bolt_share_in
from engine.clauses.us.timber_geometry import edge_parallel_in, loaded_edge_in
from engine.result import LimitState
from engine.worksheet import Worksheet, cite


def lines(sheet: Worksheet, i: Inputs, p: Sill, b: PlateBolts, acts: tuple[Acting, ...]) -> tuple[LimitState, ...]:
    """Of every line the gravest over the combinations. Args: acts: allowable combinations."""
    found = gravest(line for act in acts for line in _under(sheet, i, p, b, act))
    return (*found, *_edge(sheet, b, acts))


def _under(sheet: Worksheet, i: Inputs, p: Sill, b: PlateBolts, act: Acting) -> Iterator[LimitState]:
    length = sheet.use(bolt_share_in, s_in=i.spacing_in, e_in=i.end_in)
    pull = sheet.use(net_pull_lb, k_W=act.c.W, W_plf=act.plate.up.W, k_D=act.c.D, D_plf=act.plate.down.D, l_in=length)
    if pull and (under := washer(i, p)):
        yield washer_bearing(sheet, b, pull, under, act.c.label)
    along = sheet.use(load_per_bolt_lb, w_plf=act.along_plf, s_in=length)
    across = sheet.use(load_per_bolt_lb, w_plf=act.across_plf, s_in=length)
    takes = "plate and bolt take {capacity}"
    if along:
        yield dowel(
            sheet, b, Push(along, 0.0, act.C_D, act.c.label), "bolt-dowel-along", "Plate on the bolts, along the wall",
            f"Shear pushes {{demand}} on a bolt along the wall; {takes}",
        )  # fmt: skip
    if across:
        yield dowel(
            sheet, b, Push(0.0, across, act.C_D, act.c.label), "bolt-dowel", "Plate on the bolts, across the wall",
            f"{{demand}} pushes on a bolt across the wall; {takes}",
        )  # fmt: skip
    if along and across:
        yield dowel(
            sheet, b, Push(along, across, act.C_D, act.c.label), "bolt-dowel-both", "Plate on the bolts, both ways",
            f"Along and across together push {{demand}} on a bolt, at an angle to the grain; {takes}",
        )  # fmt: skip
    sheet.take()


def _edge(sheet: Worksheet, b: PlateBolts, acts: tuple[Acting, ...]) -> tuple[LimitState, ...]:
    """Wood beside the bolts: a push across the grain may come from either side, so both edges are loaded ones."""
    there = min(b.across_in, b.b_in - b.across_in)
    if any(act.across_plf for act in acts):
        rule, need = loaded_edge_in, sheet.use(loaded_edge_in, D_in=b.D_in)
        say = "The bolts are {capacity} from the plate's nearer edge; pushed across the grain they need {demand}."
    elif any(act.along_plf for act in acts):
        rule, need = edge_parallel_in, sheet.use(edge_parallel_in, D_in=b.D_in, l_in=b.t_in, s_row_in=0.0)  # type: ignore[assignment]
        say = "The bolts are {capacity} from the plate's nearer edge; pushed along the grain they need {demand}."
    else:
        return ()
    return (
        LimitState(
            "bolt-wood-edge", "Bolt to the plate's edge", cite(rule), need, there, "in", say=say, spot="anchor",
            steps=sheet.take(),
        ),
    )  # fmt: skip
