"""Runs migrations in the transaction it is given, or in one of the configured database when called from the alembic command."""

from alembic import context
from sqlalchemy import Connection

from webapp.migrate import alone
from webapp.models import Base
from webapp.settings import Settings
from webapp.store import open_database


def run(connection: Connection) -> None:
    """All steps in the one transaction that is under way."""
    context.configure(
        connection=connection,
        target_metadata=Base.metadata,
        render_as_batch=True,
        transactional_ddl=True,
        compare_type=True,
    )
    context.run_migrations()


given = context.config.attributes.get("connection")
if given is not None:
    run(given)
else:
    database = open_database(Settings().database_url)
    with alone(database) as own:
        run(own)
    database.close()
