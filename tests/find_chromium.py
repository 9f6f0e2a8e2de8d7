"""Finds a Chromium for the browser tests, or installs one: apt when root, else playwright's own download.

Run as a program it says what it found. CHROMIUM names one by path.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

NAMES = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome")
HELP = """No Chromium was found and none could be installed. The browser tests need one. Do one of:
  - install it with the system's package manager (Debian, Ubuntu: apt-get install chromium),
  - run  .venv/bin/playwright install chromium  where downloads are allowed,
  - set CHROMIUM to the path of one that is installed already."""


def found() -> str | None:
    """The path of a Chromium that is there and runs, or None."""
    candidates = [os.environ.get("CHROMIUM", ""), *(shutil.which(name) or "" for name in NAMES), _playwrights()]
    return next((path for path in candidates if path and _runs(path)), None)


def _playwrights() -> str:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        path = playwright.chromium.executable_path
    return path if Path(path).exists() else ""


def _runs(path: str) -> bool:
    try:
        answer = subprocess.run([path, "--version"], capture_output=True, text=True, timeout=60, check=False)
    except OSError:
        return False
    return answer.returncode == 0 and "hrom" in answer.stdout


def _by_apt() -> bool:
    if os.geteuid() != 0 or shutil.which("apt-get") is None:
        return False
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    install = ["apt-get", "install", "--yes", "--no-install-recommends", "chromium", "fonts-liberation"]
    for command in (["apt-get", "update"], install):
        done = subprocess.run(command, env=quiet, stdout=subprocess.DEVNULL, check=False)
    return done.returncode == 0


def _by_playwright() -> bool:
    done = subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], check=False)
    return done.returncode == 0


def main() -> int:
    """Find or install. Returns: 0 with a path printed, 1 with what to do."""
    path = found()
    for name, install in (("apt", _by_apt), ("playwright", _by_playwright)):
        if path is None:
            print(f"No Chromium yet; trying {name}.", flush=True)
            install()
            path = found()
    print(f"Browser tests use {path}" if path else HELP, file=sys.stdout if path else sys.stderr)
    return 0 if path else 1


if __name__ == "__main__":
    sys.exit(main())
