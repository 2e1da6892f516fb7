"""Keys of chores (fold F19): what they name. Plain, no database."""

from __future__ import annotations

import re
import uuid
from dataclasses import dataclass
from typing import Literal

ChoreOf = Literal["decision", "chore", "space", "inspection"]

_UUID = r"[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}"
_DAY = r"\d{4}-\d\d-\d\d"
#: a decision's id; a standing chore on its day; the walk of a space's roster; a lot to be picked over
_KEYS: tuple[tuple[ChoreOf, re.Pattern[str]], ...] = (
    ("decision", re.compile(rf"({_UUID})")),
    ("chore", re.compile(rf"({_UUID})/{_DAY}")),
    ("space", re.compile(rf"roster/({_UUID})/{_DAY}")),
    ("inspection", re.compile(rf"pick_over/({_UUID})/{_DAY}")),
)


@dataclass(frozen=True)
class Named:
    """What a chore's key names: the chore hangs on it."""

    thing: ChoreOf
    id: uuid.UUID


def named_in(key: str) -> Named | None:
    """None for the key of another sheet's chore, which names nothing but the sheet."""
    for thing, pattern in _KEYS:
        if found := pattern.fullmatch(key):
            return Named(thing, uuid.UUID(found[1]))
    return None


def decision_key(key: str) -> uuid.UUID | None:
    """The decision the chore comes from, if it does."""
    named = named_in(key)
    return named.id if named and named.thing == "decision" else None
