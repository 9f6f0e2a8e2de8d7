"""One program of several processes behind one address."""

import os
import signal
import socket
import time
from contextlib import ExitStack, closing
from pathlib import Path

import pytest
from pydantic import ValidationError

from tests.load.program import Program, program
from tests.world import house
from webapp.commands import serve
from webapp.settings import Settings


def serving(served: Program) -> set[int]:
    """The processes that answer."""
    own = Path(f"/proc/{served.process.pid}/task/{served.process.pid}/children").read_text(encoding="utf-8").split()
    return {int(pid) for pid in own if b"spawn_main" in Path(f"/proc/{pid}/cmdline").read_bytes()}


def test_a_process_takes_one_caller_at_a_time_so_that_the_others_get_theirs() -> None:
    """As asyncio asks: until nobody waits any more, which is said after each."""
    with ExitStack() as open_ones:
        mine = serve.Listener(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
        mine.bind(("127.0.0.1", 0))
        mine.listen()
        mine.setblocking(False)
        theirs = serve.Listener(fileno=os.dup(mine.fileno()))  # as another process has it
        for one in (mine, theirs, *(socket.create_connection(mine.getsockname()) for _ in range(4))):
            open_ones.enter_context(one)
        for process in (mine, theirs, mine, theirs):
            caller, _ = process.accept()
            caller.close()
            with pytest.raises(BlockingIOError):
                process.accept()
        for process in (mine, theirs):
            with pytest.raises(BlockingIOError):
                process.accept()  # nobody waits


def test_a_process_killed_in_the_middle_of_a_review_is_replaced_and_nothing_acknowledged_is_lost(
    empty_database: str,
) -> None:
    with program(empty_database, WALLSEAT_PROCESSES="2") as served, closing(served.visitor("designer")) as designer:
        job = designer.send("POST", "/api/jobs", house()).json["id"]
        assert designer.post(f"/jobs/{job}/revisions", {"note": "first"}).status == 303
        before, acknowledged = serving(served), []
        assert len(before) == 2
        with closing(served.visitor("inspector")) as inspector:
            for number in range(30):
                if number == 10:
                    os.kill(min(before), signal.SIGKILL)
                fields = {
                    "kind": "decision",
                    "item": "accept",
                    "text": "Seen",
                    "place": "A1",
                    "stage": "before placing",
                }
                key = f"decision-number-{number:04}"
                answer = inspector.post(f"/jobs/{job}/review/1/items", fields | {"base": "1", "key": key})
                assert answer.status == 201, answer.body
                acknowledged.append(answer.json["id"])
        assert len(set(acknowledged)) == 30
        until = time.monotonic() + 60
        while len(serving(served) - {min(before)}) < 2:
            assert time.monotonic() < until, "no other took its place"
            time.sleep(0.1)
        assert designer.get(f"/jobs/{job}/review/1").status == 200


def test_counts_for_prometheus_go_with_one_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("WALLSEAT_PROCESSES", "2")
    monkeypatch.setenv("WALLSEAT_METRICS_PORT", "9100")
    with pytest.raises(ValidationError, match="one process"):
        Settings()
