"""The command as it is started: what it prints, and how it ends. Signals as POSIX has them."""

from __future__ import annotations

import os
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
import pytest

from panelart.viewer import address
from tests.viewer.listed import LIST, parts, wait
from tests.viewer.running import SMALL

PROGRAM = [sys.executable, "-c", "from panelart.cli import main; main()"]
COMMAND = [*PROGRAM, "view"]


@contextmanager
def started(spec: Path, *more: str, command: str = "view") -> Iterator[tuple[subprocess.Popen[str], str]]:
    """The command at work, and the address that it printed; waits until it answers."""
    state = {**os.environ, "XDG_STATE_HOME": str(spec.parent / "state"), "PYTHONPATH": os.pathsep.join(sys.path)}
    words = [*PROGRAM, command, str(spec), *more]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=state) as process:
        assert process.stdout is not None
        told = ""
        for line in process.stdout:
            told += line
            if line.startswith("Ctrl-C"):
                break
        found = re.search(r"http://\S+", told)
        assert found is not None
        with httpx.Client(transport=httpx.HTTPTransport(retries=8)) as client:
            assert client.get(f"{found[0]}source", timeout=30).status_code == 200
        try:
            yield process, found[0]
        finally:
            process.kill()


@pytest.mark.few(1)
@pytest.mark.skipif(os.name != "posix", reason="signals as POSIX has them")
@pytest.mark.parametrize("told", [signal.SIGINT, signal.SIGTERM])
def test_it_ends_cleanly_with_a_page_open(spec: Path, told: signal.Signals) -> None:
    with started(spec) as (process, page), httpx.stream("GET", f"{page}events", timeout=30) as stream:
        assert next(stream.iter_lines()).startswith("data: ")
        process.send_signal(told)
        out, err = process.communicate(timeout=20)
    assert (out, err) == ("", "")
    assert process.returncode in (128 + told, -told)
    assert spec.read_text() == SMALL


def test_a_port_in_use_is_told(spec: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = str(taken.getsockname()[1])
        done = subprocess.run([*COMMAND, str(spec), "--port", port], capture_output=True, text=True, check=False)
    assert done.returncode == 3
    assert done.stderr.startswith("error: Cannot listen on 127.0.0.1: ")
    assert "Traceback" not in done.stderr


def test_two_started_at_once_have_ports_of_their_own() -> None:
    with address.listening("127.0.0.1", None) as one, address.listening("127.0.0.1", None) as other:
        assert one.getsockname()[1] != other.getsockname()[1]
        with pytest.raises(OSError, match="in use"):
            address.listening("127.0.0.1", one.getsockname()[1])


def test_its_address_stays_from_run_to_run_and_is_for_its_owner_only(spec: Path) -> None:
    with started(spec) as (_, first):
        pass
    with started(spec) as (_, second):
        pass
    token = first.split("/")[3]
    assert token == second.split("/")[3]
    kept = spec.parent / "state" / "panelart" / "view-secret"
    assert kept.stat().st_mode & 0o077 == 0 or os.name != "posix"


@pytest.mark.skipif(os.name != "posix", reason="signals as POSIX has them")
def test_a_list_is_asked_about_and_its_answers_are_there_the_next_time(tmp_path: Path) -> None:
    listed = tmp_path / "list.csv"
    listed.write_text(LIST, encoding="utf-8")
    with started(listed, "--view", command="draft") as (process, page):
        origin = {"Origin": "/".join(page.split("/")[:3])}
        (first, *_) = httpx.get(f"{page}questions", timeout=30).json()["questions"]
        body = {"question": first["id"], "part": "rotary-m10"}
        assert httpx.post(f"{page}answer", headers=origin, json=body, timeout=30).status_code == 200
        process.send_signal(signal.SIGINT)
        _, err = process.communicate(timeout=20)
    assert err == ""
    with started(listed, "--view", command="draft") as (_, page):
        (again, *_) = httpx.get(f"{page}questions", timeout=30).json()["questions"]
        assert (again["id"], again["answer"]) == (first["id"], "rotary-m10")
        wait(lambda: "S2" in parts(tmp_path / "list.yaml"))
