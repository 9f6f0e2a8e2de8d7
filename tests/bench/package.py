"""A package by how many attachments it holds: its time, and the most room any of its processes takes."""

import json
import subprocess
import sys
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import NamedTuple

from engine import job_file
from engine.job import plan
from engine.setting_out import Habits
from tests.world import house
from webapp.folders import ROOT
from webapp.package.order import Order
from webapp.package.orders import published
from webapp.submission import document

COUNTS = (10, 100, 400)
# Of 100 attachments; growth: a package's time an attachment, against the smaller one.
MOST_S, MOST_MB, MOST_GROWTH = 3.0, 250.0, 1.35


class Made(NamedTuple):
    """Seconds, the most megabytes of any process, bytes; seconds of a core that all its processes took together."""

    seconds: float
    megabytes: float
    size: int
    cpu_s: float


def order(count: int, origin: str = "http://127.0.0.1", different: int = 10_000) -> Order:
    """A revision of so many attachments, no two with the same numbers, or only so many different ones."""
    seats = [
        house()["attachments"][n % 2]
        | {"tag": f"A{n + 1}", "inputs": {"lap_in": "48 in", "span_ft": f"{8 + m * 0.02:.2f} ft", "live_psf": f"{30 + m % 37} psf"}}
        for n in range(count)
        for m in [n % different]
    ]  # fmt: skip
    job = job_file.read(json.dumps(house() | {"attachments": seats}))
    text = document.write(job, plan(job, today="2026-05-27"), Habits())
    stamp = {
        "job": job.name, "revision": "A, submitted 27 May 2026", "fingerprint": document.fingerprint(text), "edition": job.edition,
        "made_at": "2026-05-27T14:05:00", "cover": [["Revision", "A"]], "origin": origin,
    }  # fmt: skip
    return Order("revision", stamp, json.loads(text), published())


def made(asked: Order) -> Made:
    """Make it in a process of its own, as the pages do."""
    with TemporaryDirectory() as folder:
        target = Path(folder) / "package.pdf"
        start, before = perf_counter(), _spent_s()
        command = [sys.executable, "-m", "webapp.package", str(target)]
        done = subprocess.run(command, input=asked.text().encode(), stdout=subprocess.PIPE, cwd=ROOT, check=True)
        seconds = perf_counter() - start
        name, _, peak = done.stdout.decode().splitlines()[-1].partition(" ")
        assert name == "peak"
        return Made(seconds, int(peak) / 1024, target.stat().st_size, _spent_s() - before)


def _spent_s() -> float:
    """Of all processes this one began and saw end."""
    used = getrusage(RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def realistic(count: int) -> Order:
    """A job as offices draw them: the same few attachments over and over, eight different ones."""
    return order(count, different=8)
