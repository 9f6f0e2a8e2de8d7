"""What is asked for, as one JSON: a revision or a draft with what belongs to it, or rows of the log."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

import segno

from engine import VERSION as ENGINE
from engine.result import LOCAL_CODE
from webapp.folders import TEMPLATES
from webapp.package.letters import Drawing
from webapp.package.spool import Spool

VERSION = 1  # counts up when the same order is to give other bytes though no template changed
PROGRAM = "Wallseat"


@dataclass(frozen=True, slots=True)
class Order:
    """All that the bytes depend on.

    Args: what: "revision", "draft" or "log". stamp: what every sheet says of it: job, revision, fingerprint, edition, made_at
    (ISO), cover (label and value), origin; and what else tells this order from every other. content: the frozen document; for a
    draft what it is written from; for a log its rows. lists: checklists as they stood.
    """

    what: str
    stamp: Mapping[str, Any]
    content: Mapping[str, Any] = field(default_factory=dict)
    lists: tuple[Mapping[str, Any], ...] = ()

    def text(self) -> str:
        """As lines of JSON: all but the attachments, then each attachment, so that nobody needs to hold them all."""
        content = {name: value for name, value in self.content.items() if name != "attachments"}
        head = {"what": self.what, "stamp": self.stamp, "content": content, "lists": self.lists}
        return "\n".join(map(json.dumps, (head, *self.content.get("attachments", ()))))

    @classmethod
    def read(cls, lines: Iterable[str]) -> "Order":
        """Back from lines; the attachments of a revision stay on disk."""
        rest = iter(lines)
        order = cls(**json.loads(next(rest)))
        if order.what != "revision":
            return order
        return replace(order, content={**order.content, "attachments": Spool(rest)})

    @property
    def key(self) -> str:
        """What the bytes depend on, in a hash: the stamp, by which the content is known, the templates, the program."""
        said = json.dumps([VERSION, ENGINE, _templates(), self.what, self.stamp], sort_keys=True)
        return sha256(said.encode()).hexdigest()

    @property
    def made_at(self) -> int:
        """Seconds of the epoch printed as the document's making."""
        return int(datetime.fromisoformat(self.stamp["made_at"]).replace(tzinfo=UTC).timestamp())

    def sheet(self) -> dict[str, Any]:
        """What every part's data begins with."""
        stamp, draft = self.stamp, self.what == "draft"
        mark = str(stamp.get("fingerprint", ""))
        link = f"{stamp['origin']}/print/{mark}" if mark else ""
        title = {"log": "Approvals log"}.get(self.what, "Calculation package")
        return {
            "title": f"{title}: {stamp['job'] or 'job without a name'}"
            + (f", {stamp['revision']}" if stamp["revision"] else ""),
            "author": PROGRAM,
            "program": f"{PROGRAM} {ENGINE}",
            "keywords": [one for one in (mark, stamp["edition"], f"{PROGRAM} {ENGINE}") if one],
            "job": stamp["job"],
            "revision": stamp["revision"],
            "short": short(mark) if mark else "none until submitted",
            "fingerprint": mark,
            "edition": stamp["edition"],
            "draft": draft,
            "link": link,
            "code": code(link) if link else "",
            "code_alt": f"Code to scan: {link}",
            "cover": list(stamp.get("cover", ())),
            "local_code": LOCAL_CODE,
            "sheets": 0,
        }


def short(mark: str) -> str:
    """The form of a fingerprint printed on sheets."""
    return " ".join(mark[at : at + 4] for at in range(0, 12, 4))


@cache
def code(link: str) -> Drawing:
    """A link as a QR code, SVG."""
    return Drawing(segno.make(link, error="m", micro=False).svg_inline(border=2, dark="#000", light="#fff"))


@cache
def _templates() -> str:
    """The templates' own hash: another look is another document."""
    folder: Path = TEMPLATES / "documents"
    return sha256(b"".join(path.read_bytes() for path in sorted(folder.glob("*.typ")))).hexdigest()
