"""The proxy that is shipped, in front of the program that is shipped: https with a certificate of the office's own authority."""

import os
import shutil
import socket
import ssl
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import httpx2
import pytest

DEPLOY = Path(__file__).parents[2] / "deploy"
HOST = "wallseat.office.internal"
AROUND = """
{user} daemon off; pid {folder}/pid; error_log {folder}/errors;
events {{ worker_connections 64; }}
http {{
    access_log off;
    client_body_temp_path {folder}/body; proxy_temp_path {folder}/proxy; fastcgi_temp_path {folder}/f;
    uwsgi_temp_path {folder}/u; scgi_temp_path {folder}/s;
    {site}
}}
"""

pytestmark = pytest.mark.skipif(shutil.which("nginx") is None, reason="nginx is not on this machine")


@dataclass(frozen=True)
class Front:
    """Where the proxy listens, and whom its visitors trust."""

    plain: int
    secure: int
    authority: Path

    def client(self, **headers: str) -> httpx2.Client:
        """A visitor who trusts the office's authority only."""
        trusting = ssl.create_default_context(cafile=str(self.authority))
        return httpx2.Client(
            base_url=f"https://127.0.0.1:{self.secure}", verify=trusting, headers={"Host": HOST, **headers}
        )


def _free() -> int:
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        port: int = found.getsockname()[1]
        return port


def _wait(port: int, process: subprocess.Popen[bytes]) -> None:
    until = time.monotonic() + 60
    while True:
        try:
            socket.create_connection(("127.0.0.1", port), 1).close()
        except OSError:
            assert process.poll() is None, "it ended at once"
            assert time.monotonic() < until, "it does not answer"
            time.sleep(0.05)
        else:
            return


@pytest.fixture(scope="module")
def front(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Front]:
    """The program behind the proxy, both as they are shipped but for ports and paths."""
    folder = tmp_path_factory.mktemp("front")
    subprocess.run([DEPLOY / "certificates.sh", HOST, folder], check=True, capture_output=True)
    plain, secure, inner = _free(), _free(), _free()
    site = (DEPLOY / "nginx.conf").read_text(encoding="utf-8")
    for shipped, here in (
        ("listen 80;", f"listen 127.0.0.1:{plain};"),
        ("listen 443 ssl;", f"listen 127.0.0.1:{secure} ssl;"),
        ("127.0.0.1:8000", f"127.0.0.1:{inner}"),
        ("/etc/wallseat", str(folder)),
    ):
        assert shipped in site
        site = site.replace(shipped, here)
    (folder / "nginx.conf").write_text(
        AROUND.format(folder=folder, site=site, user="user root;" if os.geteuid() == 0 else ""), encoding="utf-8"
    )
    env = {
        **os.environ,
        "PORT": str(inner),
        "DATABASE_URL": f"sqlite:///{folder / 'front.sqlite'}",
        "WALLSEAT_PUBLIC_ORIGIN": f"https://{HOST}",
    }
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    program = subprocess.Popen([sys.executable, "-m", "webapp", "serve"], env=env, **quiet)
    proxy = subprocess.Popen(["nginx", "-c", folder / "nginx.conf", "-p", folder], **quiet)
    try:
        _wait(inner, program)
        _wait(secure, proxy)
        yield Front(plain, secure, folder / "authority.crt")
    finally:
        for process in (proxy, program):
            process.terminate()
            process.wait(30)


def get(front: Front, path: str) -> httpx2.Response:
    with front.client() as client:
        return client.get(path, extensions={"sni_hostname": HOST})


def test_plain_http_leads_to_https(front: Front) -> None:
    answer = httpx2.get(f"http://127.0.0.1:{front.plain}/jobs?x=1", headers={"Host": HOST})
    assert answer.status_code == 301
    assert answer.headers["location"] == f"https://{HOST}/jobs?x=1"


def test_the_first_page_is_served_under_the_offices_certificate(front: Front) -> None:
    answer = get(front, "/")
    assert answer.status_code in (200, 303)
    assert "max-age" in answer.headers["strict-transport-security"]
    assert "1." not in answer.headers["server"]


def test_nobody_without_the_offices_authority_is_served(front: Front) -> None:
    with pytest.raises(httpx2.ConnectError, match=r"(?i)certificate"), httpx2.Client() as client:
        client.get(f"https://127.0.0.1:{front.secure}/", headers={"Host": HOST}, extensions={"sni_hostname": HOST})


def test_a_form_from_the_offices_own_pages_passes_and_one_from_elsewhere_does_not(front: Front) -> None:
    wrong = {"name": "Nobody", "email": "nobody@office.example", "password": "not theirs at all"}
    with front.client(Origin=f"https://{HOST}") as own, front.client(Origin="https://elsewhere.example") as other:
        assert own.post("/sign-in", data=wrong, extensions={"sni_hostname": HOST}).status_code != 403
        assert other.post("/sign-in", data=wrong, extensions={"sni_hostname": HOST}).status_code == 403


def test_too_large_a_body_is_refused_by_the_program_in_its_own_words(front: Front) -> None:
    with front.client(Origin=f"https://{HOST}") as client:
        answer = client.post("/sign-in", content=b"x" * 15_000_000, extensions={"sni_hostname": HOST})
        assert answer.status_code == 413
        assert "nginx" not in answer.text
        assert client.post("/sign-in", content=b"x" * 17_000_000, extensions={"sni_hostname": HOST}).status_code == 413
