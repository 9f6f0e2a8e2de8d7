"""Copying all rows from one database into another of whichever kind, in one transaction that ends only when both hold the same."""

from collections.abc import Mapping
from typing import Any

from sqlalchemy import Connection, String, Table, delete, func, select, text

from webapp.keeping.contents import Contents, batches, contents, differences, is_new, log_differences, tables
from webapp.keeping.places import NotDone
from webapp.migrate import newest, upgrade
from webapp.store import Database


def fill(target: Connection, source: Connection, expected: Contents, newer: bool = True) -> None:
    """Make the source's tables, copy every row, compare, and bring the tables up to date.

    Args: target: a transaction from `migrate.alone`, in a database that is new. source: one snapshot. expected: what is in it.
    newer: False leaves the tables as the source's are.
    Raises: NotDone where a row does not fit or what arrived is not the same; then the caller's transaction is undone.
    """
    upgrade(target, expected.migration)
    if not is_new(target):
        raise NotDone("That database holds something already. Name one that is empty.")
    into = tables(target)
    for table in reversed(into):
        if table.name in ("office", "setup"):  # what a new database begins with
            target.execute(delete(table))
    there = {table.name: table for table in tables(source)}
    for table in into:
        _copy(target, table, source, there[table.name])
    if target.dialect.name != "sqlite":
        _count_on(target, into)
    _must_be_equal(differences(expected, contents(target)))
    if newer and expected.migration != newest():
        upgrade(target)
        _must_be_equal(log_differences(expected, contents(target)))


def _must_be_equal(found: list[str]) -> None:
    if found:
        raise NotDone(f"What arrived is not what was sent: {'; '.join(found)}. Nothing was kept.")


def _copy(target: Connection, table: Table, source: Connection, out_of: Table) -> None:
    limits = {c.name: c.type.length for c in table.c if isinstance(c.type, String) and c.type.length}
    for rows in batches(source, out_of):
        if target.dialect.name != "sqlite":
            for row in rows:
                _must_fit(table, row, limits)
        target.execute(table.insert(), list(rows))


def _must_fit(table: Table, row: Mapping[str, Any], limits: Mapping[str, int]) -> None:
    """SQLite keeps texts of any length and any sign; PostgreSQL does not. Says which row, without what is in it."""
    for name, value in row.items():
        if isinstance(value, str) and ("\0" in value or len(value) > limits.get(name, len(value))):
            key = ", ".join(str(row[column.name]) for column in table.primary_key)
            reason = "holds a sign PostgreSQL can't keep" if "\0" in value else f"is longer than {limits[name]} signs"
            raise NotDone(f"Row {key} of {table.name}: {name} {reason}. Change it in the program, then try again.")


def _count_on(target: Connection, into: list[Table]) -> None:
    """PostgreSQL gives numbers to rows from a counter, which copied rows did not move."""
    for table in into:
        if "id" in table.c:
            counter = func.pg_get_serial_sequence(table.name, "id")
            last = target.scalar(select(func.max(table.c.id)))
            target.execute(select(func.setval(counter, last or 1, last is not None)))


def set_aside(target: Connection, schema: str) -> None:
    """Move the program's tables of a PostgreSQL database into a schema of their own, with the functions their triggers call."""
    functions = target.scalars(
        text(
            "SELECT DISTINCT p.oid::regprocedure::text FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid "
            "JOIN pg_proc p ON p.oid = t.tgfoid "
            "WHERE c.relnamespace = current_schema()::regnamespace AND NOT t.tgisinternal"
        )
    ).all()
    quoted = target.dialect.identifier_preparer.quote
    target.execute(text(f"CREATE SCHEMA {quoted(schema)}"))
    for name in [*(table.name for table in tables(target)), "alembic_version"]:
        target.execute(text(f"ALTER TABLE {quoted(name)} SET SCHEMA {quoted(schema)}"))
    for name in functions:
        target.execute(text(f"ALTER FUNCTION {name} SET SCHEMA {quoted(schema)}"))


def others_in(db: Database) -> int:
    """How many other connections a PostgreSQL database has."""
    query = (
        "SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid() "
        "AND backend_type = 'client backend'"
    )
    with db.reader.connect() as connection:
        return int(connection.scalar(text(query)) or 0)
