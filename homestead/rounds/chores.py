"""Keys of chores (fold F19): a decision's id, `<record>/<day>` of a standing chore, `<sheet key>/<day>`."""

from __future__ import annotations

import re
import uuid
from dataclasses import dataclass

_UUID = r"[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}"
_DECISION = re.compile(_UUID)
_RECORD_DAY = re.compile(rf"({_UUID})/(\d{{4}}-\d\d-\d\d)")


@dataclass(frozen=True)
class RecordDay:
    """A standing chore on one of its days."""

    record: uuid.UUID
    day: str


def decision_key(key: str) -> uuid.UUID | None:
    """The decision the chore comes from, if it does."""
    return uuid.UUID(key) if _DECISION.fullmatch(key) else None


def record_day(key: str) -> RecordDay | None:
    found = _RECORD_DAY.fullmatch(key)
    return RecordDay(uuid.UUID(found[1]), found[2]) if found else None
