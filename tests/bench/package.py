"""A package by how many attachments it holds: its time, and the most room any of its processes takes."""

import json
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import NamedTuple

from engine import job_file
from engine.job import plan
from engine.setting_out import Habits
from tests.world import house
from webapp.package.order import Order
from webapp.package.orders import published
from webapp.settings import ROOT
from webapp.submission import document

COUNTS = (10, 100, 400)
MOST_S, MOST_MB, MOST_GROWTH = (
    3.0,
    250.0,
    1.35,
)  # of 100 attachments; growth: a package's time an attachment, against the smaller one


class Made(NamedTuple):
    """Seconds, the most megabytes of any process, bytes."""

    seconds: float
    megabytes: float
    size: int


def order(count: int, origin: str = "http://127.0.0.1") -> Order:
    """A revision of so many attachments, no two with the same numbers."""
    seats = [
        house()["attachments"][n % 2]
        | {"tag": f"A{n + 1}", "inputs": {"lap_in": "48 in", "span_ft": f"{8 + n * 0.02:.2f} ft", "live_psf": f"{30 + n % 37} psf"}}
        for n in range(count)
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
        start = perf_counter()
        command = [sys.executable, "-m", "webapp.package", str(target)]
        done = subprocess.run(command, input=asked.text().encode(), stdout=subprocess.PIPE, cwd=ROOT, check=True)
        seconds = perf_counter() - start
        name, _, peak = done.stdout.decode().splitlines()[-1].partition(" ")
        assert name == "peak"
        return Made(seconds, int(peak) / 1024, target.stat().st_size)
