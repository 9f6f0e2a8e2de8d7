"""The table in SECURITY.md: each requirement once, a state for each, and what it points at is there."""

import re
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).parent.parent
ROWS = re.findall(r"^\| ([\d., ]+) \| (\S+) \| (.+) \|$", (ROOT / "SECURITY.md").read_text(encoding="utf-8"), re.M)
# OWASP Application Security Verification Standard 5.0.0: requirements of levels 1 and 2, by chapter.
CHAPTERS = {
    1: 27, 2: 11, 3: 19, 4: 10, 5: 9, 6: 35, 7: 18, 8: 7, 9: 7, 10: 29, 11: 14, 12: 9, 13: 13, 14: 9, 15: 13, 16: 16, 17: 7,
}  # fmt: skip


def items() -> list[str]:
    return [item for numbers, _, _ in ROWS for item in numbers.split(", ")]


def test_every_requirement_of_levels_one_and_two_stands_once() -> None:
    assert not [item for item, count in Counter(items()).items() if count > 1]
    assert Counter(int(item.partition(".")[0]) for item in items()) == CHAPTERS


def test_every_state_is_one_of_three_and_open_ones_give_their_reason() -> None:
    assert {state for _, state, _ in ROWS} == {"met", "n/a", "open"}
    assert all(len(why) > 3 for _, _, why in ROWS)


def test_what_the_table_points_at_is_there() -> None:
    named = {
        path
        for _, _, why in ROWS
        for path in re.findall(r"`((?:webapp|engine|tests|templates|static|deploy)/[^`]*)`", why)
    }
    assert len(named) > 40
    assert not [path for path in sorted(named) if not (ROOT / path).exists()]
