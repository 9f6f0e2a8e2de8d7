"""What is shipped for an installation fits the program: settings it knows, limits that agree, a certificate that verifies."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from webapp.__main__ import parser
from webapp.security.body_limit import LARGER
from webapp.settings import Settings

DEPLOY = Path(__file__).parents[2] / "deploy"


def needs(program: str) -> pytest.MarkDecorator:
    return pytest.mark.skipif(shutil.which(program) is None, reason=f"{program} is not on this machine")


def test_the_unit_sets_what_the_program_reads() -> None:
    text = (DEPLOY / "wallseat.service").read_text(encoding="utf-8")
    named = set(re.findall(r"([A-Z_]+)=", "\n".join(re.findall(r"Environment=(.*)", text))))
    assert named <= {field.validation_alias for field in Settings.model_fields.values()}
    assert {"DATABASE_URL", "WALLSEAT_PUBLIC_ORIGIN"} <= named


@needs("systemd-analyze")
@pytest.mark.parametrize("name", ["wallseat.service", "wallseat-backup.service", "wallseat-backup.timer"])
def test_the_units_are_ones(tmp_path: Path, name: str) -> None:
    command = tmp_path / "wallseat"
    command.write_text("#!/bin/sh\n")
    command.chmod(0o755)
    for unit in DEPLOY.glob("wallseat*.*r*"):
        text = unit.read_text(encoding="utf-8").replace("/opt/wallseat/bin/wallseat", str(command))
        (tmp_path / unit.name).write_text(text)
    done = subprocess.run(["systemd-analyze", "verify", tmp_path / name], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert name not in done.stderr


def test_the_nightly_backup_uses_commands_the_program_has_and_the_office_s_own_database() -> None:
    text = (DEPLOY / "wallseat-backup.service").read_text(encoding="utf-8")
    for line in re.findall(r"ExecStart=/opt/wallseat/bin/wallseat (.*)", text):
        parser().parse_args(line.split())
    (url,) = re.findall(r"DATABASE_URL=(\S+)", text)
    assert f"DATABASE_URL={url}" in (DEPLOY / "wallseat.service").read_text(encoding="utf-8")


def test_the_proxy_lets_through_what_the_program_reads_and_believes_no_visitor() -> None:
    text = (DEPLOY / "nginx.conf").read_text(encoding="utf-8")
    found = re.search(r"client_max_body_size (\d+)m;", text)
    assert found
    assert int(found[1]) * 1_000_000 > max(most for _, most in LARGER)
    assert "X-Forwarded-For $remote_addr" in text
    assert text.count("{") == text.count("}")


@needs("openssl")
def test_the_certificate_is_one_of_the_office_for_the_host(tmp_path: Path) -> None:
    subprocess.run([DEPLOY / "certificates.sh", "wallseat.office.internal", tmp_path], check=True, capture_output=True)
    verify = ["openssl", "verify", "-CAfile", tmp_path / "authority.crt", "-verify_hostname"]
    for host, fits in (("wallseat.office.internal", True), ("elsewhere.example", False)):
        done = subprocess.run([*verify, host, tmp_path / "wallseat.crt"], capture_output=True, check=False)
        assert (done.returncode == 0) is fits
