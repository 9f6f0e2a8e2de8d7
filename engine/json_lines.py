"""JSON read strictly, and the line a value stands on, so that a message can point at it."""

import json
from json.decoder import WHITESPACE, scanstring  # type: ignore[attr-defined]
from typing import Any

Path = tuple[str | int, ...]


class NotJson(ValueError):
    """Text that is no JSON document. Args: line: where it breaks. reason: what is wrong there."""

    def __init__(self, line: int, reason: str) -> None:
        super().__init__(f"line {line}: {reason}")
        self.line = line
        self.reason = reason


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    known: dict[str, Any] = {}
    for key, value in pairs:
        if key in known:
            raise KeyError(key)
        known[key] = value
    return known


def _refuse(constant: str) -> Any:
    raise OverflowError(constant)


_DECODER = json.JSONDecoder(object_pairs_hook=_once, parse_constant=_refuse)


def load(text: str) -> Any:
    """The document in a text. Raises: NotJson, also for a key given twice, NaN, infinity, or nesting without end."""
    try:
        document = _DECODER.decode(text)
        json.dumps(document, ensure_ascii=False).encode()
        return document
    except json.JSONDecodeError as error:
        raise NotJson(error.lineno, f"{error.msg} (column {error.colno})") from None
    except KeyError as error:
        raise NotJson(_line(text, text.rfind(json.dumps(error.args[0]))), f"the key {error} is given twice") from None
    except OverflowError as error:
        raise NotJson(_line(text, text.find(str(error))), f"{error} is not a number") from None
    except UnicodeEncodeError:
        raise NotJson(1, "half of a character pair stands alone somewhere (\\ud800 to \\udfff)") from None
    except RecursionError:
        raise NotJson(1, "nested too deep to be a job") from None


def line_of(text: str, path: Path) -> int:
    """The line where the value at `path` begins; the nearest holder's line where there is no such value."""
    at = _skip(text, 0)
    for part in path:
        found = _key(text, at, part) if isinstance(part, str) else _item(text, at, part)
        if found is None:
            break
        at = found
    return _line(text, at)


def _line(text: str, at: int) -> int:
    return text.count("\n", 0, max(at, 0)) + 1


def _skip(text: str, at: int) -> int:
    end: int = WHITESPACE.match(text, at).end()
    return end


def _after(text: str, at: int) -> int:
    """Past a value and the comma behind it."""
    _, end = json.JSONDecoder().raw_decode(text, at)
    end = _skip(text, end)
    return _skip(text, end + 1) if text[end] == "," else end


def _key(text: str, at: int, key: str) -> int | None:
    if text[at] != "{":
        return None
    at = _skip(text, at + 1)
    while text[at] != "}":
        name, at = scanstring(text, at + 1)
        at = _skip(text, _skip(text, at) + 1)
        if name == key:
            return at
        at = _after(text, at)
    return None


def _item(text: str, at: int, number: int) -> int | None:
    if text[at] != "[":
        return None
    at = _skip(text, at + 1)
    while text[at] != "]":
        if number == 0:
            return at
        number -= 1
        at = _after(text, at)
    return None


def words(path: Path) -> str:
    """A path as a reader writes it: walls[0].line.length_ft; "(whole file)" for the document itself."""
    text = "".join(f"[{part}]" if isinstance(part, int) else f".{part}" for part in path)
    return text.removeprefix(".") or "(whole file)"
