"""Keeps the programs of a household running: the web, the jobs. Standard library only: it stays in memory.

Each program is the head of a process group of its own, so that nothing it started is left over. One that ends
is started again, soon at first, then with growing pauses. One that must show life and does not is stopped and
started.
"""

from __future__ import annotations

import contextlib
import ctypes
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType

_LIBC = ctypes.CDLL(None) if sys.platform == "linux" else None
PR_SET_PDEATHSIG = 1  # prctl(2)

LOOK_EVERY = 0.25
#: seconds a program may take to stop by itself
GRACE = 12.0
LONGEST_PAUSE = 30.0
#: a program that ran so long is no longer counted as failing
SETTLED = 60.0


@dataclass
class Program:
    """`sign_of_life`, if given, is a file that the program touches; `silence` is how long it may not. [s]"""

    name: str
    command: Sequence[str]
    environment: dict[str, str]
    folder: Path
    sign_of_life: Path | None = None
    silence: float = 300.0


@dataclass
class Running:
    """A program and the life it leads now, by a clock that stands still while the computer sleeps."""

    program: Program
    clock: Callable[[], float] = time.monotonic
    process: subprocess.Popen[bytes] | None = None
    started: float = 0.0
    start_next: float = 0.0
    failures: int = 0
    last_sign: tuple[float, float] = field(default=(0.0, 0.0))  # the file's time, ours when it was seen

    def look(self) -> str | None:
        """Do what is needed now; a sentence when something was."""
        if self.process is None:
            return self._start() if self.clock() >= self.start_next else None
        if self.process.poll() is not None:
            return self._ended(f"{self.program.name} ended (code {self.process.returncode})")
        if self._is_silent():
            end_group(self.process.pid)
            self.process.wait()
            return self._ended(f"{self.program.name} showed no life for {self.program.silence:.0f} s")
        return None

    def _start(self) -> str | None:
        self.started = self.clock()
        self.last_sign = (self._sign(), self.started)
        self.process = subprocess.Popen(
            self.program.command,
            env=self.program.environment,
            cwd=self.program.folder,
            stdin=subprocess.DEVNULL,
            start_new_session=True,
            preexec_fn=_die_with_parent,
        )
        return f"{self.program.name} started again" if self.failures else None

    def _ended(self, why: str) -> str:
        assert self.process is not None
        end_group(self.process.pid)
        self.process = None
        self.failures = 1 if self.clock() - self.started > SETTLED else self.failures + 1
        pause = min(LONGEST_PAUSE, 0.5 * 2 ** (self.failures - 1))
        self.start_next = self.clock() + pause
        return f"{why}; it is started again in {pause:.1f} s"

    def _is_silent(self) -> bool:
        if self.program.sign_of_life is None:
            return False
        if (sign := self._sign()) != self.last_sign[0]:
            self.last_sign = (sign, self.clock())
        return self.clock() - self.last_sign[1] > self.program.silence

    def _sign(self) -> float:
        try:
            return self.program.sign_of_life.stat().st_mtime if self.program.sign_of_life else 0.0
        except FileNotFoundError:
            return 0.0


class Supervisor:
    """Runs until told to stop. `say` is told what happened, one sentence at a time."""

    def __init__(self, programs: Sequence[Program], say: Callable[[str], None]) -> None:
        self.running = [Running(program) for program in programs]
        self.say = say
        self.stopping = False

    def stop_on_signals(self) -> None:
        for number in (signal.SIGTERM, signal.SIGINT, signal.SIGHUP):
            signal.signal(number, self._stop)

    def _stop(self, number: int, frame: FrameType | None) -> None:
        self.stopping = True

    def run(self, each_look: Callable[[], None]) -> None:
        """Look after the programs until a signal says stop, then stop them all and leave nothing behind."""
        try:
            while not self.stopping:
                for running in self.running:
                    if sentence := running.look():
                        self.say(sentence)
                each_look()
                time.sleep(LOOK_EVERY)
        finally:
            self._stop_all()

    def _stop_all(self) -> None:
        """Ask each to stop, give them time for what is in flight, then end what is left of every group."""
        alive = [one.process for one in self.running if one.process]
        for process in alive:
            process.terminate()
        until = time.monotonic() + GRACE
        while time.monotonic() < until and any(process.poll() is None for process in alive):
            time.sleep(0.05)
        for process in alive:
            end_group(process.pid)
            process.wait()


def end_group(pid: int) -> None:
    """Names the group and not its head, since the head may be gone while its children live."""
    with contextlib.suppress(ProcessLookupError, PermissionError):
        os.killpg(pid, signal.SIGKILL)


def _die_with_parent() -> None:
    """A supervisor that is killed outright takes its programs along, so none keeps the port. Linux only."""
    if _LIBC:
        _LIBC.prctl(PR_SET_PDEATHSIG, signal.SIGTERM, 0, 0, 0)
