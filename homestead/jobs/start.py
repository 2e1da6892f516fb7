"""`manage.py start`: check, settle in, run, say where to go. Standard library only: it stays in memory."""

from __future__ import annotations

import fcntl
import json
import os
import platform
import secrets
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import IO, Any

from homestead import environment as env
from homestead.jobs import addresses, preflight
from homestead.jobs.supervisor import Program, Supervisor

MANAGE = str(env.BASE / "manage.py")


def main(arguments: Sequence[str]) -> int:
    began = time.monotonic()
    if arguments:
        return _say_last(f"`start` takes no words after it, and got {' '.join(arguments)!r}.")
    for problem in problems():
        return _say_last(problem)
    if (lock := only_one(env.DATA / "running")) is None:
        return _say_last(f"Winter Rounds runs already with the folder {env.DATA}. Stop that one first.")
    keep_secret_key(env.SECRET_KEY_FILE)
    settled = settle_in()
    supervisor = Supervisor([web(), jobs()], say=print)
    supervisor.stop_on_signals()
    supervisor.run(each_look=once_open(lambda: welcome(settled, time.monotonic() - began)))
    lock.close()
    return _say_last("Stopped. Nothing is left running.", code=0)


def problems() -> list[str]:
    """What stands in the way, the most basic first; found before anything is changed."""
    found = [
        preflight.wrong_system(platform.system()),
        preflight.no_sqlite(),
        preflight.folder_not_writable(env.DATA),
        preflight.network_disk(env.DATA.resolve()),
        preflight.disk_full(env.DATA, preflight.ROOM_TO_RUN) if env.DATA.exists() else None,
        preflight.port_taken(env.PORT, "ROUNDS_PORT"),
        preflight.port_taken(env.PHONE_PORT, "ROUNDS_PHONE_PORT"),
    ]
    return [problem for problem in found if problem]


def only_one(path: Path) -> IO[str] | None:
    """The open file that holds the lock for as long as this program lives; None if another holds it."""
    held = path.open("w")
    try:
        fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        held.close()
        return None
    return held


def keep_secret_key(path: Path) -> None:
    if not path.exists():
        with open(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w") as out:
            out.write(secrets.token_urlsafe(64))


def settle_in() -> dict[str, Any]:
    """Everything that needs Django, in a child that gives its memory back."""
    done = subprocess.run(
        [sys.executable, MANAGE, "settle"], env=surroundings(), stdout=subprocess.PIPE, text=True
    )
    if done.returncode:
        sys.exit("\nWinter Rounds could not be made ready; what went wrong stands above.")
    settled: dict[str, Any] = json.loads(done.stdout.splitlines()[-1])
    return settled


def surroundings() -> dict[str, str]:
    return {**os.environ, "PYTHONUNBUFFERED": "1"}


def web() -> Program:
    return Program("The web", [sys.executable, "-m", "homestead.jobs.web"], surroundings(), env.BASE)


def jobs() -> Program:
    """Without the system checks, which would load the interface into five processes that never serve it."""
    command = [sys.executable, MANAGE, "qcluster", "--skip-checks"]
    return Program("The jobs", command, surroundings(), env.BASE, sign_of_life=env.HEARTBEAT)


def once_open(say: Callable[[], None]) -> Callable[[], None]:
    """Calls `say` the first time that the web answers."""
    waiting = [say]

    def look() -> None:
        if waiting and is_open(env.PORT):
            waiting.pop()()

    return look


def is_open(port: int) -> bool:
    try:
        with socket.create_connection(("127.0.0.1", port), timeout=0.2):
            return True
    except OSError:
        return False


def welcome(settled: dict[str, Any], took: float) -> None:
    here = addresses.of_this_computer(env.NAME)
    phones = addresses.of_phones(here, env.PHONE_PORT)
    ways = [f"  On this computer   http://localhost:{env.PORT}"]
    ways += [f"  {word:<17}  {phone}" for word, phone in zip(["On phones", "or"], phones, strict=False)]
    if not here.numbers:
        ways += ["  No network was found, so phones cannot reach this computer now."]
    elif not here.found_by_name:
        ways += ["  A name that stays when the number changes: apt install avahi-daemon, then start again."]
    shown = [qr_code(phones[0])] if here.numbers else []
    opened = f"Winter Rounds is open after {took:.1f} s."
    print("\n".join(["", opened, "", *ways, "", *shown, *settled["notes"], "Ctrl+C stops it."]), flush=True)


def qr_code(text: str) -> str:
    """For a terminal: two rows of squares a line of text."""
    import io

    import segno

    out = io.StringIO()
    segno.make(text, error="m", micro=False).terminal(out, compact=True, border=2)
    return out.getvalue()


def _say_last(sentence: str, code: int = 1) -> int:
    print(sentence, file=sys.stderr if code else sys.stdout, flush=True)
    return code
