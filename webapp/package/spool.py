"""Attachments kept on disk while a package is made: only the one that is asked for takes room, however many there are."""

import json
import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from tempfile import TemporaryFile
from typing import Any, overload
from weakref import finalize

Attachment = Mapping[str, Any]
OF_A_STEP = ("source", "title", "provenance")  # what the sheet of sources asks


class Spool(Sequence[Attachment]):
    """A frozen document's attachments. Args: rows: each as a line of JSON. Processes forked from this one read it too."""

    def __init__(self, rows: Iterable[str]) -> None:
        self._file = TemporaryFile()  # noqa: SIM115
        finalize(self, self._file.close)
        self._starts = [0]
        for row in rows:
            self._starts.append(self._starts[-1] + self._file.write(row.encode()))
        self._file.flush()

    def __len__(self) -> int:
        return len(self._starts) - 1

    @overload
    def __getitem__(self, at: int) -> Attachment: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Attachment]: ...
    def __getitem__(self, at: int | slice) -> Attachment | Sequence[Attachment]:
        if isinstance(at, slice):
            return [self[one] for one in range(len(self))[at]]
        start, end = self._starts[range(len(self))[at]], self._starts[range(len(self))[at] + 1]
        found: Attachment = json.loads(os.pread(self._file.fileno(), end - start, start))
        return found

    def __iter__(self) -> Iterator[Attachment]:
        return (self[at] for at in range(len(self)))


def brief(one: Attachment) -> Attachment:
    """What the sheets of the whole job ask of an attachment: neither drawings nor numbers of its working."""
    result = one["result"]
    lines = [
        {**line, "working": [{name: step[name] for name in OF_A_STEP} for step in line["working"]]}
        for line in result.get("lines", ())
    ]
    dropped = ("drawing", "drawing_small", "geometry", "measures")
    kept = {name: value for name, value in one.items() if name not in dropped}
    return kept | {"result": {**result, "lines": lines}}
