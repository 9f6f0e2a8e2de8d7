"""Parts bound into one PDF. Each comes from the typesetter, tagged and complete in itself; here they become chapters of one.

The tree of tags is kept whole: every part's becomes a Part of one Document, its numbers moved on, its names made its own.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from webapp.package.pdf import Number, Part, Thing, reference, segments, string, written


@dataclass(frozen=True, slots=True)
class Bookmark:
    """An entry of the outline. Args: title: words. page: from 0, in the whole document."""

    title: str
    page: int


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
    return re.sub(rb"(\d+) 0 R", lambda m: b"%d 0 R" % (int(m[1]) + by), piece)


def _of_outline(body: bytes) -> bool:
    """Whether an object is an outline or an entry of one."""
    return b"/Type/Outlines" in body or (b"/Type" not in body and b"/Parent " in body and b"/Dest " in body)


class Binder:
    """Binds parts one after the other. Object 1 is the tree of pages, 2 the document's tag, 3 the root of tags."""

    def __init__(self) -> None:
        self.things: dict[Number, Thing] = {}
        self.pages: list[Number] = []
        self.parts: list[Number] = []
        self.parents: list[tuple[int, bytes]] = []
        self.names: list[tuple[bytes, bytes]] = []
        self.roles = b""
        self.next, self.key = 4, 0
        self.first: Part | None = None
        self.base = 0

    def add(self, part: Part) -> None:
        """The next part."""
        by, own = self.next - 1, b"p%03d." % len(self.parts)
        if self.first is None:
            self.first, self.base = part, by
        root = part.things[part.root].body
        tags = reference(root, b"StructTreeRoot")
        dropped = {part.root, tags, reference(root, b"Pages"), *self._outline(part)}
        if self.first is not part:
            dropped |= {part.info, reference(root, b"Metadata")}
        for number, thing in part.things.items():
            if number not in dropped:
                self.things[number + by] = Thing(_moved(thing.body, by, own), thing.stream)
        self._tags(part.things[tags].body, by, own)
        for page in part.pages:
            self.things[page + by].body = re.sub(rb"/Parent \d+ 0 R", b"/Parent 1 0 R", self.things[page + by].body)
            self.pages.append(page + by)
        self.next = max(part.things) + by + 1

    def _outline(self, part: Part) -> set[Number]:
        """The outline's own objects: a new one is made of the whole."""
        return {number for number, thing in part.things.items() if _of_outline(thing.body)}

    def _tags(self, body: bytes, by: int, own: bytes) -> None:
        """Hang the part's tags into the one tree, its numbers moved on."""
        body = _moved(body, by, own)
        document = int(re.findall(rb"/K\[(\d+) 0 R\]", body)[0])
        self.parts.append(document)
        tag = self.things[document]
        tag.body = re.sub(rb"/S/Document/P \d+ 0 R", b"/S/Part/P 2 0 R", tag.body)
        nums = re.search(rb"/Nums\[([^\]]*)\]", body)
        highest = -1
        for key, where in re.findall(rb"(\d+) (\d+ 0 R)", nums[1] if nums else b""):
            self.parents.append((int(key) + self.key, where))
            highest = max(highest, int(key))
        for number in [n for n in self.things if n > by]:
            thing = self.things[number]
            if b"/StructParent" in thing.body:
                thing.body = self._renumbered(thing.body)
        self.key += highest + 1
        names = re.search(rb"/Names\[(.*?)\]", body)
        for name, where in re.findall(rb"\(([^()]*)\)\s*(\d+ 0 R)", names[1] if names else b""):
            self.names.append((own + name, where))
        roles = re.search(rb"/RoleMap<<.*?>>", body)
        self.roles = self.roles or (roles[0] if roles else b"")

    def _renumbered(self, body: bytes) -> bytes:
        return b"".join(
            piece if is_string else re.sub(rb"/StructParent(s?) (\d+)", self._key, piece)
            for is_string, piece in segments(body)
        )

    def _key(self, match: re.Match[bytes]) -> bytes:
        return b"/StructParent%s %d" % (match[1], int(match[2]) + self.key)

    def bound(self, bookmarks: Sequence[Bookmark], labels: Sequence[tuple[int, str]]) -> bytes:
        """The whole document. Args: bookmarks: its outline. labels: from which page on pages are called how ("A1-")."""
        assert self.first is not None
        kids = b" ".join(b"%d 0 R" % page for page in self.pages)
        self.things[1] = Thing(b"<</Type/Pages/Count %d/Kids[%s]>>" % (len(self.pages), kids))
        parts = b" ".join(b"%d 0 R" % part for part in self.parts)
        self.things[2] = Thing(b"<</Type/StructElem/S/Document/P 3 0 R/K[%s]>>" % parts)
        nums = b" ".join(b"%d %s" % pair for pair in sorted(self.parents))
        names = b" ".join(b"(%s)%s" % pair for pair in sorted(self.names))
        tree = b"/IDTree<</Names[%s]>>" % names if names else b""
        root = b"<</Type/StructTreeRoot%s/K[2 0 R]/ParentTree<</Nums[%s]>>%s/ParentTreeNextKey %d>>"
        self.things[3] = Thing(root % (self.roles, nums, tree, self.key))
        return written(self.things, self._catalogue(bookmarks, labels), self.first.info + self.base)

    def _catalogue(self, bookmarks: Sequence[Bookmark], labels: Sequence[tuple[int, str]]) -> Number:
        assert self.first is not None
        body = _shift(self.first.things[self.first.root].body, self.base)
        body = re.sub(rb"/Pages \d+ 0 R", b"/Pages 1 0 R", body)
        body = re.sub(rb"/StructTreeRoot \d+ 0 R", b"/StructTreeRoot 3 0 R", body)
        body = re.sub(rb"/Outlines \d+ 0 R", b"", body).replace(b"/Suspects false", b"")
        body = re.sub(rb"/PageLabels<<.*?\]>>", b"", body)
        called = b"".join(b"%d<</S/D/P%s>>" % (page, string(prefix)) for page, prefix in labels)
        body = body[:-2] + b"/PageLabels<</Nums[%s]>>/PageMode/UseOutlines" % called
        body += b"/Outlines %d 0 R>>" % self._outlines(bookmarks) if bookmarks else b">>"
        return self._new(body)

    def _outlines(self, bookmarks: Sequence[Bookmark]) -> Number:
        root, first = self.next, self.next + 1
        last = first + len(bookmarks) - 1
        self._new(b"<</Type/Outlines/First %d 0 R/Last %d 0 R/Count %d>>" % (first, last, len(bookmarks)))
        for at, mark in enumerate(bookmarks, first):
            beside = (b"/Prev %d 0 R" % (at - 1) if at > first else b"") + (
                b"/Next %d 0 R" % (at + 1) if at < last else b""
            )
            place = b"[%d 0 R/XYZ 0 792 0]" % self.pages[mark.page]
            self._new(b"<</Title%s/Parent %d 0 R%s/Dest%s>>" % (string(mark.title), root, beside, place))
        return root

    def _new(self, body: bytes) -> Number:
        self.things[self.next] = Thing(body)
        self.next += 1
        return self.next - 1
