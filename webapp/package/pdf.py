"""What a PDF is made of: numbered things. Read as the typesetter writes them, written closely packed.

The typesetter writes plain objects and a plain table of where they stand; nothing is encrypted.
"""

import re
import zlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256

Number = int
TOGETHER = 200  # objects packed and compressed together


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
        return cls(things, reference(trailer, b"Root"), reference(trailer, b"Info"))

    @property
    def pages(self) -> list[Number]:
        """Its pages in order."""
        return self._kids(reference(self.things[self.root].body, b"Pages"))

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
        item = reference(self.things[reference(root, b"Outlines")].body, b"First") if b"/Outlines" in root else 0
        while item:
            plain, strings = _parted(self.things[item].body)
            title = strings[0] if strings else b""
            place = self.things[reference(plain, b"Dest")].body
            found.append((_text(title), order[int(re.findall(rb"(\d+) 0 R", place)[0])]))
            item = reference(plain, b"Next") if b"/Next" in plain else 0
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


def reference(body: bytes, name: bytes) -> Number:
    """The number of the thing a name points at; 0 where it points at none."""
    found = re.search(rb"/" + name + rb"\s+(\d+) 0 R", body)
    return int(found[1]) if found else 0


def segments(body: bytes) -> Iterator[tuple[bool, bytes]]:
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
    found = list(segments(body))
    plain = b"".join(piece for is_string, piece in found if not is_string)
    hexed = re.findall(rb"<([0-9A-F]{4,})>", plain)
    return plain, [*(piece for is_string, piece in found if is_string), *(bytes.fromhex(h.decode()) for h in hexed)]


def _text(string: bytes) -> str:
    if string.startswith(b"\xfe\xff"):
        return string[2:].decode("utf-16-be")
    return re.sub(rb"\\([()\\])", rb"\1", string[1:-1]).decode("latin-1")


def string(text: str) -> bytes:
    """A text as PDF writes it, in hexadecimal: no sign of it can be taken for anything else."""
    return b"<FEFF" + text.encode("utf-16-be").hex().upper().encode() + b">"


def written(things: Mapping[Number, Thing], root: Number, info: Number) -> bytes:
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
    rows = [b"%c%s%s" % (kind, a.to_bytes(4, "big"), b.to_bytes(2, "big")) for _, (kind, a, b) in sorted(where.items())]
    data, mark, start = zlib.compress(b"".join(rows), 6), sha256(out).hexdigest()[:32].encode(), len(out)
    head = b"/Size %d/W[1 4 2]/Index%s/Root %d 0 R/Info %d 0 R" % (after + 1, _runs(sorted(where)), root, info)
    out += b"%d 0 obj\n<</Type/XRef%s/ID[<%s><%s>]/Filter/FlateDecode/Length %d>>\nstream\n" % (
        after,
        head,
        mark,
        mark,
        len(data),
    )
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
    data = zlib.compress(head + b"\n".join(bodies), 6)
    return b"%d 0 obj\n<</Type/ObjStm/N %d/First %d/Filter/FlateDecode/Length %d>>\nstream\n%s\nendstream\nendobj\n" % (
        number, len(own), len(head), len(data), data,
    )  # fmt: skip
