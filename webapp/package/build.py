"""The whole document: parts typeset two at a time, each in a process of its own that ends with it, bound in order.

A process's memory is its part's; nothing of it stays. So a job four times as large takes four times as long and no more room.
"""

import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from json import dumps
from multiprocessing import get_context
from multiprocessing.connection import wait
from multiprocessing.context import ForkProcess
from pathlib import Path
from tempfile import TemporaryDirectory
from traceback import format_exc
from typing import Any, BinaryIO

from webapp.package import attachment, back, front, pour
from webapp.package.bind import Binder, Bound
from webapp.package.frozen import Frozen
from webapp.package.once import first_places
from webapp.package.order import Order
from webapp.package.pdf import Part
from webapp.package.spool import Spool, brief
from webapp.package.typeset import typeset

TOGETHER = 12  # attachments typeset together: fewer carry their fonts more often, more need more room
AT_ONCE = max(2, min(4, os.cpu_count() or 2))  # processes; one for each core, few enough to leave room for the pages
FORK = get_context("fork")
Said = Callable[[int, int], None]


class PartFailed(Exception):
    """A part could not be typeset; why, in words for the log."""


def build(order: Order, out: BinaryIO, said: Said = lambda done, total: None) -> None:
    """An order as PDF.

    Args: said: told how many steps are done, of how many. Raises: PartFailed. To be called where nothing was typeset yet: the
    processes are copies of this one, and the typesetter's own threads are not copied with it.
    """
    binder = Binder(out)
    order.sheet()  # its code is drawn here once: the processes are copies and know it
    if order.what == "log":
        record = partial(_part, "record", order.sheet(), order.content, order.made_at)
        binder.end([binder.add(Part.of(made)) for made in _typeset([record])], ["Log"])
        return
    frozen = Frozen(_document(order))
    every = range(len(frozen.attachments))
    groups = [every[at : at + TOGETHER] for at in range(0, len(every), TOGETHER)]
    whole, worked = _read_through(frozen)
    tasks = [  # what takes longest first, so that no core is left with it at the end
        *(partial(_attachments, order, frozen, group, worked) for group in groups),
        *([partial(_placing, order, whole)] if pour.pours(whole) else []),
        *(partial(_setting_out, order, whole, lot) for lot in range(len(back.by_walls(whole)))),
        partial(_back, order, whole),
    ]
    total = len(tasks) + 2
    said(0, total)
    bound: list[Bound] = []
    for made in _typeset(tasks):
        bound.append(binder.add(Part.of(made)))
        said(len(bound), total)
    middle, last = bound[: len(groups)], bound[len(groups) :]
    (made,) = _typeset([partial(_front, order, whole, _counts(whole, middle))])
    said(total - 1, total)
    binder.end([binder.add(Part.of(made)), *middle, *last], list(_names(whole)))
    said(total, total)


def _read_through(frozen: Frozen) -> tuple[Frozen, Mapping[bytes, str]]:
    """The document with its attachments in brief, and where each working stands in full; each is read once."""
    briefs = []

    def read() -> Iterator[Mapping[str, Any]]:
        for one in frozen.attachments:
            briefs.append(brief(one))
            yield one

    worked = first_places(read())
    return Frozen({**frozen.document, "attachments": briefs}), worked


def _typeset(tasks: Sequence[Callable[[], bytes]]) -> Iterator[bytes]:
    """What each task makes, in their order, a few at a time. Raises: PartFailed for one that fails or is ended from outside."""
    with TemporaryDirectory() as folder:
        files = [Path(folder) / str(number) for number in range(len(tasks))]
        processes = [FORK.Process(target=_into, args=pair, daemon=True) for pair in zip(tasks, files, strict=True)]
        waiting, running = processes[::-1], list[ForkProcess]()
        try:
            for process, file in zip(processes, files, strict=True):
                while process in waiting or process in running:
                    running = [one for one in running if one.is_alive()]
                    while waiting and len(running) < AT_ONCE:
                        running.append(waiting.pop())
                        running[-1].start()
                    if process in running:
                        wait([one.sentinel for one in running])
                if process.exitcode != 0:
                    raise PartFailed(file.read_text() if file.exists() else f"ended with {process.exitcode}")
                yield file.read_bytes()
                file.unlink()
        finally:
            for process in running:
                process.kill()


def _into(task: Callable[[], bytes], file: Path) -> None:
    """In its own process: what a task makes into a file, or why it made nothing."""
    try:
        file.write_bytes(task())
    except Exception:
        file.write_text(format_exc())
        os._exit(1)
    os._exit(0)  # nothing of the copied process is to be tidied up twice


def _document(order: Order) -> Mapping[str, Any]:
    if order.what == "revision":
        return order.content
    from webapp.package.draft import document  # what only a draft needs is loaded only for one

    found = document(order.content)
    return {**found, "attachments": Spool(map(dumps, found.pop("attachments")))}


def _part(name: str, sheet: Mapping[str, Any], it: Any, made_at: int) -> bytes:
    return typeset({"sheet": {**sheet, "part": name}, "it": it}, made_at)


def _attachments(order: Order, frozen: Frozen, group: range, worked: Mapping[bytes, str]) -> bytes:
    made = [attachment.sheet(frozen, frozen.attachments[at], worked) for at in group]
    return _part("attachments", order.sheet(), made, order.made_at)


def _front(order: Order, frozen: Frozen, counts: Mapping[str, int]) -> bytes:
    sheet = order.sheet() | {"sheets": sum(counts.values())}
    return _part("front", sheet, front.sheets(frozen, counts), order.made_at)


def _placing(order: Order, frozen: Frozen) -> bytes:
    return _part("placing", order.sheet(), pour.sheets(frozen), order.made_at)


def _setting_out(order: Order, frozen: Frozen, lot: int) -> bytes:
    return _part("setting-out", order.sheet(), back.setting_out(frozen, lot), order.made_at)


def _back(order: Order, frozen: Frozen) -> bytes:
    return _part("back", order.sheet(), back.sheets(frozen, order.lists), order.made_at)


def _counts(frozen: Frozen, parts: Sequence[Bound]) -> dict[str, int]:
    """How many sheets each attachment takes."""
    counts: list[int] = []
    for part in parts:
        starts = [page for _, page in part.headings]
        counts += [end - start for start, end in zip(starts, [*starts[1:], len(part.pages)], strict=True)]
    return {one["tag"]: count for one, count in zip(frozen.attachments, counts, strict=True)}


def _names(frozen: Frozen) -> Iterator[str]:
    """What each chapter's sheets are counted under, in order, as in the templates; plans are numbered on."""
    yield from ("Cover", "Assumptions", "Summary")
    yield from (f"Plan {n}" for n in range(1, front.levels(frozen) + 1))
    yield from (str(one["tag"]) for one in frozen.attachments)
    yield from (f"Placing {n}" for n in range(1, len(pour.pours(frozen)) + 1))
    yield from back.chapters(frozen)
    yield from ("Takeoff", "Checklists", "Sources")
