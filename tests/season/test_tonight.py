"""What a room asks for tonight, as the sheet of the rooms tells it: lots out of the frost, a room aired."""

from __future__ import annotations

import datetime as dt
from typing import Any

from homestead.ledger.actions import Sheet, write_sheet
from homestead.ledger.reads import sheets_of
from homestead.rounds.asked import Asked
from homestead.rounds.planning import make_roster
from homestead.season.rooms import make_rooms
from homestead.season.tonight import rooms_tonight
from tests.factories import MORNING, Home, HomeFactory

TODAY = dt.date(2026, 11, 25)
READ = {"last": {"when": "2026-11-24T08:00:00+00:00"}}


def tell(home: Home, space: str, **room: Any) -> None:
    content = {"day": TODAY.isoformat(), "outside": None, "rooms": [{"space": space} | room]}
    write_sheet(home.id, Sheet(key="rooms", kind="rooms", as_of=0, inputs={}, content=content), now=MORNING)


def asked(home: Home, days: int = 0) -> list[Asked]:
    return list(rooms_tonight(home.id, TODAY + dt.timedelta(days=days)))


def frost(lowest_c: float) -> dict[str, Any]:
    return {
        "frost": {"level": "warn", "lowest_c": [lowest_c, lowest_c + 1, lowest_c + 2], "by_outside": False}
    }


def test_lots_that_might_freeze_are_carried_out_before_dark(home: Home) -> None:
    """Potatoes freeze near -1 °C, walnuts have no freezing point there: storage.csv names its sources."""
    garage, loft = home.space("Garage", kind="garage"), home.space("Loft", kind="loft")
    potatoes = home.lot(garage, "potato")
    home.lot(garage, "walnut")
    home.lot(loft, "potato")
    tell(home, garage, **frost(-0.9))
    [one] = asked(home)
    assert (one.key, one.tonight, one.latest) == (f"frost/{garage}/2026-11-25", True, TODAY)
    assert one.about["lots"] == [potatoes]
    assert one.needs == {"lifting"}
    tell(home, garage, **frost(1.5))
    assert asked(home) == []


def test_frost_is_asked_of_each_day_it_is_warned_of(home: Home) -> None:
    garage = home.space("Garage", kind="garage")
    home.lot(garage, "potato")
    tell(home, garage, **frost(-2.0))
    assert [one.key[-10:] for days in (0, 1) for one in asked(home, days)] == ["2026-11-25", "2026-11-26"]
    assert asked(home, 2) == [], "a sheet of the day before yesterday says nothing of tonight"


def test_a_room_is_opened_where_the_air_outside_was_read_and_helps(home: Home) -> None:
    cellar = home.space(cautions=["gas"])
    vent = {"open": True, "why": "too_warm", "becomes_pct": 80, "shut_at_c": 1.5}
    tell(home, cellar, vent=vent, **READ)
    [one] = asked(home)
    assert (one.key, one.needs, one.about["shut_at_c"]) == (f"vent/{cellar}/2026-11-25", {"not_alone"}, 1.5)
    tell(home, cellar, vent=vent | {"open": False, "why": "frost"}, **READ)
    assert asked(home) == []


def test_a_room_is_aired_once_a_reading_where_nobody_read_the_air_outside(home: Home) -> None:
    cellar = home.space()
    tell(home, cellar, outside_helps=[-0.4, 6.0], vent=None, **READ)
    assert [(one.key, one.about["outside_c"]) for days in (0, 1) for one in asked(home, days)] == [
        (f"air/{cellar}/2026-11-24", [-0.4, 6.0])
    ] * 2


def test_what_is_done_is_asked_no_more(home: Home) -> None:
    cellar = home.space()
    tell(home, cellar, outside_helps=[-0.4, 6.0], **READ)
    make_roster(home.id, now=MORNING)
    [sheet] = sheets_of(home.id, "chores")
    [told] = sheet["content"]["chores"]
    assert (told["what"], told["who"], told["tonight"]) == ("air", home.keeper, True)
    home.write("chore_done", {"chore": told["key"]}, day=0)
    make_roster(home.id, now=MORNING + dt.timedelta(days=1))
    [sheet] = sheets_of(home.id, "chores")
    assert sheet["content"]["chores"] == []


def test_it_reads_the_sheet_the_rooms_job_writes(home: Home) -> None:
    garage = home.space("Garage", kind="garage")
    potatoes = home.lot(garage, "potato")
    home.write("reading", {"space": garage, "temp_c": 0.0, "rh_pct": 90}, at=MORNING - dt.timedelta(hours=2))
    make_rooms(home.id, now=MORNING)
    assert [(one.what, one.about["lots"]) for one in asked(home)] == [("frost", [potatoes])]


def test_another_familys_room_is_none_of_ours(home: Home) -> None:
    other = HomeFactory()
    tell(other, other.space(), outside_helps=[-0.4, 6.0], **READ)
    assert asked(home) == []
