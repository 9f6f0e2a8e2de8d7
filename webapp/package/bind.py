"""Parts bound into one PDF. Each comes from the typesetter, tagged and complete in itself; here they become chapters of one document.

Works on what that typesetter writes: numbered objects, a plain table of where they stand, nothing encrypted or compressed away.
The tree of tags is kept whole: every part's becomes a Part of one Document, its numbers moved on, its names made its own.
"""

import re
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from hashlib import sha256

Number = int
TOGETHER = 200  # objects packed and compressed together


@dataclass(frozen=True, slots=True)
class Bookmark:
    """An entry of the outline. Args: title: words. page: from 0, in the whole document."""

    title: str
    page: int


@dataclass(slots=True)
class Thing:
    """One object: its dictionary or value, and its stream if it has one."""

    body: bytes
    stream: bytes | None = None


@dataclass(slots=True)
class Part:
    """A typeset PDF taken apart."""

    things: dict[Number, Thing]
    root: Number
    info: Number

    @classmethod
    def of(cls, data: bytes) -> "Part":
        """Take a PDF apart by its own table."""
        start = int(re.findall(rb"startxref\s+(\d+)", data)[-1])
        trailer = data[data.index(b"trailer", start) :]
        offsets = sorted(int(m[1]) for m in re.finditer(rb"(\d{10}) \d{5} n", data[start:]))
        things = {}
        for at, end in zip(offsets, [*offsets[1:], start], strict=True):
            head = re.compile(rb"(\d+) 0 obj\s").match(data, at)
            assert head is not None
            things[int(head[1])] = _thing(data[head.end() : end])
        return cls(things, _reference(trailer, b"Root"), _reference(trailer, b"Info"))

    @property
    def pages(self) -> list[Number]:
        """Its pages in order."""
        return self._kids(_reference(self.things[self.root].body, b"Pages"))

    def _kids(self, number: Number) -> list[Number]:
        body = self.things[number].body
        if b"/Type/Pages" not in body:
            return [number]
        kids = re.search(rb"/Kids\s*\[([^\]]*)\]", body)
        return [page for kid in re.findall(rb"(\d+) 0 R", kids[1] if kids else b"") for page in self._kids(int(kid))]

    def headings(self) -> list[tuple[str, int]]:
        """Its first outline level: words and page."""
        found, order = [], {page: at for at, page in enumerate(self.pages)}
        root = self.things[self.root].body
        item = _reference(self.things[_reference(root, b"Outlines")].body, b"First") if b"/Outlines" in root else 0
        while item:
            plain, strings = _parted(self.things[item].body)
            title = strings[0] if strings else b""
            place = self.things[_reference(plain, b"Dest")].body
            found.append((_text(title), order[int(re.findall(rb"(\d+) 0 R", place)[0])]))
            item = _reference(plain, b"Next") if b"/Next" in plain else 0
        return found


def _thing(raw: bytes) -> Thing:
    raw = raw[: raw.rindex(b"endobj")].strip()
    if not raw.endswith(b"endstream"):
        return Thing(raw)
    at = raw.index(b"stream")
    length = re.search(rb"/Length (\d+)", raw[:at])
    assert length is not None
    begin = at + len(b"stream") + (2 if raw[at + 6 : at + 8] == b"\r\n" else 1)
    return Thing(raw[:at].strip(), raw[begin : begin + int(length[1])])


def _reference(body: bytes, name: bytes) -> Number:
    found = re.search(rb"/" + name + rb"\s+(\d+) 0 R", body)
    return int(found[1]) if found else 0


def _segments(body: bytes) -> Iterator[tuple[bool, bytes]]:
    """A body in turns of structure and literal strings, which nothing may change: (is a string, bytes)."""
    at = 0
    while (start := body.find(b"(", at)) >= 0:
        yield False, body[at:start]
        depth, here = 1, start + 1
        while depth:
            sign = body[here : here + 1]
            here += 2 if sign == b"\\" else 1
            depth += (sign == b"(") - (sign == b")")
        yield True, body[start:here]
        at = here
    yield False, body[at:]


def _parted(body: bytes) -> tuple[bytes, list[bytes]]:
    found = list(_segments(body))
    plain = b"".join(piece for is_string, piece in found if not is_string)
    hexed = re.findall(rb"<([0-9A-F]{4,})>", plain)
    return plain, [*(piece for is_string, piece in found if is_string), *(bytes.fromhex(h.decode()) for h in hexed)]


def _text(string: bytes) -> str:
    if string.startswith(b"\xfe\xff"):
        return string[2:].decode("utf-16-be")
    return re.sub(rb"\\([()\\])", rb"\1", string[1:-1]).decode("latin-1")


def _moved(body: bytes, by: int, own: bytes) -> bytes:
    """A body with every reference moved on, and the names that tags know each other by made the part's own."""
    if b"(" not in body:
        return _shift(body, by)
    made: list[bytes] = []
    for is_string, piece in _segments(body):
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
        tags = _reference(root, b"StructTreeRoot")
        dropped = {part.root, tags, _reference(root, b"Pages"), *self._outline(part)}
        if self.first is not part:
            dropped |= {part.info, _reference(root, b"Metadata")}
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
        return {n for n, t in part.things.items() if b"/Type/Outlines" in t.body or (b"/Parent" in t.body and b"/Dest " in t.body and b"/Type" not in t.body)}  # fmt: skip

    def _tags(self, body: bytes, by: int, own: bytes) -> None:
        """Hang the part's tags into the one tree, its numbers moved on."""
        body = _moved(body, by, own)
        document = int(re.findall(rb"/K\[(\d+) 0 R\]", body)[0])
        self.parts.append(document)
        tag = self.things[document]
        tag.body = re.sub(rb"/S/Document/P \d+ 0 R", b"/S/Part/P 2 0 R", tag.body)
        nums = re.search(rb"/Nums\[([^\]]*)\]", body)
        highest = -1
        for key, reference in re.findall(rb"(\d+) (\d+ 0 R)", nums[1] if nums else b""):
            self.parents.append((int(key) + self.key, reference))
            highest = max(highest, int(key))
        for number in [n for n in self.things if n > by]:
            thing = self.things[number]
            if b"/StructParent" in thing.body:
                thing.body = self._renumbered(thing.body)
        self.key += highest + 1
        names = re.search(rb"/Names\[(.*?)\]", body)
        for name, reference in re.findall(rb"\(([^()]*)\)\s*(\d+ 0 R)", names[1] if names else b""):
            self.names.append((own + name, reference))
        roles = re.search(rb"/RoleMap<<.*?>>", body)
        self.roles = self.roles or (roles[0] if roles else b"")

    def _renumbered(self, body: bytes) -> bytes:
        return b"".join(
            piece if is_string else re.sub(rb"/StructParent(s?) (\d+)", self._key, piece)
            for is_string, piece in _segments(body)
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
        self.things[3] = Thing(
            b"<</Type/StructTreeRoot%s/K[2 0 R]/ParentTree<</Nums[%s]>>%s/ParentTreeNextKey %d>>" % (self.roles, nums, tree, self.key)
        )  # fmt: skip
        return _written(self.things, self._catalogue(bookmarks, labels), self.first.info + self.base)

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


def string(text: str) -> bytes:
    """A text as PDF writes it, in hexadecimal: no sign of it can be taken for anything else."""
    return b"<FEFF" + text.encode("utf-16-be").hex().upper().encode() + b">"


def _written(things: dict[Number, Thing], root: Number, info: Number) -> bytes:
    """Objects as a file: streams one by one, all else packed together, then the table of where each is."""
    out = bytearray(b"%PDF-1.7\n%\x80\x80\x80\x80\n")
    where: dict[Number, tuple[int, int, int]] = {0: (0, 0, 65535)}
    packed = [number for number in sorted(things) if things[number].stream is None]
    for number in sorted(things):
        stream = things[number].stream
        if stream is not None:
            where[number] = (1, len(out), 0)
            out += b"%d 0 obj\n%s\nstream\n%s\nendstream\nendobj\n" % (number, things[number].body, stream)
    after = max(things) + 1
    for at in range(0, len(packed), TOGETHER):
        own = packed[at : at + TOGETHER]
        for index, number in enumerate(own):
            where[number] = (2, after, index)
        where[after] = (1, len(out), 0)
        out += _pack(after, [(number, things[number].body) for number in own])
        after += 1
    where[after] = (1, len(out), 0)
    table = b"".join(kind.to_bytes(1, "big") + a.to_bytes(4, "big") + b.to_bytes(2, "big") for _, (kind, a, b) in sorted(where.items()))  # fmt: skip
    data, mark = zlib.compress(table, 9), sha256(out).hexdigest()[:32].encode()
    start = len(out)
    out += b"%d 0 obj\n<</Type/XRef/Size %d/W[1 4 2]/Index%s/Root %d 0 R/Info %d 0 R/ID[<%s><%s>]/Filter/FlateDecode/Length %d>>\nstream\n" % (
        after, after + 1, _runs(sorted(where)), root, info, mark, mark, len(data),
    )  # fmt: skip
    out += data + b"\nendstream\nendobj\nstartxref\n%d\n%%%%EOF\n" % start
    return bytes(out)


def _runs(numbers: Sequence[int]) -> bytes:
    """Which numbers there are, as beginnings and lengths."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and sum(runs[-1]) == number:
            runs[-1][1] += 1
        else:
            runs.append([number, 1])
    return b"[" + b" ".join(b"%d %d" % (a, b) for a, b in runs) + b"]"


def _pack(number: Number, own: Sequence[tuple[Number, bytes]]) -> bytes:
    heads, bodies, at = [], [], 0
    for one, body in own:
        heads.append(b"%d %d" % (one, at))
        bodies.append(body)
        at += len(body) + 1
    head = b" ".join(heads) + b"\n"
    data = zlib.compress(head + b"\n".join(bodies), 9)
    return b"%d 0 obj\n<</Type/ObjStm/N %d/First %d/Filter/FlateDecode/Length %d>>\nstream\n%s\nendstream\nendobj\n" % (
        number, len(own), len(head), len(data), data,
    )  # fmt: skip
