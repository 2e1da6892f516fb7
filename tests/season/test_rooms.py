"""The sheet of the rooms: what was read, what is wanted, frost, airing, and what it costs the lots."""

from __future__ import annotations

import datetime as dt
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from homestead.ledger.reads import sheets_of
from homestead.season.rooms import make_rooms, room_facts, rooms_content
from tests.factories import MORNING, Home

ZONE = ZoneInfo("Europe/Vienna")
DAY = 60
EVENING = MORNING.replace(hour=17) + dt.timedelta(days=DAY)


def content_of(home: Home, now: dt.datetime = EVENING) -> dict[str, Any]:
    return rooms_content(room_facts(home.id, now), now, ZONE)


def room(content: dict[str, Any], space: str) -> dict[str, Any]:
    [found] = [one for one in content["rooms"] if one["space"] == space]
    return dict(found)


def read(home: Home, space: str, temp: float, rh: int | None = None, day: int = DAY, **more: Any) -> None:
    told = {"space": space, "temp_c": temp} | ({"rh_pct": rh} if rh is not None else {}) | more
    home.write("reading", told, day=day)


@pytest.fixture
def cellar(home: Home) -> str:
    """Carrots in a root cellar, in boxes of sand."""
    space = home.space("Root cellar")
    home.lot(space, "carrot", pieces=200, grams=20_000, pack="sand", day=0)
    return space


def test_a_space_nobody_read_says_so_and_its_band_is_wide(home: Home, cellar: str) -> None:
    told = room(content_of(home), cellar)
    assert (told["word"], told["last"], told["lately"]) == ("no_reading", None, None)
    low, _, high = told["week"]
    assert high - low > 12


def test_readings_make_the_band_narrow_and_gaps_make_it_wide_again(home: Home, cellar: str) -> None:
    for day in (10, 54, 56, 58):
        read(home, cellar, 4.0, day=day)
    weeks = room(content_of(home), cellar)["weeks"]
    width = {week["from"]: week["band"][2] - week["band"][0] for week in weeks}
    assert [week["reads"] for week in weeks] == [0, 0, 0, 0, 0, 3]
    spans = list(width.values())
    assert spans[-1] < 2.6
    assert spans[2] > 2 * spans[-1]
    assert weeks[-1]["read"] == [4.0, 4.0]


def test_the_air_is_told_with_dew_point_and_drying_power(home: Home, cellar: str) -> None:
    """psychrolib gives a dew point of 2.51 °C and 5.72 g/m³ for 4 °C at 90 %."""
    read(home, cellar, 4.0, 90)
    last = room(content_of(home), cellar)["last"]
    assert (last["dew_c"], last["water_g_m3"], last["drying_kpa"]) == (2.5, 5.7, 0.081)


@pytest.mark.parametrize(
    ("temp", "rh", "word"),
    [(0.0, 98, "right"), (4.0, 95, "right"), (9.0, 95, "warm"), (-0.5, 95, "near_frost"), (2.0, 70, "dry")],
)
def test_a_word_for_the_last_reading(home: Home, cellar: str, temp: float, rh: int, word: str) -> None:
    read(home, cellar, temp, rh)
    assert room(content_of(home), cellar)["word"] == word


def test_outside_air_read_at_a_bed_tells_whether_to_open(home: Home, cellar: str) -> None:
    """Worked by hand: full cold air that is warmed from 2 to 9 °C is far drier than the room's."""
    bed = home.space("Garden", kind="bed")
    read(home, cellar, 9.0, 95)
    read(home, bed, 2.0, 90)
    content = content_of(home)
    assert content["outside"]["temp_c"] == 2.0
    vent = room(content, cellar)["vent"]
    assert (vent["open"], vent["why"], vent["becomes_pct"]) == (True, "too_warm", 55)


def test_frost_outside_shuts_what_is_open(home: Home, cellar: str) -> None:
    bed = home.space("Garden", kind="bed")
    read(home, cellar, 9.0, 95)
    read(home, bed, -6.0, 90)
    vent = room(content_of(home), cellar)["vent"]
    assert (vent["open"], vent["why"]) == (False, "frost")


def test_air_read_a_day_ago_or_without_humidity_is_not_tonights(home: Home, cellar: str) -> None:
    bed = home.space("Garden", kind="bed")
    read(home, cellar, 9.0, 95)
    read(home, bed, 2.0, 90, day=DAY - 1)
    read(home, bed, 2.0)
    content = content_of(home)
    assert content["outside"] is None
    assert room(content, cellar)["vent"] is None


def test_without_outside_air_it_tells_at_which_air_opening_helps(home: Home, cellar: str) -> None:
    read(home, cellar, 9.0, 95)
    low, high = room(content_of(home), cellar)["outside_helps"]
    assert high == 7.0
    assert -1.0 < low < 1.0
    read(home, cellar, 2.0, 95)
    assert room(content_of(home), cellar)["outside_helps"] is None


def test_a_cold_night_warns_of_frost_by_what_freezes_first(home: Home) -> None:
    garage = home.space("Garage", kind="garage")
    bed = home.space("Garden", kind="bed")
    home.lot(garage, "apple", pieces=100, grams=15_000, day=0)
    read(home, garage, 2.0, 85)
    read(home, bed, -9.0, 80)
    frost = room(content_of(home), garage)["frost"]
    assert frost["level"] == "alarm"
    assert frost["by_outside"]
    low, middle, high = frost["lowest_c"]
    assert low < middle < high < 2.0


def test_a_warmer_room_costs_days_against_the_best(home: Home, cellar: str) -> None:
    """By the Q10 rule a room 10 °C warmer ages a lot Q10 times as fast: seven days times Q10 less one."""
    loft = home.space("Loft", kind="loft")
    home.lot(loft, "carrot", pieces=100, grams=10_000, day=0)
    for day in (46, 50, 54, 58, 60):
        read(home, cellar, 2.0, 95, day=day)
        read(home, loft, 12.0, 70, day=day)
    content = content_of(home)
    [cost] = room(content, loft)["costs"]
    assert (cost["crop"], cost["best"]) == ("carrot", cellar)
    low, middle, high = cost["days"]
    assert 7 * 1.0 < middle < 7 * 3.0
    assert low < middle < high
    assert room(content, cellar)["costs"] == []


def test_roots_in_sand_stay_firm_longer_than_on_a_shelf(home: Home, cellar: str) -> None:
    shelf = home.lot(cellar, "carrot", pieces=100, grams=10_000, pack="open_shelf", day=0)
    for day in (0, 30, 60):
        read(home, cellar, 4.0, 85, day=day)
    drying = {one["lot"]: one for one in room(content_of(home), cellar)["drying"]}
    assert drying[shelf]["feels"] == "limp or wrinkled"
    soonest, likeliest, latest = drying[shelf]["limp_on"]
    assert soonest < likeliest < latest
    assert len(drying) == 1 or min(one["limp_on"][0] for one in drying.values()) == soonest


def test_squash_in_a_cold_room_is_told_to_have_been_chilled(home: Home) -> None:
    cold = home.space("Cold room", kind="cold_room")
    lot = home.lot(cold, "squash", pieces=10, grams=20_000, day=0)
    for day in (0, 20, 40, 60):
        read(home, cold, 4.0, 85, day=day)
    [told] = room(content_of(home), cold)["chilled"]
    assert (told["lot"], told["hurt"]) == (lot, "surely")


def test_apples_beside_carrots_are_named(home: Home, cellar: str) -> None:
    home.lot(cellar, "apple", pieces=50, grams=7_500, day=0)
    assert {"gives": "apple", "suffers": "carrot"} in room(content_of(home), cellar)["neighbours"]


def test_a_thermometer_that_stands_still_is_told_and_not_trusted(home: Home, cellar: str) -> None:
    for day in range(0, DAY + 1, 4):
        read(home, cellar, 5.0, day=day)
    still = room(content_of(home), cellar)
    assert still["stuck_days"] == DAY
    for day in range(2, DAY + 1, 4):
        read(home, cellar, 5.5, day=day)
    alive = room(content_of(home), cellar)
    assert alive["stuck_days"] == 0
    width = [one["week"][2] - one["week"][0] for one in (still, alive)]
    assert width[0] > 2 * width[1]


def test_a_space_colder_than_the_formulas_cover_says_so_and_stops_no_other(home: Home, cellar: str) -> None:
    freezer = home.space("Freezer", kind="freezer")
    read(home, freezer, -24.0, 60)
    read(home, cellar, 4.0, 90)
    content = content_of(home)
    assert "temp_c is -24" in room(content, freezer)["last"]["amiss"]
    assert room(content, cellar)["word"] == "right"


def test_a_freezer_is_judged_as_one(home: Home, cellar: str) -> None:
    freezer = home.space("Freezer", kind="freezer")
    assert room(content_of(home), freezer)["word"] == "no_reading"
    read(home, freezer, -18.0)
    assert room(content_of(home), freezer)["word"] == "frozen"
    read(home, freezer, -9.0)
    assert room(content_of(home), freezer)["word"] == "thaws"


def test_the_sheet_is_written_once(home: Home, cellar: str) -> None:
    make_rooms(home.id, now=EVENING)
    [before] = sheets_of(home.id, "rooms")
    make_rooms(home.id, now=EVENING + dt.timedelta(minutes=5))
    assert sheets_of(home.id, "rooms") == [before]
