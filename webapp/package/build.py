"""The whole document: parts typeset two at a time, each in a process of its own that ends with it, bound in order.

A process's memory is its part's; nothing of it stays. So a job four times as large takes four times as long and no more room.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from multiprocessing import get_context
from typing import Any

from webapp.package import attachment, back, front
from webapp.package.bind import Binder, Bookmark
from webapp.package.frozen import Frozen
from webapp.package.letters import readable
from webapp.package.order import Order
from webapp.package.pdf import Part
from webapp.package.typeset import typeset

TOGETHER = 8  # attachments typeset together: fewer carry their fonts more often, more need more room
AT_ONCE = 2
Said = Callable[[int, int], None]
_order: Order
_frozen: Frozen


def build(order: Order, said: Said = lambda done, total: None) -> bytes:
    """An order as PDF. Args: said: told how many steps are done, of how many. Raises: typst.TypstError."""
    if order.what == "log":
        return _bound([Part.of(_part("record", order.sheet(), order.content, order.made_at))], ["Log"])
    frozen = Frozen(_document(order))
    groups = [
        range(at, min(at + TOGETHER, len(frozen.attachments))) for at in range(0, len(frozen.attachments), TOGETHER)
    ]
    total = len(groups) + 2
    said(0, total)
    sheets: list[bytes] = []
    global _order, _frozen
    _order, _frozen = order, frozen  # the processes that typeset are copies of this one
    with get_context("fork").Pool(AT_ONCE, maxtasksperchild=1) as pool:
        rest = pool.apply_async(_back)
        for done, made in enumerate(pool.imap(_attachments, groups), 1):
            sheets.append(made)
            said(done, total)
        parts = [Part.of(made) for made in sheets]
        counts = _counts(frozen, parts)
        first = pool.apply(_front, (counts,))
        said(total - 1, total)
        last = rest.get()
    whole = _bound([Part.of(first), *parts, Part.of(last)], list(_names(frozen)))
    said(total, total)
    return whole


def _document(order: Order) -> Mapping[str, Any]:
    if order.what == "revision":
        return order.content
    from webapp.package.draft import document  # what only a draft needs is loaded only for one

    return document(order.content)


def _part(name: str, sheet: Mapping[str, Any], it: Any, made_at: int) -> bytes:
    return typeset({"sheet": {**sheet, "part": name}, "it": it}, made_at)


def _attachments(group: range) -> bytes:
    made = [attachment.sheet(_frozen, _frozen.attachments[at]) for at in group]
    return _part("attachments", _order.sheet(), made, _order.made_at)


def _front(counts: Mapping[str, int]) -> bytes:
    sheet = _order.sheet() | {"sheets": sum(counts.values())}
    return _part("front", sheet, front.sheets(_frozen, counts), _order.made_at)


def _back() -> bytes:
    return _part("back", _order.sheet(), back.sheets(_frozen, _order.lists), _order.made_at)


def _counts(frozen: Frozen, parts: Sequence[Part]) -> dict[str, int]:
    """How many sheets each attachment takes."""
    counts: list[int] = []
    for part in parts:
        starts = [page for _, page in part.headings()]
        counts += [end - start for start, end in zip(starts, [*starts[1:], len(part.pages)], strict=True)]
    return {one["tag"]: count for one, count in zip(frozen.attachments, counts, strict=True)}


def _names(frozen: Frozen) -> Iterator[str]:
    """What each chapter's sheets are counted under, in order, as in the templates; plans are numbered on."""
    yield from ("Cover", "Assumptions", "Summary")
    yield from (f"Plan {n}" for n in range(1, front.levels(frozen) + 1))
    yield from (str(one["tag"]) for one in frozen.attachments)
    yield from ("Setting out", "Takeoff", "Checklists", "Sources")


def _bound(parts: Sequence[Part], names: Sequence[str]) -> bytes:
    """Parts in order as one document, its chapters in the outline and in how its pages are called."""
    binder, starts, titles = Binder(), [], []
    for part in parts:
        before = len(binder.pages)
        for title, page in part.headings():
            starts.append(before + page)
            titles.append(title)
        binder.add(part)
    marks = [Bookmark(title, page) for title, page in zip(titles, starts, strict=True)]
    labels = [(page, f"{readable(name)}, ") for page, name in zip(starts, names, strict=True)]
    return binder.bound(marks, labels)
