"""A real PostgreSQL server for the tests: in a folder of its own, on a Unix socket, without a network port.

Run as a program it finds the server's binaries, or installs them with apt when root. POSTGRES_BIN names their folder.
"""

import ctypes
import os
import pwd
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from contextlib import suppress
from pathlib import Path
from typing import Any

import psycopg

HELP = """No PostgreSQL server was found and none could be installed. The tests need its binaries, not a running server. Do one of:
  - install it with the system's package manager (Debian, Ubuntu: apt-get install postgresql),
  - set POSTGRES_BIN to the folder that holds initdb and postgres."""
OWNER = "wallseat"
NEW_SERVERS = Path("/etc/postgresql-common/createcluster.conf")
# Nothing here outlives the run, so nothing waits for the disk.
QUICK = {
    "listen_addresses": "",
    "fsync": "off",
    "synchronous_commit": "off",
    "full_page_writes": "off",
    "shared_buffers": "32MB",
    "autovacuum": "off",
    "log_min_messages": "fatal",
    "wal_level": "minimal",
    "max_wal_senders": "0",
    "max_wal_size": "64MB",
}
MEMORY, ENOUGH = Path("/dev/shm"), 2**30


def found() -> Path | None:
    """The folder with initdb and postgres, the newest version first; None without one."""
    on_path = shutil.which("initdb")
    debian = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda path: int(path.parent.name), reverse=True)
    candidates = [
        Path(os.environ.get("POSTGRES_BIN", "/nowhere")),
        *debian,
        *([Path(on_path).parent] if on_path else []),
    ]
    return next((path for path in candidates if (path / "initdb").exists() and (path / "postgres").exists()), None)


def _by_apt() -> None:
    """The package makes a server of its own as it is installed, on a port, unless it is told before not to."""
    if os.geteuid() != 0 or shutil.which("apt-get") is None:
        return
    _apt("update")
    _apt("install", "postgresql-common")
    before = NEW_SERVERS.read_text(encoding="utf-8") if NEW_SERVERS.exists() else ""
    NEW_SERVERS.parent.mkdir(exist_ok=True)
    NEW_SERVERS.write_text(f"{before}\ncreate_main_cluster = false\n", encoding="utf-8")
    _apt("install", "postgresql")
    NEW_SERVERS.write_text(before, encoding="utf-8")


def _apt(what: str, *packages: str) -> None:
    command = ["apt-get", what, *(("--yes", "--no-install-recommends") if packages else ()), *packages]
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    subprocess.run(command, env=quiet, stdout=subprocess.DEVNULL, check=False)


def _whom() -> dict[str, Any]:
    """As whom the server runs: root may not, so somebody with fewer rights does."""
    if os.geteuid() != 0:
        return {}
    names = {entry.pw_name for entry in pwd.getpwall()}
    user = pwd.getpwnam("postgres" if "postgres" in names else "nobody")
    return {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []}


def _where() -> str | None:
    """Where data lies: in memory where there is plenty, since a database is hundreds of files; None for a temporary folder."""
    try:
        room = shutil.disk_usage(MEMORY).free
    except OSError:
        return None
    return str(MEMORY) if room >= ENOUGH and os.access(MEMORY, os.W_OK | os.X_OK) else None


def _end_with_the_tests() -> None:
    """A run that is killed must not leave its server behind (prctl(2), PR_SET_PDEATHSIG)."""
    with suppress(AttributeError):  # Linux only
        ctypes.CDLL(None).prctl(1, signal.SIGQUIT)


class Server:
    """One server with its data. It can be stopped and started again."""

    def __init__(self) -> None:
        binaries = found()
        assert binaries is not None, HELP
        self.binaries = binaries
        # a socket's path must be short, which a test's own folder isn't
        self.folder = Path(tempfile.mkdtemp(prefix="wallseat-pg-", dir=_where()))
        self.whom = _whom()
        if self.whom:
            os.chown(self.folder, self.whom["user"], self.whom["group"])
        self._made = 0
        self._process: subprocess.Popen[bytes] | None = None
        self._run("initdb", "--no-sync", "--auth=trust", f"--username={OWNER}", "--encoding=UTF8", "--locale=C.UTF-8",
                  "--locale-provider=icu", "--icu-locale=en", "-D", self.data)  # fmt: skip
        self.start()

    @property
    def data(self) -> str:
        """The folder of its data."""
        return str(self.folder / "data")

    def _run(self, program: str, *arguments: str) -> None:
        done = subprocess.run(
            [self.binaries / program, *arguments], cwd=self.folder, capture_output=True, text=True, **self.whom
        )
        assert done.returncode == 0, f"{program}: {done.stdout}\n{done.stderr}"

    def start(self) -> None:
        """Start, and wait until it answers."""
        settings = [part for name, value in QUICK.items() for part in ("-c", f"{name}={value}")]
        command = [str(self.binaries / "postgres"), "-D", self.data, "-k", str(self.folder), *settings]
        log = (self.folder / "log").open("ab")
        self._process = subprocess.Popen(
            command, cwd=self.folder, stdout=log, stderr=log, preexec_fn=_end_with_the_tests, **self.whom
        )
        log.close()
        until = time.monotonic() + 60
        while True:
            try:
                psycopg.connect(host=str(self.folder), user=OWNER, dbname="postgres").close()
            except psycopg.OperationalError:
                assert self._process.poll() is None, (self.folder / "log").read_text(encoding="utf-8")
                assert time.monotonic() < until, "PostgreSQL does not start"
                time.sleep(0.05)
            else:
                return

    def stop(self) -> None:
        """End it at once, as a fault would."""
        if self._process is not None:
            self._process.send_signal(signal.SIGQUIT)  # immediate
            self._process.wait(30)
            self._process = None

    def close(self) -> None:
        """End it and remove its data."""
        self.stop()
        shutil.rmtree(self.folder, ignore_errors=True)

    def url(self, name: str) -> str:
        """The address of one database."""
        return f"postgresql+psycopg://{OWNER}@/{name}?host={self.folder}"

    def command(self, *statements: str) -> None:
        """Run statements outside a transaction."""
        with psycopg.connect(host=str(self.folder), user=OWNER, dbname="postgres", autocommit=True) as connection:
            for statement in statements:
                connection.execute(statement.encode())

    def create(self, template: str = "template0") -> str:
        """A new database. Returns: its name."""
        self._made += 1
        name = f"made_{self._made}"
        self.command(f"CREATE DATABASE {name} TEMPLATE {template}")
        return name

    def drop(self, name: str) -> None:
        """Remove a database, whoever is still in it."""
        self.command(f"DROP DATABASE IF EXISTS {name} WITH (FORCE)")


def main() -> int:
    """Find or install. Returns: 0 with the folder printed, 1 with what to do."""
    if found() is None:
        print("No PostgreSQL yet; trying apt.", flush=True)
        _by_apt()
    path = found()
    print(f"PostgreSQL tests use {path}" if path else HELP, file=sys.stdout if path else sys.stderr)
    return 0 if path else 1


if __name__ == "__main__":
    sys.exit(main())
