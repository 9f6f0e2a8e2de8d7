"""Parts bound into one PDF. Each comes from the typesetter, tagged and complete in itself; here they become chapters of one.

The tree of tags is kept whole: every part's becomes a Part of one Document, its numbers moved on, its names made its own.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import BinaryIO

from webapp.package.letters import readable
from webapp.package.pdf import Number, Part, Thing, Writer, reference, segments, string

REFERENCE = re.compile(rb"(\d+) 0 R")
KEY = re.compile(rb"/StructParent(s?) (\d+)")


@dataclass(frozen=True, slots=True)
class Bookmark:
    """An entry of the outline. Args: title: words. page: from 0, in the whole document."""

    title: str
    page: int


@dataclass(frozen=True, slots=True)
class Bound:
    """A part in its place. Args: tag: its topmost one. pages: their numbers. headings: words and pages from 0 of its own."""

    tag: Number
    pages: Sequence[Number]
    headings: Sequence[tuple[str, int]]


def _moved(body: bytes, by: int, own: bytes) -> bytes:
    """A body with every reference moved on, and the names that tags know each other by made the part's own."""
    if b"(" not in body:
        return _shift(body, by)
    made: list[bytes] = []
    for is_string, piece in segments(body):
        if is_string:
            before = made[-1] if made else b""
            named = before.endswith((b"/ID", b"Headers[")) or (
                before == b"" and len(made) > 1 and made[-2].startswith(b"(" + own)
            )
            made.append(b"(" + own + piece[1:] if named else piece)
        else:
            made.append(_shift(piece, by))
    return b"".join(made)


def _shift(piece: bytes, by: int) -> bytes:
    return REFERENCE.sub(lambda m: b"%d 0 R" % (int(m[1]) + by), piece)


def _of_outline(body: bytes) -> bool:
    """Whether an object is an outline or an entry of one."""
    return b"/Type/Outlines" in body or (b"/Type" not in body and b"/Parent " in body and b"/Dest " in body)


class Binder:
    """Binds parts as they come; in which order they are read is said at the end. Nothing of a part is kept once it is written.

    Object 1 is the tree of pages, 2 the document's tag, 3 the root of tags.
    """

    def __init__(self, out: BinaryIO) -> None:
        self.file = Writer(out, first=4)
        self.bound: list[Bound] = []
        self.parents: list[tuple[int, bytes]] = []
        self.names: list[tuple[bytes, bytes]] = []
        self.roles = self.root = b""
        self.key = self.info = 0

    def add(self, part: Part) -> Bound:
        """The next part; the first one brings what is said of the whole document."""
        by, own = self.file.reserve(max(part.things)), b"p%03d." % len(self.bound)
        root = part.things[part.root].body
        tags = reference(root, b"StructTreeRoot")
        dropped = {part.root, tags, reference(root, b"Pages"), *self._outline(part)}
        if self.root:
            dropped |= {part.info, reference(root, b"Metadata")}
        else:
            self.root, self.info = _shift(root, by), part.info + by
        things = {
            number + by: Thing(self._renumbered(_moved(thing.body, by, own)), thing.stream)
            for number, thing in part.things.items()
            if number not in dropped
        }
        pages = [page + by for page in part.pages]
        for page in pages:
            things[page].body = re.sub(rb"/Parent \d+ 0 R", b"/Parent 1 0 R", things[page].body)
        tag = self._tags(_moved(part.things[tags].body, by, own), own)
        things[tag].body = re.sub(rb"/S/Document/P \d+ 0 R", b"/S/Part/P 2 0 R", things[tag].body)
        for number, thing in things.items():
            self.file.put(number, thing)
        self.bound.append(Bound(tag, pages, part.headings()))
        return self.bound[-1]

    def _outline(self, part: Part) -> set[Number]:
        """The outline's own objects: a new one is made of the whole."""
        return {number for number, thing in part.things.items() if _of_outline(thing.body)}

    def _tags(self, body: bytes, own: bytes) -> Number:
        """Hang the part's tags into the one tree, its numbers moved on. Returns: its topmost tag."""
        nums = re.search(rb"/Nums\[([^\]]*)\]", body)
        highest = -1
        for key, where in re.findall(rb"(\d+) (\d+ 0 R)", nums[1] if nums else b""):
            self.parents.append((int(key) + self.key, where))
            highest = max(highest, int(key))
        self.key += highest + 1
        names = re.search(rb"/Names\[(.*?)\]", body)
        for name, where in re.findall(rb"\(([^()]*)\)\s*(\d+ 0 R)", names[1] if names else b""):
            self.names.append((own + name, where))
        roles = re.search(rb"/RoleMap<<.*?>>", body)
        self.roles = self.roles or (roles[0] if roles else b"")
        return int(re.findall(rb"/K\[(\d+) 0 R\]", body)[0])

    def _renumbered(self, body: bytes) -> bytes:
        if b"/StructParent" not in body:
            return body
        return b"".join(piece if is_string else KEY.sub(self._key, piece) for is_string, piece in segments(body))

    def _key(self, match: re.Match[bytes]) -> bytes:
        return b"/StructParent%s %d" % (match[1], int(match[2]) + self.key)

    def end(self, order: Sequence[Bound], names: Sequence[str]) -> None:
        """What holds the parts together. Args: order: of reading. names: what each chapter's sheets are counted under."""
        pages = [page for part in order for page in part.pages]
        kids = b" ".join(b"%d 0 R" % page for page in pages)
        self.file.put(1, Thing(b"<</Type/Pages/Count %d/Kids[%s]>>" % (len(pages), kids)))
        parts = b" ".join(b"%d 0 R" % part.tag for part in order)
        self.file.put(2, Thing(b"<</Type/StructElem/S/Document/P 3 0 R/K[%s]>>" % parts))
        nums = b" ".join(b"%d %s" % pair for pair in sorted(self.parents))
        known = b" ".join(b"(%s)%s" % pair for pair in sorted(self.names))
        tree = b"/IDTree<</Names[%s]>>" % known if known else b""
        root = b"<</Type/StructTreeRoot%s/K[2 0 R]/ParentTree<</Nums[%s]>>%s/ParentTreeNextKey %d>>"
        self.file.put(3, Thing(root % (self.roles, nums, tree, self.key)))
        marks, before = list[Bookmark](), 0
        for part in order:
            marks += [Bookmark(title, before + page) for title, page in part.headings]
            before += len(part.pages)
        labels = [(mark.page, f"{readable(name)}, ") for mark, name in zip(marks, names, strict=True)]
        self.file.end(self._catalogue(marks, pages, labels), self.info)

    def _catalogue(
        self, marks: Sequence[Bookmark], pages: Sequence[Number], labels: Sequence[tuple[int, str]]
    ) -> Number:
        body = re.sub(rb"/Pages \d+ 0 R", b"/Pages 1 0 R", self.root)
        body = re.sub(rb"/StructTreeRoot \d+ 0 R", b"/StructTreeRoot 3 0 R", body)
        body = re.sub(rb"/Outlines \d+ 0 R", b"", body).replace(b"/Suspects false", b"")
        body = re.sub(rb"/PageLabels<<.*?\]>>", b"", body)
        called = b"".join(b"%d<</S/D/P%s>>" % (page, string(prefix)) for page, prefix in labels)
        body = body[:-2] + b"/PageLabels<</Nums[%s]>>/PageMode/UseOutlines" % called
        body += b"/Outlines %d 0 R>>" % self._outlines(marks, pages) if marks else b">>"
        return self._new(body)

    def _outlines(self, marks: Sequence[Bookmark], pages: Sequence[Number]) -> Number:
        root = self.file.reserve(len(marks) + 1) + 1
        first, last = root + 1, root + len(marks)
        self.file.put(root, Thing(b"<</Type/Outlines/First %d 0 R/Last %d 0 R/Count %d>>" % (first, last, len(marks))))
        for at, mark in enumerate(marks, first):
            beside = (b"/Prev %d 0 R" % (at - 1) if at > first else b"") + (
                b"/Next %d 0 R" % (at + 1) if at < last else b""
            )
            place = b"[%d 0 R/XYZ 0 792 0]" % pages[mark.page]
            entry = b"<</Title%s/Parent %d 0 R%s/Dest%s>>" % (string(mark.title), root, beside, place)
            self.file.put(at, Thing(entry))
        return root

    def _new(self, body: bytes) -> Number:
        number = self.file.reserve(1) + 1
        self.file.put(number, Thing(body))
        return number
