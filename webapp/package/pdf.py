"""What a PDF is made of: numbered things. Read as the typesetter writes them, written closely packed.

The typesetter writes plain objects and a plain table of where they stand; nothing is encrypted.
"""

import re
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import BinaryIO

Number = int
HEAD, LENGTH = re.compile(rb"(\d+) 0 obj\s"), re.compile(rb"/Length (\d+)")
SIGN = re.compile(rb"[()\\]")
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
            head = HEAD.match(data, at)
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
    length = LENGTH.search(raw, 0, at)
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
            found = SIGN.search(body, here)
            assert found is not None
            sign, here = found[0], found.end() + (found[0] == b"\\")
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


class Writer:
    """A PDF written as its objects come: streams one by one, all else packed together, at the end where each of them is."""

    def __init__(self, out: BinaryIO, first: Number = 1) -> None:
        """Args: first: the first number that is not spoken for."""
        self._out, self._digest, self._at, self._next = out, sha256(), 0, first
        self._where: dict[Number, tuple[int, int, int]] = {0: (0, 0, 65535)}
        self._loose: list[tuple[Number, bytes]] = []
        self._write(b"%PDF-1.7\n%\x80\x80\x80\x80\n")

    def _write(self, data: bytes) -> None:
        self._out.write(data)
        self._digest.update(data)
        self._at += len(data)

    def reserve(self, count: int) -> Number:
        """So many numbers in a row. Returns: the one before the first of them."""
        self._next += count
        return self._next - count - 1

    def put(self, number: Number, thing: Thing) -> None:
        """An object under a number of its own."""
        if thing.stream is None:
            self._loose.append((number, thing.body))
            if len(self._loose) == TOGETHER:
                self._pack()
        else:
            self._where[number] = (1, self._at, 0)
            self._write(b"%d 0 obj\n%s\nstream\n" % (number, thing.body))
            self._write(thing.stream)
            self._write(b"\nendstream\nendobj\n")

    def _pack(self) -> None:
        number, own, self._loose = self.reserve(1) + 1, self._loose, []
        for index, (one, _) in enumerate(own):
            self._where[one] = (2, number, index)
        self._where[number] = (1, self._at, 0)
        self._write(_packed(number, own))

    def end(self, root: Number, info: Number) -> None:
        """What is left, and the table."""
        if self._loose:
            self._pack()
        number, start, mark = self.reserve(1) + 1, self._at, self._digest.hexdigest()[:32].encode()
        self._where[number] = (1, start, 0)
        rows = (
            b"%c%s%s" % (k, a.to_bytes(4, "big"), b.to_bytes(2, "big")) for _, (k, a, b) in sorted(self._where.items())
        )
        data = zlib.compress(b"".join(rows), 6)
        head = b"/Size %d/W[1 4 2]/Index%s/Root %d 0 R/Info %d 0 R" % (
            number + 1,
            _runs(sorted(self._where)),
            root,
            info,
        )
        self._write(
            b"%d 0 obj\n<</Type/XRef%s/ID[<%s><%s>]/Filter/FlateDecode/Length %d>>\nstream\n"
            % (number, head, mark, mark, len(data))
        )
        self._write(data + b"\nendstream\nendobj\nstartxref\n%d\n%%%%EOF\n" % start)


def _runs(numbers: Sequence[int]) -> bytes:
    """Which numbers there are, as beginnings and lengths."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and sum(runs[-1]) == number:
            runs[-1][1] += 1
        else:
            runs.append([number, 1])
    return b"[" + b" ".join(b"%d %d" % (a, b) for a, b in runs) + b"]"


def _packed(number: Number, own: Sequence[tuple[Number, bytes]]) -> bytes:
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
