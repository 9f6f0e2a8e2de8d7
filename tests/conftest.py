"""Fixtures every test may use, and the count of published cases at the end of a run."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

from tests.world import World, world

# the same examples on every machine, and no clock: two cores are shared by the browser and everything else
settings.register_profile("suite", deadline=None, derandomize=True)
settings.load_profile("suite")


@pytest.fixture
def at(tmp_path: Path) -> Iterator[World]:
    """A world with an empty database."""
    with world(tmp_path) as made:
        yield made


@pytest.fixture
def job(at: World) -> int:
    """A small house in that world."""
    return at.job()


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """How the published cases stand, whatever was selected."""
    if hasattr(terminalreporter.config, "workerinput"):
        return
    from engine import proving

    outcomes = proving.run_all(proving.own_cases())
    counts = ", ".join(f"{count} {verdict.replace('_', ' ')}" for verdict, count in proving.counts(outcomes).items())
    read = [o for o in outcomes if o.case.provenance == "read"]
    agreed = sum(o.verdict == "agree" for o in read)
    terminalreporter.write_line(f"Published cases: {counts}. Of {len(read)} read at the source, {agreed} agree.")
