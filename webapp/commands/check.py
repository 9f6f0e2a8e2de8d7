"""`wallseat check JOB.json`: the verdicts of a job file."""

import argparse
import json
import sys
from pathlib import Path

from engine import VERSION, job_file
from engine.editions import EDITIONS
from engine.job import AttachmentEntry, Checked, Job
from engine.job_file import BadJobFile, Problem
from engine.result import LOCAL_CODE, Verdict
from webapp.documents import result_json
from webapp.services import checks

ALL_PASS, FLAGGED, UNUSABLE = 0, 1, 2


def run(options: argparse.Namespace) -> int:
    """Print the verdicts. Returns: 0 all pass, 1 any flag or refer, 2 unusable file."""
    try:
        found = job_file.read(job_text(options.file))
    except BadJobFile as error:
        return unusable(options.file, error.problems, options.json)
    edition_key = options.edition or found.edition
    if edition_key not in EDITIONS:
        print(f"wallseat: no edition set {edition_key!r}. Known sets: {', '.join(EDITIONS)}.", file=sys.stderr)
        return UNUSABLE
    checked = checks.whole(found, edition_key)
    if options.json:
        print(json.dumps(_record(found, edition_key, checked), ensure_ascii=False, indent=2))
    else:
        _print(found, edition_key, checked)
    good = all(c.result is not None and c.result.verdict is Verdict.PASS for c in checked)
    return ALL_PASS if good else FLAGGED


def job_text(path: Path) -> str:
    """The text of a job file. Raises: BadJobFile."""
    try:
        return path.read_bytes().decode("utf-8-sig")
    except OSError as error:
        raise BadJobFile((Problem(0, "(whole file)", f"It can't be read: {error.strerror}."),)) from None
    except UnicodeDecodeError as error:
        line = path.read_bytes()[: error.start].count(b"\n") + 1
        raise BadJobFile((Problem(line, "(whole file)", "This is not UTF-8 text."),)) from None


def unusable(file: Path, problems: tuple[Problem, ...], as_json: bool = False) -> int:
    """Say why a file can't be used. Returns: the exit code for that."""
    for problem in problems:
        where = f"{file}:{problem.line}" if problem.line else str(file)
        print(f"{where}: {problem.path}: {problem.reason}", file=sys.stderr)
    if as_json:
        rows = [{"line": p.line, "path": p.path, "reason": p.reason} for p in problems]
        print(json.dumps({"unusable": rows}, ensure_ascii=False, indent=2))
    return UNUSABLE


def _record(found: Job, edition_key: str, checked: tuple[Checked, ...]) -> dict[str, object]:
    rows = [
        {"tag": e.tag, "kind": e.kind, "wall": e.wall, "level": e.level, **result_json.checked(c)}
        for e, c in zip(found.attachments, checked, strict=True)
    ]
    return {
        "job": found.name,
        "edition": edition_key,
        "engine": VERSION,
        "attachments": rows,
        "local_code": LOCAL_CODE,
    }


def _print(found: Job, edition_key: str, checked: tuple[Checked, ...]) -> None:
    print(f"{found.name}, {edition_key}, engine {VERSION}\n")
    for entry, one in zip(found.attachments, checked, strict=True):
        print(_line(entry, one))
        for text in _reasons(one):
            print(f"        {text}")
    if not checked:
        print("No attachments.")
    print(f"\n{LOCAL_CODE}")


def _line(entry: AttachmentEntry, one: Checked) -> str:
    verdict = one.result.verdict.value if one.result else Verdict.UNCHECKED.value
    governing = one.result.governing if one.result else None
    ratio = "" if governing is None or governing.ratio is None else f"{governing.ratio:.2f}"
    title = governing.title if governing else ""
    return f"{entry.tag:<5} {verdict:<12} {ratio:>6}  {entry.kind:<15} {entry.wall:<8} {title}".rstrip()


def _reasons(one: Checked) -> list[str]:
    if one.result is None:
        return [f"{name}: {message}" for name, message in one.refused.items()]
    return [
        f"{state.verdict.value}: {state.sentence()} ({state.source.label(one.result.edition)})"
        for state in one.result.states
        if state.verdict in (Verdict.FLAG, Verdict.REFER)
    ]
