"""Databases that hold something: what they hold, counted, and rows as the first revision has them."""

from typing import Any

from alembic.script import ScriptDirectory
from sqlalchemy import inspect, select, text

from tests.webapp.test_api_tokens import made
from tests.webapp.test_designs import kept as designed
from tests.webapp.test_reviews import picture, sent
from tests.webapp.test_revisions import SEEN, linked, submitted
from tests.world import World
from webapp.migrate import configuration
from webapp.models import Checklist, Release, Wall
from webapp.models.packed import unpack
from webapp.services import audit, demo, log, revisions
from webapp.store import Database, writing

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


def contents(db: Database) -> dict[str, list[dict[str, Any]]]:
    """Every row of every table, as the database hands it out; a compressed document as the text it is, which counts."""
    with db.engine.connect() as connection:
        found = {
            name: [dict(row) for row in connection.execute(text(f'SELECT * FROM "{name}" ORDER BY 1')).mappings()]
            for name in counts(db)
        }
    for row in found.get("revision", ()):
        if isinstance(row["document"], bytes):
            row["document"] = unpack(row["document"])
    return found


def guards(db: Database) -> set[str]:
    """The triggers and the functions behind them, as the database would make them again."""
    query = (
        "SELECT sql FROM sqlite_master WHERE type = 'trigger'"
        if db.engine.dialect.name == "sqlite"
        else "SELECT pg_get_triggerdef(t.oid) || tgenabled::text || prosrc FROM pg_trigger t JOIN pg_proc p ON p.oid = tgfoid "
        "WHERE NOT tgisinternal"
    )
    with db.engine.connect() as connection:
        return set(connection.scalars(text(query)))


def people_at_work(at: World) -> int:
    """The demo job with floor lines, a program's token, somebody refused: no revision yet. Returns: the job's id."""
    job = demo.load(at.db)
    made(at.reader)
    audit.refused(at.db, 1, 1, "GET /somewhere", "")
    return job


def reviewed(at: World, job: int) -> None:
    """A revision submitted, reviewed with a photograph, covered by a design, opened by a link, accepted, logged with a file."""
    submitted(at, job)
    inspector = at.as_("inspector")
    for key, fields in (
        ("a-tick-of-its-own", {}),
        ("a-photo-of-its-own", {"kind": "photo", "item": "", "text": "", "photo": picture()}),
    ):
        assert sent(inspector, job, key, **fields).status_code == 201
    at.nobody().post(linked(at, job))
    designed(at, job)
    with writing(at.db) as session:
        rows = [{"key": "a", "words": "Level", "measure": "", "stop": ""}]
        session.add(
            Checklist(office_id=1, kind="wall", stage="before placing", version=1, items=rows, by_name="Ada Stone")
        )
        wall = session.scalars(select(Wall.id).where(Wall.job_id == job)).first()
        session.add(
            Release(job_id=job, wall_id=wall, level=1, point="weather", words="dry", held=False, by_name="Ada Stone")
        )
        revisions.decide(session, SEEN, revisions.find(session, job, 1), True, log.Said("accepted"))
    form = {"what": "permit", "number": "1", "permit": "P-2", "words": "Café"}
    answer = at.as_("office").post(
        f"/jobs/{job}/log", data=form, files={"files": ("p.pdf", b"%PDF-1.7 x", "application/pdf")}
    )
    assert answer.status_code == 303, answer.text
