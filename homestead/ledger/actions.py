"""What changes the ledger. Every number of a household is given here, under that household's lock."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from homestead.household.models import Device


@dataclass(frozen=True)
class Receipt:
    """What became of one pushed line. `result` is accepted, duplicate or refused."""

    id: str | None
    result: str
    seq: int | None = None
    code: str | None = None
    message: str | None = None
    permanent: bool | None = None
    facts: Mapping[str, Any] = field(default_factory=dict)
    conflicts: tuple[Mapping[str, Any], ...] = ()
    rev: int | None = None


@dataclass(frozen=True)
class Sheet:
    """What a job worked out, to be put in the feed. `as_of` is the seq it was worked out at."""

    key: str
    kind: str
    as_of: int
    inputs: Mapping[str, Any]
    content: Mapping[str, Any]


def append_lines(
    device: Device, lines: Sequence[object], *, sent_at: dt.datetime, now: dt.datetime
) -> Sequence[Receipt]:
    """A phone's push: `lines` are `{"written": {...}, "recovered"?: {...}}` as parsed from JSON.

    One transaction; one receipt a line, in order; one bad line never fails the rest.
    """
    raise NotImplementedError


def write_down(
    household: uuid.UUID, written: Sequence[Mapping[str, Any]], *, now: dt.datetime
) -> Sequence[Receipt]:
    """Lines the server itself brings (the invented household, an import): roles and sizes are not asked.

    `received_at` of each is its own `happened_at`, its skew 0.
    """
    raise NotImplementedError


def write_sheets(household: uuid.UUID, sheets: Sequence[Sheet], *, now: dt.datetime) -> Sequence[int | None]:
    """Put sheets into the feed, each under its key; the older row of the key leaves it at the same time.

    An unchanged sheet is written anew once a day at most. Returns each seq, None where nothing changed.
    """
    raise NotImplementedError


def write_sheet(household: uuid.UUID, sheet: Sheet, *, now: dt.datetime) -> int | None:
    """One sheet, see `write_sheets`."""
    return write_sheets(household, [sheet], now=now)[0]


def begin_epoch(household: uuid.UUID) -> int:
    """After a restore or an erasure: every cursor is void, sheets are dropped. Returns the new epoch."""
    raise NotImplementedError


def leave_demo(household: uuid.UUID) -> None:
    """Delete an invented household and all its rows, on a person's word. Refused for a real one."""
    raise NotImplementedError
