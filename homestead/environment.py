"""Typed readers of the environment. A value that cannot be read stops the program with a sentence.

At the end stand the few values that are wanted before, or without, Django; all others are in `settings.py`.
Standard library only.
"""

from __future__ import annotations

import os
from pathlib import Path


class BadSetting(SystemExit):
    """A setting holds something it cannot hold; the message names it, what it held and what it may hold."""


def _refuse(name: str, got: str, may: str) -> BadSetting:
    return BadSetting(f"The setting {name} is {got!r}. It may be {may}. Change it, or leave it out.")


def text(name: str, default: str) -> str:
    return os.environ.get(name, default)


def path(name: str, default: Path) -> Path:
    return Path(os.environ[name]).expanduser() if os.environ.get(name) else default


def flag(name: str, default: bool = False) -> bool:
    got = os.environ.get(name)
    if got is None or got == "":
        return default
    if got.lower() in ("1", "yes", "true", "on"):
        return True
    if got.lower() in ("0", "no", "false", "off"):
        return False
    raise _refuse(name, got, "yes or no")


def number(name: str, default: int, low: int, high: int) -> int:
    got = os.environ.get(name)
    if got is None or got == "":
        return default
    if not got.lstrip("-").isdigit() or not low <= int(got) <= high:
        raise _refuse(name, got, f"a whole number from {low} to {high}")
    return int(got)


def one_of(name: str, default: str, may: list[str]) -> str:
    got = os.environ.get(name) or default
    if got not in may:
        raise _refuse(name, got, " or ".join(may))
    return got


def secret(name: str, kept: Path, without: str) -> str:
    """From the environment, else from the file `start` made, else `without`; a short one is refused."""
    got = os.environ.get(name) or (kept.read_text().strip() if kept.exists() else without)
    if len(got) < 40:
        raise _refuse(name, f"{len(got)} characters", "40 or more characters that nobody can guess")
    return got


def names(name: str, default: list[str]) -> list[str]:
    got = os.environ.get(name)
    return [part.strip() for part in got.split(",") if part.strip()] if got else default


BASE = Path(__file__).resolve().parent.parent
DATA = path("ROUNDS_DATA", BASE / ".data")
SECRET_KEY_FILE = DATA / "secret-key"
CERTIFICATES = DATA / "certificates"
#: touched by the jobs once a minute
HEARTBEAT = DATA / "heartbeat"

#: http for this computer alone, https for phones; `start` opens both
PORT = number("ROUNDS_PORT", 8420, 1, 65535)
PHONE_PORT = number("ROUNDS_PHONE_PORT", 8421, 1, 65535)
#: the name phones know this computer by; a phone's store belongs to it, so it is chosen once
NAME = text("ROUNDS_NAME", "")
