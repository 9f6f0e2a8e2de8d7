"""The rooms of the house, and what may lead where. The import contracts in pyproject.toml run here too."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PYTHON = sorted((ROOT / "webapp").rglob("*.py")) + sorted((ROOT / "engine").rglob("*.py"))
TEMPLATES = sorted((ROOT / "templates").rglob("*.html"))
CHECKING = {"check", "solve", "remedies", "slips"}
ENGINE_MODULES = {"attachments", "kinds", "solve", "job", "plan", "typed", "standing"}


def test_imports_run_downward_only() -> None:
    script = Path(sys.executable).parent / "lint-imports"
    done = subprocess.run([script, "--no-cache"], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout


def calls(path: Path) -> list[tuple[str, str]]:
    """What a module calls, as (what it is called on, name)."""
    found = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            on = node.func.value
            name = on.id if isinstance(on, ast.Name) else on.attr if isinstance(on, ast.Attribute) else ""
            found.append((name, node.func.attr))
    return found


@pytest.mark.parametrize("room", ["pages", "api", "forms", "commands", "documents", "drawings", "security"])
def test_only_services_call_a_check(room: str) -> None:
    for path in (ROOT / "webapp" / room).rglob("*.py"):
        text = path.read_text(encoding="utf-8")
        for on, name in calls(path):
            engines_own = f"from engine import {on}" in text or on in ("plan", "solve")
            assert not (name in CHECKING and engines_own), f"{path}: {on}.{name}"


def test_nothing_happens_at_import() -> None:
    """No settings, database or application is made by importing a module."""
    made = re.compile(r"^\w+ = (Settings|create_app|open_database|create_engine|FastAPI)\(", re.MULTILINE)
    for path in PYTHON:
        assert not made.search(path.read_text(encoding="utf-8")), path


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_templates_hold_no_script_no_style_and_no_arithmetic(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert not re.search(r"<script(?![^>]*\bsrc=)", text)
    assert not re.search(r"\sstyle=|<style|\son\w+=|hx-on|hx-vals=['\"]js:|\|\s*safe\b", text)
    for expression in re.findall(r"\{\{(.*?)\}\}", text, re.DOTALL):
        bare = re.sub(r"\"[^\"]*\"|'[^']*'", "", expression)
        assert not re.search(r"\w\s*[*/]\s*\w", bare), expression


def test_every_module_says_what_it_is_for() -> None:
    for path in PYTHON:
        text = path.read_text(encoding="utf-8")
        assert not text or ast.get_docstring(ast.parse(text)), path


def test_every_public_name_says_what_it_is() -> None:
    for path in PYTHON:
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef)) and not node.name.startswith(
                "_"
            ):
                assert ast.get_docstring(node), f"{path.relative_to(ROOT)}: {node.name}"


def test_the_top_of_the_project_holds_what_is_meant_to_be_there() -> None:
    tracked = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if tracked.returncode != 0:
        pytest.skip("not a checkout")
    top = {line.split("/")[0] for line in tracked.stdout.splitlines()}
    known = {
        "README.md", "DEVELOPERS.md", "LICENSE", "Makefile", "MANIFEST.in", "SECURITY.md", "deploy", "setup.py",
        "pyproject.toml", "requirements.lock", ".gitignore", ".ci",
        "docs", "engine", "webapp", "templates", "static", "tests", "migrations",
    }  # fmt: skip
    assert top <= known, top - known
