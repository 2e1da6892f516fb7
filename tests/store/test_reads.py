"""What the store tells, as plain data."""

from __future__ import annotations

import datetime as dt
import uuid

import pytest

from homestead.store import reads
from tests.factories import MORNING, Home, HomeFactory

DAY = dt.date(2026, 11, 25)


def test_spaces_come_in_their_order_with_what_stands_there(home: Home) -> None:
    loft, cellar = home.space("Loft", order=2), home.space("Cellar", order=1)
    gone = home.space("Old shed", archived=True)
    home.lot(cellar)
    struck = home.lot(cellar)
    home.strike(struck)
    eaten = home.lot(cellar, grams=100)
    home.write("take", {"lot": eaten, "grams": 100, "for": "eat", "last": True})
    told = [(str(space["uuid"]), space["lots"]) for space in reads.spaces_of(home.id)]
    assert told == [(cellar, 1), (loft, 0), (gone, 0)]


def test_a_lots_life_has_its_state_its_entries_and_what_left(home: Home) -> None:
    lot = home.lot(home.space())
    home.write("take", {"lot": lot, "grams": 4_000, "for": "eat"}, day=2)
    mistake = home.write("take", {"lot": lot, "grams": 9_000, "for": "eat"}, day=3)
    home.strike(mistake)
    told = reads.life_of_lot(home.id, uuid.UUID(lot), "2026-12-01")
    assert told["state"]["grams"] == 20_000
    assert [(one["kind"], one["struck"]) for one in told["entries"] if one["kind"] != "strike"] == [
        ("put_away", False),
        ("take", False),
        ("take", True),
    ]
    assert [(one["way"], one["grams"]) for one in told["went"]] == [("eaten", 4_000)]


def test_a_struck_lots_life_stays_readable(home: Home) -> None:
    lot = home.lot(home.space())
    home.strike(lot)
    told = reads.life_of_lot(home.id, uuid.UUID(lot), "2026-12-01")
    assert told["state"] is None
    assert told["entries"][0]["struck"]


def test_a_part_is_told_with_the_past_of_what_it_came_from(home: Home) -> None:
    cellar = home.space()
    lot = home.lot(cellar, pieces=100, grams=10_000)
    part = home.write("move", {"lot": lot, "all": False, "space": cellar, "pieces": 40})
    small = home.write("move", {"lot": part, "all": False, "space": cellar, "pieces": 4})
    states = reads.states_of_lots(home.id, [uuid.UUID(small)], "2026-12-01")
    assert list(states) == [uuid.UUID(small)]
    assert states[uuid.UUID(small)]["grams"] == 400


def test_what_nobody_wrote_down_is_presumed_of_the_day_asked_for(home: Home) -> None:
    """F16: no entry for long, so shown less than the sum by what is usually used."""
    lot = home.lot(home.space(), grams=20_000)
    for week in range(1, 5):
        home.write("take", {"lot": lot, "grams": 1_000, "for": "eat"}, day=7 * week)
    key = uuid.UUID(lot)
    soon = reads.states_of_lots(home.id, [key], "2026-12-24")[key]
    late = reads.states_of_lots(home.id, [key], "2027-02-20")[key]
    late_days = (dt.date(2027, 2, 20) - dt.date(2026, 12, 23)).days
    assert (soon["known"], late["known"]) == ("worked_out", "presumed")
    assert late["grams"] == 16_000
    assert late["shown"]["grams"] == pytest.approx(16_000 - 4_000 / 56 * late_days)


def test_what_went_between_two_days_counts_both(home: Home) -> None:
    lot = home.lot(home.space())
    for day in range(4):
        home.write("take", {"lot": lot, "grams": 100 + day, "for": "eat"}, day=day)
    told = reads.went_between(home.id, DAY + dt.timedelta(days=1), DAY + dt.timedelta(days=2))
    assert [one["grams"] for one in told] == [101, 102]


def test_readings_of_a_space_come_oldest_first(home: Home) -> None:
    cellar, loft = home.space(), home.space("Loft")
    for day, temp_c in ((3, 2.0), (1, 4.0), (2, 3.0)):
        home.write("reading", {"space": cellar, "temp_c": temp_c}, day=day)
    home.write("reading", {"space": loft, "temp_c": 9.0}, day=1)
    told = reads.readings_of(home.id, uuid.UUID(cellar), MORNING + dt.timedelta(days=1))
    assert [one["temp_c"] for one in told] == [4.0, 3.0, 2.0]


def test_no_read_tells_of_another_family(home: Home) -> None:
    """invariant 36"""
    other = HomeFactory()
    cellar = home.space()
    lot = home.lot(cellar)
    home.write("reading", {"space": cellar, "temp_c": 3.0})
    assert reads.spaces_of(other.id) == []
    assert reads.states_of_lots(other.id, [uuid.UUID(lot)], "2026-12-01") == {}
    life = reads.life_of_lot(other.id, uuid.UUID(lot), "2026-12-01")
    assert life == {"state": None, "entries": [], "went": []}
    assert reads.went_between(other.id, DAY, DAY) == []
    assert reads.readings_of(other.id, uuid.UUID(cellar), MORNING) == []
