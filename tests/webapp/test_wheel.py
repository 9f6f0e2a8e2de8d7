"""The wheel holds all it needs: installed outside the checkout it serves, keeps its data elsewhere, and checks a job file."""

import os
import re
import shutil
import subprocess
import sys
import sysconfig
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx2
import pytest

ROOT = Path(__file__).parents[2]
SOURCES = ("engine", "webapp", "templates", "static", "migrations")
FILES = ("pyproject.toml", "setup.py", "MANIFEST.in", "README.md", "LICENSE")


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Built from a copy, so that nothing of an earlier build is in it and nothing is left in the checkout."""
    folder = tmp_path_factory.mktemp("wheel")
    for name in SOURCES:
        shutil.copytree(ROOT / name, folder / "source" / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in FILES:
        shutil.copy(ROOT / name, folder / "source")
    command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--disable-pip-version-check", "--no-deps"]
    done = subprocess.run(
        [*command, "--no-build-isolation", "--wheel-dir", folder, folder / "source"],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return next(folder.glob("*.whl"))


@pytest.fixture(scope="module")
def python(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A fresh environment with the wheel; the libraries it needs are lent by the one the tests run in."""
    home = tmp_path_factory.mktemp("installed") / "env"
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", home], check=True)
    python = home / "bin" / "python"
    install = [sys.executable, "-m", "pip", "--python", python, "install", "--quiet", "--disable-pip-version-check"]
    subprocess.run([*install, "--no-deps", "--no-index", wheel], check=True)
    # lends the libraries, not the checkout: what a path file adds has its own path files left alone
    own = next((home / "lib").glob("python*/site-packages"))
    (own / "lent.pth").write_text(sysconfig.get_path("purelib"))
    return python


def test_every_file_of_the_checkout_that_is_no_test_is_in_the_wheel(wheel: Path) -> None:
    inside = set(zipfile.ZipFile(wheel).namelist())
    tracked = subprocess.run(["git", "ls-files", *SOURCES], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    for name in tracked.splitlines():
        if (ROOT / name).exists():  # others may be moving it
            assert (name if name.startswith(("engine", "webapp")) else f"webapp/_files/{name}") in inside, name


@contextmanager
def _served(python: Path, elsewhere: Path) -> Iterator[str]:
    kept = {name: value for name, value in os.environ.items() if name not in ("DATABASE_URL", "PYTHONPATH", "HOST")}
    process = subprocess.Popen(
        [python.parent / "wallseat", "serve", "--demo"],
        cwd=elsewhere, env=kept | {"PORT": "0", "XDG_DATA_HOME": str(elsewhere / "data")}, stdout=subprocess.PIPE, text=True,
    )  # fmt: skip
    try:
        assert process.stdout is not None
        found = None
        while found is None:
            line = process.stdout.readline()
            assert line, "it ended before it served"
            found = re.search(r"http://\S+", line)
        yield found[0]
    finally:
        process.terminate()
        process.wait(20)
        process.stdout.close()


def test_installed_it_serves_its_own_pages_and_keeps_its_data_with_the_user(python: Path, tmp_path: Path) -> None:
    with _served(python, tmp_path) as address:
        page = httpx2.get(f"{address}/try/ledge_seat", headers={"user-agent": "a test"})
        assert page.status_code == 200
        style = re.search(r'href="(/static/wallseat\.css[^"]*)"', page.text)
        assert style
        assert httpx2.get(address + style[1]).status_code == 200
        assert (tmp_path / "data" / "wallseat" / "wallseat.sqlite").is_file()
    where = subprocess.run(
        [python, "-c", "import webapp; print(webapp.__file__)"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    assert str(ROOT) not in where


def test_installed_it_checks_a_job_file(python: Path, tmp_path: Path) -> None:
    command = python.parent / "wallseat"
    subprocess.run([command, "demo", "--write", "job.json"], cwd=tmp_path, check=True, capture_output=True)
    done = subprocess.run([command, "check", "job.json"], cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.returncode in (0, 1), done.stderr
    assert "ledge" in done.stdout.lower()
