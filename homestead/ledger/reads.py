"""What the ledger tells: the feed, lines of a lot for the fold, records. Plain data of one household."""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Sequence
from typing import Any

from homestead.ledger.kinds import Entry


def lines_of_lots(household: uuid.UUID, lots: Iterable[uuid.UUID]) -> list[dict[str, Any]]:
    """All entries that touch any of the lots and all strikes that bear on them, in seq order.

    Each is the written line, parsed, with `seq`, `received_at` and `clock_skew_ms` added: for the fold.
    """
    raise NotImplementedError


def all_lines(household: uuid.UUID, *, after: int = 0) -> list[dict[str, Any]]:
    """Every line with seq over `after`, as `lines_of_lots`."""
    raise NotImplementedError


def records_of(household: uuid.UUID, *types: str) -> list[dict[str, Any]]:
    """Records of the types (all, if none named): `{type, record, values, rev, field_revs}`."""
    raise NotImplementedError


def entries_of(household: uuid.UUID, ids: Sequence[uuid.UUID]) -> dict[uuid.UUID, Entry[Any]]:
    """Entries as their kinds see them, struck or not; unknown ids are missing."""
    raise NotImplementedError


def struck_of(household: uuid.UUID, ids: Sequence[uuid.UUID]) -> set[uuid.UUID]:
    """Which of the entries do not count: a counting strike names them."""
    raise NotImplementedError


def head_of(household: uuid.UUID) -> int:
    """The highest seq given so far; 0 for none."""
    raise NotImplementedError


def life_of_lot(household: uuid.UUID, lot: uuid.UUID) -> list[dict[str, Any]]:
    """The lot's lines with `struck` and `say` (key, english, facts) beside each, in order of time."""
    raise NotImplementedError
