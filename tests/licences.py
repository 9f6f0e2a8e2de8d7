"""`python -m tests.licences`: writes the licences of every library an installation brings along into SECURITY.md."""

import tomllib
from collections.abc import Iterator
from importlib.metadata import Distribution, distribution
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

PAPER = Path(__file__).parent.parent / "SECURITY.md"
BEGIN, END = "<!-- licences: written by python -m tests.licences -->", "<!-- end of licences -->"
# What may stand beside a program under MIT: permissive ones, and weak copyleft of libraries that are used unchanged.
FIT = (
    "MIT", "BSD", "Apache", "ISC", "PSF", "Python Software Foundation", "HPND", "MPL", "LGPL",
    "GNU Lesser General Public License", "Unlicense", "Zero-Clause",
)  # fmt: skip


def brought() -> dict[str, Distribution]:
    """What an installation without the tests' own libraries brings along, by name."""
    found: dict[str, Distribution] = {}
    project = tomllib.loads((PAPER.parent / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    waiting = [(text, frozenset[str]()) for text in project["dependencies"]]
    while waiting:
        text, extras = waiting.pop()
        need = Requirement(text)
        key = canonicalize_name(need.name)
        fits = need.marker is None or any(need.marker.evaluate({"extra": e}) for e in ("", *extras))
        if fits and (key not in found or need.extras):
            found[key] = distribution(key)
            waiting += [(t, frozenset(need.extras)) for t in found[key].requires or ()]
    return dict(sorted(found.items()))


def licence(held: Distribution) -> str:
    """In the library's own words, short."""
    said = held.metadata.get("License-Expression") or ""
    classed = [c.rpartition("::")[2].strip() for c in held.metadata.get_all("Classifier") or () if "License ::" in c]
    free = (held.metadata.get("License") or "").strip().splitlines()
    return said or ", ".join(classed) or (free[0] if free else "unknown")


def unfit(words: str) -> bool:
    """Whether a licence is none that fits."""
    return not any(fit.lower() in words.lower() for fit in FIT)


def rows() -> Iterator[str]:
    """The table."""
    yield "| Library | Version | Licence |"
    yield "|---|---|---|"
    for name, held in brought().items():
        yield f"| {name} | {held.version} | {licence(held)} |"


def written(paper: str) -> str:
    """The paper with the table as it is now."""
    head, _, rest = paper.partition(BEGIN)
    return "\n".join([head + BEGIN, "", *rows(), "", END + rest.partition(END)[2]])


if __name__ == "__main__":
    PAPER.write_text(written(PAPER.read_text(encoding="utf-8")), encoding="utf-8")
