"""When the database can't do what it is asked for a while: what is the matter, and whether this one is ready to be asked."""

import sqlite3
from functools import cache
from typing import Literal

import psycopg
from sqlalchemy.exc import DBAPIError
from sqlalchemy.exc import TimeoutError as NoConnection

from webapp import migrate
from webapp.store import Database

Outage = Literal["busy", "away", "full", "read only", "damaged"]

# What both drivers say. SQLite: the primary result codes, https://www.sqlite.org/rescode.html. PostgreSQL: SQLSTATE, whole or its
# class, PostgreSQL documentation, appendix A.
SQLITE: dict[int, Outage] = {
    sqlite3.SQLITE_BUSY: "busy",
    sqlite3.SQLITE_LOCKED: "busy",
    sqlite3.SQLITE_FULL: "full",
    sqlite3.SQLITE_READONLY: "read only",
    sqlite3.SQLITE_IOERR: "away",
    sqlite3.SQLITE_CANTOPEN: "away",
    sqlite3.SQLITE_CORRUPT: "damaged",
    sqlite3.SQLITE_NOTADB: "damaged",
}
POSTGRES: dict[str, Outage] = {
    "40001": "busy",  # serialization failure
    "40P01": "busy",  # deadlock
    "55P03": "busy",  # lock timeout
    "57014": "busy",  # statement timeout
    "53300": "busy",  # too many connections
    "53100": "full",
    "25006": "read only",
    "XX001": "damaged",
    "XX002": "damaged",
    "08": "away",
    "53": "away",
    "57": "away",
    "58": "away",
}
TROUBLES = (DBAPIError, NoConnection)


def outage(error: BaseException) -> Outage | None:
    """What is the matter with the database; None where the statement itself was at fault."""
    if isinstance(error, NoConnection):
        return "busy"
    if not isinstance(error, DBAPIError):
        return None
    cause = error.orig
    if isinstance(cause, sqlite3.Error):
        # the lower eight bits are the primary code; errors of the driver itself have none
        return SQLITE.get(getattr(cause, "sqlite_errorcode", 0) & 0xFF)
    if isinstance(cause, psycopg.Error):
        state = cause.sqlstate or ""
        if error.connection_invalidated or (not state and isinstance(cause, psycopg.OperationalError)):
            return "away"
        return POSTGRES.get(state) or POSTGRES.get(state[:2])
    return None


@cache
def _newest() -> str | None:
    return migrate.newest()


def ready(db: Database) -> bool:
    """Whether the database answers and has the tables of this program."""
    try:
        return migrate.revision(db) == _newest()
    except TROUBLES:
        return False
