"""What a database holds, so that two of them can be compared whatever kind they are: rows of each table, and every office's log."""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from hashlib import sha256
from typing import Any

from sqlalchemy import Connection, LargeBinary, MetaData, Table, func, inspect, select
from sqlalchemy.orm import Session

from webapp.migrate import revision_of
from webapp.models import Office
from webapp.services import log
from webapp.services.log import Verified

FOLLOWS = ("log_search", "alembic_version")  # made by triggers and migrations, not by people
STEP, LARGE_STEP = 1000, 8  # rows held at once: a photograph or a document weighs megabytes
WHOLE = 1 << 256


@dataclass(frozen=True, slots=True)
class Rows:
    """A table's rows. digest: the same for the same rows, in whatever order and kind of database they are."""

    rows: int
    digest: str


@dataclass(frozen=True, slots=True)
class Contents:
    """All that a database holds. logs: each office's chain, by its id."""

    migration: str
    tables: Mapping[str, Rows]
    logs: Mapping[int, Verified]

    @property
    def broken(self) -> list[str]:
        """What is wrong with the logs."""
        return [f"Office {number}: {problem}" for number, one in self.logs.items() for problem in one.problems]

    def plain(self) -> dict[str, Any]:
        """As JSON keeps it."""
        return {
            "migration": self.migration,
            "tables": {name: asdict(one) for name, one in self.tables.items()},
            "logs": {str(number): asdict(one) for number, one in self.logs.items()},
        }


def from_plain(kept: Mapping[str, Any]) -> Contents:
    """From JSON. Raises: KeyError, TypeError, ValueError, AttributeError for anything else."""
    return Contents(
        str(kept["migration"]),
        {name: Rows(int(one["rows"]), str(one["digest"])) for name, one in kept["tables"].items()},
        {
            int(number): Verified(int(one["rows"]), str(one["head"]), tuple(map(str, one["problems"])))
            for number, one in kept["logs"].items()
        },
    )


def tables(connection: Connection) -> list[Table]:
    """The tables people's data are in, each after those it points at, as the database itself describes them."""
    names = [name for name in inspect(connection).get_table_names() if not name.startswith(FOLLOWS)]
    found = MetaData()
    found.reflect(connection, only=names)
    return found.sorted_tables


def batches(connection: Connection, table: Table) -> Iterator[Sequence[Mapping[str, Any]]]:
    """All rows of a table, some at a time, their columns by name."""
    step = LARGE_STEP if any(isinstance(column.type, LargeBinary) for column in table.c) else STEP
    query = select(*(table.c[name] for name in sorted(table.c.keys())))
    with connection.execute(query, execution_options={"yield_per": step}) as result:
        for part in result.mappings().partitions():
            yield [dict(row) for row in part]


def contents(connection: Connection) -> Contents:
    """Read everything, in the caller's transaction. A log that does not hold is told in it, not refused."""
    found = tables(connection)
    counted = {table.name: _rows(connection, table) for table in sorted(found, key=lambda table: table.name)}
    return Contents(revision_of(connection) or "", counted, logs(connection) if "log_entry" in counted else {})


def logs(connection: Connection) -> dict[int, Verified]:
    """Every office's log, walked from its first row."""
    with Session(connection, autoflush=False) as session:
        return {
            number: log.verify(session, number) for number in session.scalars(select(Office.id).order_by(Office.id))
        }


def _rows(connection: Connection, table: Table) -> Rows:
    """Sums of hashes of rows do not depend on the order in which a database hands them out."""
    count = total = 0
    for part in batches(connection, table):
        for row in part:
            count += 1
            text = json.dumps(list(row.values()), default=_plain)
            total = (total + int.from_bytes(sha256(text.encode()).digest(), "big")) % WHOLE
    return Rows(count, f"{total:064x}")


def _plain(value: object) -> str:
    if isinstance(value, datetime):
        return (value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)).isoformat()
    if isinstance(value, bytes):
        return sha256(value).hexdigest()
    raise TypeError(type(value).__name__)


def differences(expected: Contents, found: Contents) -> list[str]:
    """In what two databases differ, in words; nothing where they hold the same."""
    words = []
    if expected.migration != found.migration:
        words.append(f"its tables are those of migration {found.migration or 'none'} instead of {expected.migration}")
    none = Rows(0, f"{0:064x}")
    for name in sorted({*expected.tables, *found.tables}):
        asked, there = expected.tables.get(name, none), found.tables.get(name, none)
        if asked.rows != there.rows:
            words.append(f"{name} holds {there.rows} rows instead of {asked.rows}")
        elif asked.digest != there.digest:
            words.append(f"rows of {name} are not what they were")
    return words + log_differences(expected, found)


def log_differences(expected: Contents, found: Contents) -> list[str]:
    """In what the offices' logs differ, whatever the migration."""
    numbers = sorted({*expected.logs, *found.logs})
    return [f"the log of office {n} is another" for n in numbers if expected.logs.get(n) != found.logs.get(n)]


def is_new(connection: Connection) -> bool:
    """Whether a database holds nothing but what the program itself puts into a new one."""
    there = {table.name: table for table in tables(connection)}
    filled = {name for name, table in there.items() if connection.scalar(select(func.count()).select_from(table))}
    if not filled:
        return True
    offices = list(connection.scalars(select(there["office"].c.name))) if "office" in filled else []
    return filled <= {"office", "setup"} and offices in ([], [""])
