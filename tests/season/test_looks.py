"""When to look a lot over again: by its own hazard, never later than the table's last day in time."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from homestead.ledger.reads import sheets_of
from homestead.rounds.planning import by_outlook, make_roster
from homestead.rounds.reads import lots_due
from homestead.season.outlook import make_outlook
from tests.bodies import out
from tests.factories import MORNING, Home

LATER = MORNING + dt.timedelta(days=60)


def look_days(home: Home, lot: str) -> int:
    rows = [row for sheet in sheets_of(home.id, "outlook") for row in sheet["content"]["lots"]]
    return int(next(row["look_days"] for row in rows if row["lot"] == lot))


@pytest.fixture
def two_lots(home: Home) -> dict[str, Any]:
    """Carrots that rot fast, and carrots of which nothing was ever taken out."""
    cellar = home.space()
    lots = {name: home.lot(cellar, "carrot", pieces=400, grams=40_000, day=0) for name in ("bad", "well")}
    home.write("reading", {"space": cellar, "temp_c": 3.0}, day=1)
    for day in (20, 34, 48):
        for name, gone in (("bad", 40), ("well", 0)):
            look = {"lot": lots[name], "space": cellar, "way": "all", "looked": 300, "counted": False}
            home.write("inspection", look | ({"out": [out(pieces=gone)]} if gone else {}), day=day)
    return {"home": home, "cellar": cellar} | lots


def test_what_rots_fast_is_looked_over_sooner_than_what_keeps(two_lots: dict[str, Any]) -> None:
    home: Home = two_lots["home"]
    make_outlook(home.id, now=LATER)
    assert 4 <= look_days(home, two_lots["bad"]) < look_days(home, two_lots["well"]) <= 14


def test_the_roster_takes_its_days_from_the_outlook(two_lots: dict[str, Any]) -> None:
    home: Home = two_lots["home"]
    make_outlook(home.id, now=LATER)
    make_roster(home.id, now=LATER)
    rows = {row["lot"]: row for sheet in sheets_of(home.id, "roster") for row in sheet["content"]["lots"]}
    for name in ("bad", "well"):
        row, days = rows[two_lots[name]], look_days(home, two_lots[name])
        assert row["days"] == days
        last = dt.date.fromisoformat(row["last_look"])
        assert row["due"] == (last + dt.timedelta(days=days)).isoformat()


def test_no_outlook_puts_a_look_off_beyond_the_tables_last_day(two_lots: dict[str, Any]) -> None:
    """By hand: carrots every 14 days, a quarter of which or three may be late: 17 at most."""
    home: Home = two_lots["home"]
    told = [{"content": {"lots": [{"lot": two_lots["bad"], "look_days": 90}]}}]
    due = {str(one.lot): one for one in by_outlook(lots_due(home.id), told)}
    late, usual = due[two_lots["bad"]], due[two_lots["well"]]
    assert (late.days, usual.days) == (17, 14)
    assert (late.due - late.last_look).days == 17
