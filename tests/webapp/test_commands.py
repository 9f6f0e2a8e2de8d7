"""The command line, run as a user runs it."""

import json
import os
import re
import socket
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest

from engine import job_file
from tests.world import house
from webapp.__main__ import main
from webapp.commands import serve
from webapp.services import demo
from webapp.settings import Settings

Out = pytest.CaptureFixture[str]


def file(folder: Path, document: object) -> str:
    path = folder / "job.json"
    path.write_text(document if isinstance(document, str) else json.dumps(document, indent=1), encoding="utf-8")
    return str(path)


def passing() -> dict[str, object]:
    return house() | {"attachments": house()["attachments"][:1]}


def test_a_job_whose_every_attachment_passes_exits_0(tmp_path: Path, capsys: Out) -> None:
    assert main(["check", file(tmp_path, passing())]) == 0
    out = capsys.readouterr().out
    assert re.search(r"A1 +pass", out)
    assert "Local code and the authority having jurisdiction govern" in out


def test_a_job_with_a_flag_exits_1_and_says_which_line_and_rule(tmp_path: Path, capsys: Out) -> None:
    assert main(["check", file(tmp_path, house())]) == 1
    out = capsys.readouterr().out
    assert re.search(r"A2 +flag", out)
    assert "its drawing asks for 5 in" in out


def test_the_same_as_json_with_every_line_and_its_working(tmp_path: Path, capsys: Out) -> None:
    assert main(["check", file(tmp_path, house()), "--json", "--edition", "US 2024"]) == 1
    found = json.loads(capsys.readouterr().out)
    assert found["edition"] == "US 2024"
    assert [a["verdict"] for a in found["attachments"]] == ["pass", "flag"]
    assert found["attachments"][0]["lines"][1]["working"]
    assert found["local_code"]


def test_an_unusable_file_exits_2_and_names_line_path_and_reason(tmp_path: Path, capsys: Out) -> None:
    path = file(tmp_path, house() | {"colour": "blue"})
    assert main(["check", path]) == 2
    assert re.search(rf"{re.escape(path)}:\d+: colour: Unknown key", capsys.readouterr().err)


@pytest.mark.parametrize("content", ["", "{", "[]", "\ufeff[]"])
def test_a_file_that_is_no_job_exits_2(tmp_path: Path, capsys: Out, content: str) -> None:
    assert main(["check", file(tmp_path, content), "--json"]) == 2
    assert json.loads(capsys.readouterr().out)["unusable"][0]["reason"]


def test_a_file_that_is_no_text_exits_2(tmp_path: Path, capsys: Out) -> None:
    path = tmp_path / "job.json"
    path.write_bytes(b'{\n"name": "\xff"}')
    assert main(["check", str(path)]) == 2
    assert f"{path}:2: (whole file): This is not UTF-8 text." in capsys.readouterr().err


def test_a_file_that_is_not_there_exits_2(tmp_path: Path, capsys: Out) -> None:
    assert main(["check", str(tmp_path / "none.json")]) == 2
    assert "can't be read" in capsys.readouterr().err


def test_an_edition_there_is_not_exits_2_and_names_the_known_ones(tmp_path: Path, capsys: Out) -> None:
    assert main(["check", file(tmp_path, house()), "--edition", "US 1999"]) == 2
    assert "US 2021, US 2024" in capsys.readouterr().err


def case(**changes: object) -> dict[str, object]:
    return {
        "id": "new-1", "topic": "nothing/known", "provenance": "derived", "source": {"title": "By hand"},
        "inputs": {}, "expected": {"x": 1}, "rounding": "exact",
    } | changes  # fmt: skip


def test_proving_its_own_cases_disagrees_with_none(capsys: Out) -> None:
    assert main(["prove", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["counts"]["disagree"] == 0
    assert found["counts"]["agree"] > 300
    assert set(found["cases"][0]) == {
        "id", "topic", "verdict", "provenance", "computed", "published", "tolerance", "reason",
    }  # fmt: skip


def test_further_cases_come_from_a_file(tmp_path: Path, capsys: Out) -> None:
    assert main(["prove", "--cases", file(tmp_path, [case()]), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["counts"] == {"agree": 0, "disagree": 0, "disputed": 0, "not_run": 1}


def test_a_case_that_disagrees_exits_1(tmp_path: Path, capsys: Out) -> None:
    from engine import proving

    own = next(c for c in proving.own_cases() if isinstance(next(iter(c.expected.values())), float))
    wrong = dict.fromkeys(own.expected, 12345.678)
    path = file(tmp_path, [case(topic=own.topic, inputs=dict(own.inputs), expected=wrong)])
    assert main(["prove", "--cases", path]) == 1
    assert "1 disagree" in capsys.readouterr().out


@pytest.mark.parametrize("content", ["{", "[{}]", "[1]", "{}"])
def test_a_file_that_holds_no_cases_exits_2(tmp_path: Path, content: str) -> None:
    assert main(["prove", "--cases", file(tmp_path, content)]) == 2


def test_the_demo_job_is_written_and_can_be_checked(tmp_path: Path, capsys: Out) -> None:
    path = tmp_path / "demo.json"
    assert main(["demo", "--write", str(path)]) == 0
    assert main(["check", str(path), "--json"]) == 1
    out = capsys.readouterr().out
    found = json.loads(out[out.index("{") :])
    assert {a["verdict"] for a in found["attachments"]} == {"pass", "flag", "refer"}


def test_the_demo_house_closes_on_itself() -> None:
    from math import cos, isclose, radians, sin

    from engine import job

    walls = list(job.plan(job_file.read(demo.text())).walls.values())
    for wall, following in zip(walls, [*walls[1:], walls[0]], strict=True):
        line, after = wall.line, following.line
        x = line.x_ft + line.length_ft * cos(radians(line.bearing_deg))
        y = line.y_ft + line.length_ft * sin(radians(line.bearing_deg))
        assert isclose(x, after.x_ft, abs_tol=1e-9), wall.name
        assert isclose(y, after.y_ft, abs_tol=1e-9), wall.name


def run(folder: Path, *arguments: str, **environment: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "webapp", *arguments],
        env=os.environ | {"DATABASE_URL": f"sqlite:///{folder}/var/served.sqlite"} | environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def test_serving_makes_the_database_loads_the_demo_once_and_says_where_it_is(tmp_path: Path) -> None:
    for first in (True, False):
        process = run(tmp_path, "serve", "--demo", PORT="0")
        try:
            assert process.stdout
            line = process.stdout.readline()
            if first:
                assert "demo job is loaded" in line
                line = process.stdout.readline()
            address = re.search(r"http://127\.0\.0\.1:\d+", line)
            assert address, line
            browser = urllib.request.build_opener(urllib.request.HTTPCookieProcessor())
            with browser.open(f"{address[0]}/sign-in/demo", b"role=designer&next=/jobs") as answer:
                text = answer.read().decode()
            assert text.count("lot 12</a>") == 1
        finally:
            process.terminate()
            process.communicate(timeout=20)


def test_a_port_in_use_is_said_and_exits_2(tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        process = run(tmp_path, "serve", PORT=str(taken.getsockname()[1]))
        _, said = process.communicate(timeout=60)
    assert process.returncode == 2
    assert "Set PORT to another number" in said


def test_the_demo_is_refused_on_a_host_others_can_reach(tmp_path: Path) -> None:
    process = run(tmp_path, "serve", "--demo", HOST="0.0.0.0")
    _, said = process.communicate(timeout=60)
    assert process.returncode == 2
    assert "in the demo anyone may sign in" in said


def test_the_setup_code_is_printed_until_somebody_is_here(tmp_path: Path) -> None:
    process = run(tmp_path, "serve", PORT="0")
    try:
        assert process.stdout
        process.stdout.readline()
        assert re.search(r"works once: ([A-Z2-9]{6}-){3}[A-Z2-9]{6}$", process.stdout.readline().strip())
    finally:
        process.terminate()
        process.communicate(timeout=20)


def test_a_server_starts_without_what_only_some_pages_need() -> None:
    asked = "import sys, webapp.commands.serve; print(sorted({'ezdxf', 'numpy', 'openpyxl', 'pint', 'typst'} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_small_answers_are_sent_at_once() -> None:
    """asyncio sets TCP_NODELAY only on sockets that are named as TCP; without it each small answer waits 40 ms."""
    listener = serve._listen(Settings(port=0))
    assert listener is not None
    with listener:
        assert listener.proto == socket.IPPROTO_TCP
