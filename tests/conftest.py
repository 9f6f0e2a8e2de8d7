"""Fixtures every test may use, databases of both kinds, and the count of published cases at the end of a run."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

from tests.migrations.filled import people_at_work, reviewed
from tests.postgres import Server
from tests.world import World, world

# the same examples on every machine, and no clock: two cores are shared by the browser and everything else
settings.register_profile("suite", deadline=None, derandomize=True)
settings.load_profile("suite")
KINDS = ("sqlite", "postgres")


def pytest_addoption(parser: pytest.Parser) -> None:
    """On which databases tests that use one run."""
    parser.addoption("--database", choices=(*KINDS, "both"), default="sqlite", help="what tests with a database run on")


def pytest_configure(config: pytest.Config) -> None:
    """The mark of a test that is about one kind only."""
    config.addinivalue_line(
        "markers", "only(kind): about one kind of database, sqlite or postgres, whichever is chosen"
    )


def _only(node: pytest.Item) -> str:
    mark = node.get_closest_marker("only")
    return str(mark.args[0]) if mark else ""


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Run what uses a database once on each."""
    both = metafunc.config.getoption("--database") == "both"
    if both and "database_kind" in metafunc.fixturenames and not _only(metafunc.definition):
        metafunc.parametrize("database_kind", KINDS)


@pytest.fixture
def database_kind(request: pytest.FixtureRequest) -> str:
    """Which kind of database this test runs on."""
    return _only(request.node) or str(request.config.getoption("--database"))


@pytest.fixture(scope="session")
def postgres() -> Iterator[Server]:
    """A server, started when first asked for."""
    server = Server()
    yield server
    server.close()


class Databases:
    """Databases for one test each: empty, or copies of one that is migrated and has the demo's people."""

    def __init__(self, folder: Path, request: pytest.FixtureRequest) -> None:
        self.folder = folder
        self.request = request
        self._filled: dict[tuple[str, bool], str] = {}

    def _server(self) -> Server:
        server: Server = self.request.getfixturevalue("postgres")
        return server

    def empty(self, kind: str, folder: Path) -> str:
        """The address of a new one without tables."""
        assert kind in KINDS, kind
        if kind == "sqlite":
            folder.mkdir(parents=True, exist_ok=True)
            return f"sqlite:///{folder / 'test.sqlite'}"
        return self._server().url(self._server().create())

    def filled(self, kind: str, folder: Path, with_everything: bool = False) -> str:
        """The address of a new copy: of the demo's people only, or of an office with everything in it."""
        if (kind, with_everything) not in self._filled:
            self._filled[kind, with_everything] = self.empty(kind, self.folder / str(with_everything))
            with world(self._filled[kind, with_everything]) as made:
                if with_everything:
                    reviewed(made, people_at_work(made))
        source = self._filled[kind, with_everything]
        if kind == "sqlite":
            target = self.empty(kind, folder)
            shutil.copyfile(source.removeprefix("sqlite:///"), target.removeprefix("sqlite:///"))
            return target
        return self._server().url(self._server().create(template=_name(source)))

    def remove(self, url: str) -> None:
        """Make room; the folder of an SQLite file is the test's own."""
        if not url.startswith("sqlite"):
            self._server().drop(_name(url))


def _name(url: str) -> str:
    return url.partition("@/")[2].partition("?")[0]


@pytest.fixture(scope="session")
def databases(tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest) -> Databases:
    """Where tests get their databases from."""
    return Databases(tmp_path_factory.mktemp("databases"), request)


@pytest.fixture
def database(database_kind: str, databases: Databases, tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[str]:
    """The address of a database with tables and the demo's people, and nothing else unless a test asks for everything."""
    url = databases.filled(database_kind, tmp_path, "everything" in request.fixturenames)
    yield url
    databases.remove(url)


@pytest.fixture
def empty_database(database_kind: str, databases: Databases, tmp_path: Path) -> Iterator[str]:
    """The address of a database without tables."""
    url = databases.empty(database_kind, tmp_path / "empty")
    yield url
    databases.remove(url)


@pytest.fixture
def at(database: str, tmp_path: Path) -> Iterator[World]:
    """A world with an empty database."""
    with world(database, packages_folder=str(tmp_path / "packages")) as made:
        yield made


@pytest.fixture
def everything(at: World) -> World:
    """An office with everything in it; its connections are given back, as after the server stopped."""
    at.db.close()
    return at


@pytest.fixture
def job(at: World) -> int:
    """A small house in that world."""
    return at.job()


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """How the published cases stand, whatever was selected."""
    if hasattr(terminalreporter.config, "workerinput"):
        return
    from engine import proving

    outcomes = proving.run_all(proving.own_cases())
    counts = ", ".join(f"{count} {verdict.replace('_', ' ')}" for verdict, count in proving.counts(outcomes).items())
    read = [o for o in outcomes if o.case.provenance == "read"]
    agreed = sum(o.verdict == "agree" for o in read)
    terminalreporter.write_line(f"Published cases: {counts}. Of {len(read)} read at the source, {agreed} agree.")
