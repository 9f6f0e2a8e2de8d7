"""Runs migrations on the connection it is given, or opens the configured database when called from the alembic command."""

from typing import Any

from alembic import context
from sqlalchemy import Connection

from webapp.models import Base
from webapp.settings import Settings
from webapp.store import open_database


def _raw(connection: Connection) -> Any:
    return connection.connection.driver_connection


def run(connection: Connection) -> None:
    """Migrate in one transaction.

    On SQLite a table is changed by copying it; with foreign keys on, dropping the old copy would delete the rows that point at it.
    The pragma has no effect inside a transaction, so it is switched before, on the driver's own connection.
    """
    sqlite = connection.dialect.name == "sqlite"
    if sqlite:
        _raw(connection).execute("PRAGMA foreign_keys=OFF")
    try:
        context.configure(
            connection=connection,
            target_metadata=Base.metadata,
            render_as_batch=True,
            transactional_ddl=True,
            compare_type=True,
        )
        with context.begin_transaction():
            context.run_migrations()
            if sqlite:
                broken = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
                if broken:
                    raise RuntimeError(f"the migration left rows that point nowhere: {broken[:5]}")
    finally:
        if sqlite:
            _raw(connection).execute("PRAGMA foreign_keys=ON")


given = context.config.attributes.get("connection")
if given is not None:
    run(given)
else:
    database = open_database(Settings().database_url)
    with database.writer.connect() as own:
        run(own)
        own.commit()
    database.close()
