"""Where the program's files are. Loaded without the settings: a process that only draws or typesets needs none of those."""

from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
# Installed from a wheel, these folders are inside the package; in a checkout they stand beside it.
WITH_PACKAGE = Path(__file__).resolve().parent / "_files"
INSTALLED = WITH_PACKAGE.is_dir()
FILES = WITH_PACKAGE if INSTALLED else ROOT
TEMPLATES = FILES / "templates"
STATIC = FILES / "static"
MIGRATIONS = FILES / "migrations"
