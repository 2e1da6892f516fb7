"""Lots that hang together by moved parts: a part begins with what its lot was then, and is folded with it."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterable

from homestead.ledger.reads import lines_to_fold
from homestead.store.models import Lot
from homestead.store.setting import setting_of
from homestead.storekeeping.days import Zone
from homestead.storekeeping.fold import Folded, fold_all
from homestead.storekeeping.order import moment as when_of
from homestead.storekeeping.state import Line


def with_parts(household: uuid.UUID, lots: Iterable[uuid.UUID]) -> set[uuid.UUID]:
    """The lots and all parts moved from them, parts of parts too."""
    found: set[uuid.UUID] = set()
    frontier = set(lots)
    while frontier:
        found |= frontier
        parts = Lot.rows.of(household).filter(parent__uuid__in=frontier)
        frontier = set(parts.values_list("uuid", flat=True)) - found
    return found


def with_forebears(household: uuid.UUID, lots: Iterable[uuid.UUID]) -> set[uuid.UUID]:
    """The lots and all they were once part of: what the fold must read to tell of them."""
    found: set[uuid.UUID] = set()
    frontier = set(lots)
    while frontier:
        found |= frontier
        born = Lot.rows.of(household).filter(uuid__in=frontier, parent__isnull=False)
        frontier = set(born.values_list("parent__uuid", flat=True)) - found
    return found


def fold_lots(household: uuid.UUID, lots: Iterable[uuid.UUID]) -> Folded:
    """The fold of the lots, read with their forebears. What it says of others than these is not whole."""
    return fold_all(_lines_of(household, lots), setting_of(household))


def fold_lots_until(household: uuid.UUID, lots: Iterable[uuid.UUID], moment: dt.datetime) -> Folded:
    """The same as it stood at a moment: of what happened before it, as far as it is told by now."""
    setting = setting_of(household)
    zone, until_ms = Zone(setting["zone"]), moment.timestamp() * 1000
    before = [line for line in _lines_of(household, lots) if when_of(line, zone)[0] < until_ms]
    return fold_all(before, setting)


def _lines_of(household: uuid.UUID, lots: Iterable[uuid.UUID]) -> list[Line]:
    told = lines_to_fold(household, with_forebears(household, lots))
    return [Line(written=written, seq=seq, clock_skew_ms=skew_ms) for written, seq, skew_ms in told]
