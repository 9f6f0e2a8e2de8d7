"""Databases that hold something: what they hold, counted, and rows as the first revision has them."""

from alembic.script import ScriptDirectory
from sqlalchemy import inspect, text

from webapp.migrate import configuration
from webapp.store import Database

REVISIONS = [r.revision for r in ScriptDirectory.from_config(configuration()).walk_revisions()][::-1]


def counts(db: Database) -> dict[str, int]:
    """How many rows each table has, the index of words and the revision's own table apart."""
    names = [n for n in inspect(db.engine).get_table_names() if not n.startswith(("log_search", "alembic"))]
    with db.engine.connect() as connection:
        return {name: connection.execute(text(f'SELECT count(*) FROM "{name}"')).scalar_one() for name in sorted(names)}


def first_rows(db: Database) -> None:
    """Later columns have defaults or their own migration fills them."""
    moment = "2026-01-01 00:00:00"
    kept = f"1, '{moment}', '{moment}'"
    with db.writer.begin() as connection:
        for statement in (
            "INSERT INTO job (id, name, client, place, notes, site, edition, changes, version, created_at, updated_at) "
            f"VALUES (1, 'J', '', '', '', '{{}}', 'US 2021', 1, {kept})",
            f"INSERT INTO wall_type (id, job_id, name, inputs, version, created_at, updated_at) VALUES (1, 1, 'T', '{{}}', {kept})",
            "INSERT INTO wall (id, job_id, name, sort, line, storeys, openings, version, created_at, updated_at) "
            f"VALUES (1, 1, 'W1', 1, '{{}}', '[]', '[]', {kept})",
            'INSERT INTO attachment (id, job_id, wall_id, number, kind, level, start, "end", inputs, verdict, governs, lines, '
            "to_measure, checked_engine, checked_edition, checked_on, version, created_at, updated_at) "
            f"VALUES (1, 1, 1, 1, 'ledge_seat', 1, '0 ft', '1 ft', '{{}}', 'pass', '', '', 0, '', '', '', {kept})",
        ):
            connection.execute(text(statement))
