"""Every library an installation brings along is listed with a licence that fits, and the list is the one of the lock."""

import re

import pytest

from tests.licences import BEGIN, END, PAPER, brought, licence, unfit

LISTED = dict(
    re.findall(
        r"^\| (\S+) \| \S+ \| (.+) \|$", PAPER.read_text(encoding="utf-8").partition(BEGIN)[2].partition(END)[0], re.M
    )
)


@pytest.mark.parametrize("name", sorted(brought()))
def test_a_library_is_listed_under_a_licence_that_fits(name: str) -> None:
    words = licence(brought()[name])
    assert not unfit(words), f"{name}: {words}"
    assert LISTED.get(name) == words, "run python -m tests.licences"


def test_nothing_is_listed_that_is_not_brought_along() -> None:
    assert set(LISTED) - {"Library"} <= set(brought())


@pytest.mark.parametrize(
    "words", ["unknown", "GPL-3.0-only", "AGPL-3.0", "GNU General Public License v3 (GPLv3)", "proprietary"]
)
def test_a_licence_that_is_unknown_or_does_not_fit_is_seen(words: str) -> None:
    assert unfit(words)
