"""Phones whose clocks are wrong."""

from __future__ import annotations

import datetime as dt
import json
import uuid

import pytest

from homestead.ledger.envelope import when_of
from homestead.ledger.models import Feed, Line
from homestead.ledger.reads import entries_of
from tests.lines import NOW, Family

HOUR_MS = 3_600_000


@pytest.mark.parametrize("off", [dt.timedelta(days=-3), dt.timedelta(days=730), dt.timedelta(0)])
def test_a_wrong_clock_is_measured_kept_and_corrected(family: Family, lot: str, off: dt.timedelta) -> None:
    """hazard 10, invariant 23: taken all the same, and `when` is right."""
    phone = family.phones["adult"]
    shown = (NOW + off).isoformat(timespec="milliseconds")
    line = phone.write("looked", {"lot": lot, "count": 1}, happened_at=shown)
    push = phone.push(line, sent_at=NOW + off, now=NOW)
    [receipt] = push.receipts
    assert receipt.result == "accepted"
    kept = Line.rows.of(family.household).get(uuid=line["id"])
    skew = -round(off.total_seconds() * 1000)
    assert (kept.clock_skew_ms, push.clock_skew_ms) == (skew, skew)
    assert json.loads(kept.written)["happened_at"] == shown
    assert json.loads(Feed.rows.of(family.household).get(seq=kept.seq).payload)["clock_skew_ms"] == skew
    phone.device.refresh_from_db()
    assert phone.device.clock_skew_ms == skew
    [entry] = entries_of(family.household.pk, [uuid.UUID(line["id"])]).values()
    assert (entry.when, entry.day) == (NOW, NOW.date())


def test_the_skew_is_that_of_the_push_that_first_brought_the_line(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    line = phone.write("looked", {"lot": lot, "count": 1})
    phone.push(line, sent_at=NOW + dt.timedelta(hours=5))
    phone.push(line, sent_at=NOW)
    assert Line.rows.of(family.household).get(uuid=line["id"]).clock_skew_ms == -5 * HOUR_MS


@pytest.mark.parametrize(
    ("dated", "skew", "moved"),
    [
        ("clock", 120_000, 0),
        ("clock", 120_001, 120_001),
        ("clock", -120_001, -120_001),
        ("person", 10 * HOUR_MS, 0),
    ],
)
def test_only_a_clock_two_minutes_off_is_corrected_and_a_named_day_never(
    dated: str, skew: int, moved: int
) -> None:
    """Fold F1."""
    assert when_of(NOW, dated, skew) == NOW + dt.timedelta(milliseconds=moved)


def test_a_day_is_a_day_in_the_households_zone(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    line = phone.write("looked", {"lot": lot, "count": 1}, happened_at="2026-11-24T23:30:00.000Z")
    phone.push(line)
    [entry] = entries_of(family.household.pk, [uuid.UUID(line["id"])]).values()
    assert entry.day == dt.date(2026, 11, 25)
