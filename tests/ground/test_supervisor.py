"""The supervisor with real processes: what ends or falls silent starts again, and nothing is left over."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from homestead.jobs import supervisor
from homestead.jobs.supervisor import Program, Running
from tests.ground.tree import BASE

#: writes its number and that of a child of its own, which outlives it unless the whole group is ended
PARENT = (
    "import os, subprocess, sys, time\n"
    "child = subprocess.Popen([sys.executable, '-c', 'import time; time.sleep(600)'])\n"
    "open(sys.argv[1], 'a').write(f'{os.getpid()} {child.pid}\\n')\n"
    "time.sleep(600)\n"
)
STUBBORN = "import signal, sys, time\nsignal.signal(signal.SIGTERM, signal.SIG_IGN)\n" + PARENT


def program(tmp_path: Path, text: str = PARENT, **more: object) -> Program:
    command = [sys.executable, "-c", text, str(tmp_path / "lives")]
    return Program("The web", command, dict(os.environ), tmp_path, **more)  # type: ignore[arg-type]


def lives(tmp_path: Path) -> list[tuple[int, int]]:
    kept = tmp_path / "lives"
    pairs = [line.split() for line in kept.read_text().splitlines()] if kept.exists() else []
    return [(int(parent), int(child)) for parent, child in pairs]


def is_alive(pid: int) -> bool:
    """A zombie is not: on a bare machine nobody may be there to collect it."""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except FileNotFoundError:
        return False


def soon(true: Callable[[], bool], seconds: float = 15.0) -> bool:
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        if true():
            return True
        time.sleep(0.02)
    return False


@pytest.fixture
def running(tmp_path: Path) -> Iterator[Running]:
    one = Running(program(tmp_path))
    yield one
    if one.process:
        supervisor.end_group(one.process.pid)
        one.process.wait()


def test_a_killed_program_comes_back_and_its_children_are_ended(running: Running, tmp_path: Path) -> None:
    running.look()
    assert soon(lambda: len(lives(tmp_path)) == 1)
    parent, child = lives(tmp_path)[0]
    os.kill(parent, signal.SIGKILL)
    assert soon(lambda: "ended (code -9)" in (running.look() or ""))
    assert soon(lambda: not is_alive(child))
    assert soon(lambda: running.look() is not None or len(lives(tmp_path)) == 2)
    assert soon(lambda: len(lives(tmp_path)) == 2)


def test_one_that_keeps_ending_is_started_with_growing_pauses(tmp_path: Path) -> None:
    now = [0.0]
    one = Running(program(tmp_path, "raise SystemExit(3)"), clock=lambda: now[0])
    pauses = []
    for _ in range(9):
        one.look()
        assert one.process is not None
        one.process.wait()
        one.look()
        pauses.append(one.start_next - now[0])
        now[0] = one.start_next
    assert pauses == [0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 30.0, 30.0, 30.0]


def test_one_that_ran_well_for_a_minute_is_started_at_once_again(tmp_path: Path) -> None:
    now = [0.0]
    one = Running(program(tmp_path, "raise SystemExit(3)"), clock=lambda: now[0], failures=7)
    one.look()
    assert one.process is not None
    one.process.wait()
    now[0] = supervisor.SETTLED + 1
    one.look()
    assert one.start_next - now[0] == 0.5


def test_a_silent_program_is_ended_and_started_anew(tmp_path: Path) -> None:
    now, sign = [1000.0], tmp_path / "heartbeat"
    one = Running(program(tmp_path, sign_of_life=sign, silence=300.0), clock=lambda: now[0])
    one.look()
    assert soon(lambda: len(lives(tmp_path)) == 1)
    for minute in range(1, 5):
        now[0] += 100
        os.utime(sign, (minute, minute)) if sign.exists() else sign.touch()
        assert one.look() is None
    now[0] += 299
    assert one.look() is None
    now[0] += 2
    assert "showed no life for 300 s" in (one.look() or "")
    parent, child = lives(tmp_path)[0]
    assert soon(lambda: not is_alive(parent) and not is_alive(child))
    now[0] += 1
    assert one.look() == "The web started again"
    assert one.process is not None
    supervisor.end_group(one.process.pid)
    one.process.wait()


def supervised(tmp_path: Path, text: str, grace: float = 12.0) -> subprocess.Popen[str]:
    """A supervisor in a process of its own, as `start` runs it."""
    script = (
        "import sys\nfrom pathlib import Path\nfrom homestead.jobs import supervisor\n"
        "from homestead.jobs.supervisor import Program, Supervisor\nimport os\n"
        f"supervisor.GRACE = {grace}\n"
        f"one = Program('The web', [sys.executable, '-c', {text!r}, {str(tmp_path / 'lives')!r}], "
        f"dict(os.environ), Path({str(tmp_path)!r}))\n"
        "them = Supervisor([one], say=lambda said: print(said, flush=True))\n"
        "them.stop_on_signals()\nthem.run(each_look=lambda: None)\nprint('stopped')\n"
    )
    return subprocess.Popen([sys.executable, "-c", script], cwd=BASE, stdout=subprocess.PIPE, text=True)


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT])
def test_a_stop_leaves_nothing_behind(tmp_path: Path, number: signal.Signals) -> None:
    whole = supervised(tmp_path, PARENT)
    assert soon(lambda: len(lives(tmp_path)) == 1)
    whole.send_signal(number)
    assert whole.communicate(timeout=20)[0].endswith("stopped\n")
    assert soon(lambda: not any(is_alive(pid) for pid in lives(tmp_path)[0]))


def test_a_stop_ends_one_that_does_not_listen(tmp_path: Path) -> None:
    whole = supervised(tmp_path, STUBBORN, grace=0.5)
    assert soon(lambda: len(lives(tmp_path)) == 1)
    whole.terminate()
    assert whole.communicate(timeout=20)[0].endswith("stopped\n")
    assert soon(lambda: not any(is_alive(pid) for pid in lives(tmp_path)[0]))


def test_a_killed_supervisor_takes_its_programs_along(tmp_path: Path) -> None:
    """On Linux; elsewhere the next start says that the port is taken."""
    whole = supervised(tmp_path, PARENT)
    assert soon(lambda: len(lives(tmp_path)) == 1)
    whole.kill()
    whole.wait(timeout=20)
    assert soon(lambda: not is_alive(lives(tmp_path)[0][0]))
    os.kill(lives(tmp_path)[0][1], signal.SIGKILL)
