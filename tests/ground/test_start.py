"""`manage.py start` as a person runs it: from nothing to an open page, through a death, to a clean stop."""

from __future__ import annotations

import contextlib
import http.client
import os
import signal
import socket
import sqlite3
import ssl
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from homestead.jobs import certificates, start
from homestead.jobs.certificates import Folder
from tests.ground.tree import BASE
from tests.services import free_port


def test_a_secret_key_is_made_once_and_is_for_its_owner_alone(tmp_path: Path) -> None:
    kept = tmp_path / "secret-key"
    start.keep_secret_key(kept)
    first = kept.read_text()
    start.keep_secret_key(kept)
    assert kept.read_text() == first
    assert len(first) >= 64
    assert kept.stat().st_mode & 0o777 == 0o600


def test_one_folder_of_data_is_held_by_one_start(tmp_path: Path) -> None:
    held = start.only_one(tmp_path / "running")
    assert held is not None
    assert start.only_one(tmp_path / "running") is None
    held.close()
    again = start.only_one(tmp_path / "running")
    assert again is not None
    again.close()


def test_start_takes_no_words_after_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert start.main(["--help"]) == 1
    assert "takes no words" in capsys.readouterr().err


@dataclass
class Started:
    process: subprocess.Popen[str]
    data: Path
    port: int
    phone_port: int
    environment: dict[str, str]

    def ask(self, method: str, path: str, **headers: str) -> http.client.HTTPResponse:
        door = http.client.HTTPConnection("127.0.0.1", self.port, timeout=10)
        door.request(method, path, headers=headers)
        return door.getresponse()

    def rows(self, query: str) -> list[tuple[object, ...]]:
        with contextlib.closing(sqlite3.connect(self.data / "rounds.sqlite3", timeout=20)) as ledger:
            return ledger.execute(query).fetchall()

    def programs(self) -> dict[int, str]:
        """Of this start alone, known by the folder of data in their environment."""
        found = {}
        for place in Path("/proc").glob("[0-9]*"):
            with contextlib.suppress(OSError):
                if f"ROUNDS_DATA={self.data}\0" in (place / "environ").read_text(errors="replace"):
                    found[int(place.name)] = (place / "cmdline").read_text().replace("\0", " ")
        return {pid: command for pid, command in found.items() if pid != os.getpid()}


def soon(true: Callable[[], object], seconds: float) -> bool:
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        with contextlib.suppress(OSError, sqlite3.Error, http.client.HTTPException):
            if true():
                return True
        time.sleep(0.1)
    return False


@pytest.fixture(scope="module")
def started(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Started]:
    folder = tmp_path_factory.mktemp("start")
    pages = folder / "dist"
    (pages / "assets").mkdir(parents=True)
    (pages / "index.html").write_text("<title>Winter Rounds</title>")
    (pages / "assets" / "main-D4f1x9aB.js").write_text("0")
    port, phone_port = free_port(), free_port()
    own = {
        "ROUNDS_DATA": folder / "data",
        "ROUNDS_DIST": pages,
        "ROUNDS_PORT": port,
        "ROUNDS_PHONE_PORT": phone_port,
    }
    environment = {**os.environ, **{name: str(value) for name, value in own.items()}, "ROUNDS_PREPARED": "1"}
    with (folder / "told").open("w") as told:
        command = [sys.executable, BASE / "manage.py", "start"]
        process = subprocess.Popen(command, env=environment, stdout=told, stderr=told, text=True)
    one = Started(process, folder / "data", port, phone_port, environment)
    try:
        assert soon(lambda: one.ask("GET", "/").status == 200, 90), (folder / "told").read_text()
        yield one
    finally:
        process.terminate()
        process.wait(timeout=30)


def test_it_shows_the_page_and_the_invented_household(started: Started) -> None:
    assert started.ask("GET", "/").read() == b"<title>Winter Rounds</title>"
    assert started.rows("SELECT count(*) FROM household_household WHERE demo") == [(1,)]
    (lines,) = started.rows("SELECT count(*) FROM ledger_line")[0]
    assert isinstance(lines, int)
    assert lines > 100


def test_it_tells_where_to_go(started: Started) -> None:
    told = started.data.parent / "told"
    assert soon(lambda: f"http://localhost:{started.port}" in told.read_text(), 5)
    assert "good once" in told.read_text()


def test_phones_that_trust_its_authority_come_in_by_https(started: Started) -> None:
    """The door is open to the house; here this computer asks, under the name of the leaf."""
    trusting = ssl.create_default_context(cafile=str(started.data / "certificates" / "authority.crt"))
    leaf = Folder(started.data / "certificates").leaf
    name = certificates.names_of(leaf)[0]
    asked = f"GET / HTTP/1.1\r\nHost: {name}:{started.phone_port}\r\nConnection: close\r\n\r\n"
    with (
        socket.create_connection(("127.0.0.1", started.phone_port), timeout=10) as plain,
        trusting.wrap_socket(plain, server_hostname=name) as phone,
    ):
        phone.sendall(asked.encode())
        answer = b"".join(iter(lambda: phone.recv(4096), b""))
    assert answer.startswith(b"HTTP/1.1 200")
    assert answer.endswith(b"<title>Winter Rounds</title>")


def test_answers_without_a_body_are_whole(started: Started) -> None:
    """To HEAD, and "not modified": see the decision on the one web process."""
    assert started.ask("HEAD", "/").status == 200
    etag = started.ask("GET", "/").headers["ETag"]
    assert started.ask("GET", "/", **{"If-None-Match": etag}).status == 304


def test_a_page_may_load_nothing_but_our_own_parts(started: Started) -> None:
    """invariant 42, as far as the server says it; the browser tests watch for violations."""
    for path in ("/", "/api/v1/session"):
        policy = started.ask("GET", path).headers["Content-Security-Policy"]
        assert "default-src 'self'" in policy
        assert "unsafe" not in policy


def test_what_changes_is_asked_for_anew_and_what_cannot_is_kept(started: Started) -> None:
    assert started.ask("GET", "/").headers["Cache-Control"] == "no-cache"
    assert "immutable" in started.ask("GET", "/assets/main-D4f1x9aB.js").headers["Cache-Control"]


@pytest.mark.parametrize("path", ["/assets/gone-D4f1x9aB.js", "/api/v1/nothing", "/no/such/page"])
def test_a_missing_part_never_becomes_the_page(started: Started, path: str) -> None:
    answer = started.ask("GET", path)
    assert answer.status == 404
    assert b"<title>Winter Rounds" not in answer.read()


def test_a_name_from_elsewhere_is_not_answered(started: Started) -> None:
    """A page from elsewhere whose name was made to point here (DNS rebinding) reaches nothing here."""
    assert started.ask("GET", "/api/v1/session", Host="elsewhere.example").status == 400


def test_a_second_start_on_the_same_data_is_refused(started: Started) -> None:
    other = {"ROUNDS_PORT": str(free_port()), "ROUNDS_PHONE_PORT": str(free_port())}
    command = [sys.executable, BASE / "manage.py", "start"]
    told = subprocess.run(command, env={**started.environment, **other}, capture_output=True, text=True)
    assert told.returncode == 1
    assert "runs already with the folder" in told.stderr


def test_a_second_start_on_the_same_port_is_refused(started: Started, tmp_path: Path) -> None:
    command = [sys.executable, BASE / "manage.py", "start"]
    other = {"ROUNDS_DATA": str(tmp_path / "data"), "ROUNDS_PHONE_PORT": str(free_port())}
    told = subprocess.run(command, env={**started.environment, **other}, capture_output=True, text=True)
    assert told.returncode == 1
    assert f"Port {started.port} of this computer is taken" in told.stderr


def test_a_killed_web_comes_back(started: Started) -> None:
    (web,) = [pid for pid, command in started.programs().items() if "homestead.jobs.web" in command]
    os.kill(web, signal.SIGKILL)
    assert soon(lambda: started.ask("GET", "/").status == 200, 20)


def test_the_jobs_work_out_the_sheets_of_the_invented_household(started: Started) -> None:
    """The queue for real: its one schedule fires, asks for what is due, and a worker does it."""
    done = "SELECT what FROM jobs_run WHERE result = 'done' ORDER BY what"
    names = [("outlook",), ("remind",), ("rooms",), ("roster",), ("tally",), ("year",)]
    assert soon(lambda: started.rows(done) == names, 90), started.rows(
        "SELECT what, result, why FROM jobs_run"
    )
    (sheets,) = started.rows("SELECT count(*) FROM ledger_sheet")[0]
    assert isinstance(sheets, int)
    assert sheets >= 2
    assert soon((started.data / "heartbeat").exists, 60)


def test_a_stop_leaves_nothing_running(started: Started) -> None:
    assert len(started.programs()) > 4
    started.process.terminate()
    assert started.process.wait(timeout=30) == 0
    assert soon(lambda: started.programs() == {}, 5), started.programs()
    assert "Nothing is left running." in (started.data.parent / "told").read_text()
