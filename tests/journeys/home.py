"""A home server of a test's own: its process, its data, and ways to stop it rudely."""

from __future__ import annotations

import atexit
import functools
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from dataclasses import dataclass, field
from pathlib import Path

from tests.services import free_port

BASE = Path(__file__).resolve().parents[2]
OPENS_WITHIN = 40.0


@functools.cache
def _made_once(demo_ends_on: str | None) -> Path:
    """A data folder with its tables, and the invented household if asked for."""
    folder = Path(tempfile.mkdtemp(prefix="rounds-home-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    made = Home(folder)
    for database in ("default", "queue"):
        made.manage("migrate", "--database", database, "--verbosity", "0")
    if demo_ends_on:
        made.manage("demo", "--ends-on", demo_ends_on)
    return folder


@dataclass
class Home:
    """One server process on SQLite with its data in a folder of the test's; `own`: settings of the test's."""

    data: Path
    port: int = field(default_factory=free_port)
    own: dict[str, str] = field(default_factory=dict)
    program: tuple[str, ...] = ("-m", "hypercorn")
    _process: subprocess.Popen[bytes] | None = None

    @property
    def environment(self) -> dict[str, str]:
        own = {
            "ROUNDS_DATA": str(self.data),
            "ROUNDS_SECRET_KEY": "for-tests-only-" * 4,
            "PYTHONUNBUFFERED": "1",
        }
        return {**os.environ, **own, **self.own, "DJANGO_SETTINGS_MODULE": "homestead.settings"}

    def manage(self, *words: str) -> str:
        """Run a management command on this home's data; its output."""
        command = [sys.executable, str(BASE / "manage.py"), *words]
        done = subprocess.run(
            command, env=self.environment, cwd=BASE, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout

    def run(self, module: str) -> str:
        """Run one of the tests' own programs on this home's data; its output."""
        command = [sys.executable, "-m", module]
        done = subprocess.run(
            command, env=self.environment, cwd=BASE, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout

    def prepare(self, *, demo_ends_on: str | None = None) -> Home:
        """An empty store, or the invented household as of that day; made once a run, then copied."""
        shutil.copytree(_made_once(demo_ends_on), self.data, dirs_exist_ok=True)
        return self

    def start(self) -> Home:
        command = [sys.executable, *self.program, "--bind", f"127.0.0.1:{self.port}", "--workers", "0"]
        log = (self.data / "web.log").open("ab")
        self._process = subprocess.Popen(
            [*command, "--graceful-timeout", "2", "wsgi:homestead.wsgi:application"],
            env=self.environment,
            cwd=BASE,
            stdout=log,
            stderr=log,
            start_new_session=True,
        )
        self._wait_until_open()
        return self

    def stop(self) -> None:
        """As a person stops it."""
        self._end(signal.SIGTERM)

    def kill(self) -> None:
        """As a power cut stops it."""
        self._end(signal.SIGKILL)

    def _end(self, how: signal.Signals) -> None:
        if self._process is None:
            return
        os.killpg(self._process.pid, how)
        self._process.wait(timeout=20)
        self._process = None

    def _wait_until_open(self) -> None:
        until = time.monotonic() + OPENS_WITHIN
        while time.monotonic() < until:
            try:
                urllib.request.urlopen(f"http://127.0.0.1:{self.port}/", timeout=2).close()
                return
            except urllib.error.HTTPError:
                return
            except OSError:
                time.sleep(0.1)
        raise AssertionError(f"The server did not open: {(self.data / 'web.log').read_text()[-2000:]}")
