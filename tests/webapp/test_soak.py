"""A minute of the soak: reading, editing, submitting, reviewing, packing; the half hour is `python -m tests.load.soak`."""

from tests.load import soak
from tests.load.program import program

SECONDS = {"sqlite": 60, "postgres": 20}
RATE = 10  # two cores are shared with everything else that is tested
# Within a minute what is kept ready is still being filled; the half hour is held to a tenth.
MOST_GROWTH = 1.25


def test_a_minute_of_everything_at_once_fails_nothing_and_loses_nothing(
    empty_database: str, database_kind: str
) -> None:
    with program(empty_database) as served:
        record = soak.run(served, SECONDS[database_kind] / 60, RATE)
    assert soak.faults(record, MOST_GROWTH) == [], record
    assert record["requests"] >= SECONDS[database_kind] * RATE
    assert record["packages"] >= 1
    assert record["submitted"] >= 1
    assert record["kept"]["acknowledged"] > 20 * SECONDS[database_kind] / 60
    assert record["memory_mb"][-1] < 250  # idle: 200 MB asked
