"""Working that several attachments share number for number is printed once, in full; where it comes again its place is named."""

from collections.abc import Iterable, Mapping, Sequence
from hashlib import sha256
from json import dumps
from typing import Any

Line = Mapping[str, Any]


def mark(line: Line) -> bytes:
    """What a limit's working says, every number and source of it, in a hash."""
    return sha256(dumps([line["title"], line["working"]], sort_keys=True).encode()).digest()


def first_places(attachments: Iterable[Mapping[str, Any]]) -> dict[bytes, str]:
    """The tag of the first attachment that has each working, by its mark; nothing of a limit without steps."""
    found: dict[bytes, str] = {}
    for one in attachments:
        for line in one["result"].get("lines", ()):
            if line["working"]:
                found.setdefault(mark(line), one["tag"])
    return found


def elsewhere(lines: Sequence[Line], tag: str, first: Mapping[bytes, str]) -> dict[str, str]:
    """Of an attachment's limits those worked in full at an earlier one: that one's tag, by the limit's key."""
    found = {line["key"]: first.get(mark(line), tag) for line in lines if line["working"]}
    return {key: at for key, at in found.items() if at != tag}
