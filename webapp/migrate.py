"""Brings a database to the newest form of its tables; run once, before anything is served."""

import sqlite3
from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory

from webapp.settings import MIGRATIONS
from webapp.store import Database


def configuration() -> Config:
    """Alembic's settings without a file."""
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS))
    return config


def revision(db: Database) -> str | None:
    """The revision a database is at; None for an empty one."""
    with db.engine.connect() as connection:
        return MigrationContext.configure(connection).get_current_revision()


def newest() -> str | None:
    """The revision this program needs."""
    return ScriptDirectory.from_config(configuration()).get_current_head()


def migrate(db: Database, target: str = "head") -> None:
    """Upgrade, keeping a copy of an SQLite file that holds data. Two programs starting at once wait for each other."""
    at = revision(db)
    if target == "head" and at == newest():
        return
    if at is not None:
        _keep_copy(db, at)
    config = configuration()
    with db.writer.connect() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, target)
        connection.commit()


def _keep_copy(db: Database, at: str) -> None:
    name = db.engine.url.database
    if db.engine.dialect.name != "sqlite" or not name or name == ":memory:":
        return
    copy = Path(f"{name}.at-{at}")
    source, target = sqlite3.connect(name), sqlite3.connect(copy)
    with source, target:
        source.backup(target)
    source.close()
    target.close()
