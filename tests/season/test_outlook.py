"""The outlook and what is on the turn, from what was written down."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from homestead.ledger.reads import sheets_of
from homestead.season.facts import handbook_of, household_facts
from homestead.season.outlook import Asked, make_outlook, sheets_content, work_out
from homestead.season.table import AtTable
from homestead.season.words import NOTHING_SAID
from tests.bodies import out
from tests.factories import MORNING, Home, HomeFactory

DAY = MORNING.date()
LATER = MORNING + dt.timedelta(days=60)


@pytest.fixture
def kept(home: Home) -> dict[str, Any]:
    """A cellar of carrots by the piece and of cabbage, some eaten, looked over, thrown out and counted."""
    cellar = home.space()
    carrots = home.lot(cellar, "carrot", pieces=300, grams=30_000, day=0)
    cabbage = home.lot(cellar, "cabbage", pieces=17, grams=34_000, day=0)
    home.edit("weekly_use", {"crop": "carrot", "grams": 1_400})
    for day in (10, 24, 38):
        home.write("reading", {"space": cellar, "temp_c": 5.0}, day=day)
    look = {"lot": carrots, "space": cellar, "way": "all", "looked": 250, "counted": True}
    home.write("inspection", look | {"out": [out(pieces=6)]}, day=20)
    home.write("take", {"lot": carrots, "pieces": 14, "for": "eat"}, day=25)
    home.write("count", {"lot": cabbage, "pieces": 15, "gone": "given"}, day=30)
    return {"home": home, "cellar": cellar, "carrots": carrots, "cabbage": cabbage}


def facts_of(kept: dict[str, Any], lot: str) -> Any:
    known = household_facts(kept["home"].id)
    return next(one.facts for one in known.kept if str(one.lot) == kept[lot])


def test_looks_and_takes_are_those_written_down(kept: dict[str, Any]) -> None:
    carrots = facts_of(kept, "carrots")
    assert (carrots.pieces, carrots.put_away) == (300, DAY)
    [look] = carrots.looks
    assert (look.day, look.looked, look.culled, look.full, look.counted) == (
        DAY + dt.timedelta(days=20), 250, 6, True, True,
    )  # fmt: skip
    [take] = carrots.takes
    assert (take.day, take.pieces, take.tossed) == (DAY + dt.timedelta(days=25), 14, 0)
    assert carrots.plan_per_week == pytest.approx(14)


def test_a_bare_count_is_a_count_without_a_search(kept: dict[str, Any]) -> None:
    [look] = facts_of(kept, "cabbage").looks
    assert (look.looked, look.sought, look.full) == (15, False, True)


def test_each_crop_has_a_band_in_order_and_a_day_it_runs_out(kept: dict[str, Any]) -> None:
    content = sheets_content(household_facts(kept["home"].id), LATER.date())
    carrot = content["outlook/carrot"]
    assert all(low <= middle <= high for low, middle, high in carrot["weeks"])
    assert 15_000 < carrot["weeks"][0][1] < 24_400
    assert 0 < carrot["run_out_days"][1] <= 400
    assert 0 < carrot["harvest"]["chance"] < 1
    assert content["outlook/cabbage"]["run_out_days"] is None


def test_a_crop_whose_use_nobody_told_is_used_as_lately(kept: dict[str, Any]) -> None:
    """By hand: 2 cabbages of 2 kg in eight weeks are half a kilogram a week."""
    kept["home"].write("take", {"lot": kept["cabbage"], "pieces": 2, "grams": 4_000, "for": "eat"}, day=40)
    known = household_facts(kept["home"].id)
    assert known.need_kg == {"carrot": pytest.approx(1.4), "cabbage": pytest.approx(0.5)}


def test_what_is_set_aside_for_seed_is_no_food(kept: dict[str, Any]) -> None:
    before = sheets_content(household_facts(kept["home"].id), LATER.date())["outlook/carrot"]["weeks"]
    kept["home"].write("set_aside", {"lot": kept["carrots"], "pieces": 50}, day=41)
    after = sheets_content(household_facts(kept["home"].id), LATER.date())["outlook/carrot"]["weeks"]
    assert before[0][1] - after[0][1] == pytest.approx(5_000, abs=100)


def test_guests_bring_the_end_nearer_and_people_away_put_it_off(kept: dict[str, Any]) -> None:
    home: Home = kept["home"]
    today = LATER.date()

    def lasts() -> int:
        return int(sheets_content(household_facts(home.id), today)["outlook/carrot"]["run_out_days"][1])

    usual = lasts()
    stay = {"from": today.isoformat(), "until": (today + dt.timedelta(days=27)).isoformat()}
    guests = home.edit("guests", {"number": 2} | stay)
    assert lasts() < usual
    home.edit("guests", {"archived": True}, guests)
    home.edit("person", {"away_from": stay["from"], "away_until": stay["until"]}, home.keeper)
    assert lasts() > usual


def test_eaters_are_counted_by_the_day() -> None:
    """By hand: four usual, one away and three guests are six of four; a week half of it away is the mean."""
    first, last = dt.date(2026, 12, 24), dt.date(2026, 12, 27)
    table = AtTable(4, ((first, last),), ((3, first, last),))
    assert table.share(first) == 1.5
    assert table.share(last + dt.timedelta(days=1)) == 1.0
    assert AtTable(2, ((first, None),)).by_week(first - dt.timedelta(days=3), 2) == [(3 + 4 * 0.5) / 7, 0.5]
    assert AtTable().share(first) == 1.0


def test_what_loses_most_by_waiting_stands_first(kept: dict[str, Any]) -> None:
    content = sheets_content(household_facts(kept["home"].id), LATER.date())
    shares = [one["share"] for one in content["on_the_turn"]["lots"]]
    assert shares == sorted(shares, reverse=True)


def test_the_same_facts_give_the_same_sheets(kept: dict[str, Any]) -> None:
    known = household_facts(kept["home"].id)
    assert sheets_content(known, LATER.date()) == sheets_content(known, LATER.date())


def test_a_lot_without_figures_is_named_and_stops_nothing(kept: dict[str, Any]) -> None:
    own = kept["home"].edit("crop", {"name": "Oca"})
    oca = kept["home"].lot(kept["cellar"], own, day=1)
    content = sheets_content(household_facts(kept["home"].id), LATER.date())
    assert content["on_the_turn"]["silent"] == [{"lot": oca, "why": "no_figures"}]
    assert "outlook/carrot" in content


def test_sheets_are_written_once_and_leave_with_their_crop(kept: dict[str, Any]) -> None:
    home: Home = kept["home"]
    make_outlook(home.id, now=LATER)
    keys = {sheet["key"] for sheet in sheets_of(home.id, "outlook")}
    assert keys == {"outlook/carrot", "outlook/cabbage"}
    before = sheets_of(home.id, "outlook")
    make_outlook(home.id, now=LATER + dt.timedelta(hours=1))
    assert sheets_of(home.id, "outlook") == before
    home.strike(kept["cabbage"])
    make_outlook(home.id, now=LATER)
    assert {sheet["key"] for sheet in sheets_of(home.id, "outlook")} == {"outlook/carrot"}


def test_no_household_sees_anothers_lots(kept: dict[str, Any]) -> None:
    assert household_facts(HomeFactory().id).kept == ()


def test_a_crop_takes_its_best_ranked_life() -> None:
    book = handbook_of("potato")
    assert book is not None
    assert (book.low_days, book.high_days, book.ref_c) == (150, 240, pytest.approx(4.4))
    assert handbook_of("no_such_crop") is None


def test_bands_are_as_wide_as_the_households_own_forecasts_ask(kept: dict[str, Any]) -> None:
    known = household_facts(kept["home"].id)
    usual = work_out(known, NOTHING_SAID, Asked(LATER.date())).content["outlook/carrot"]
    wide = work_out(known, NOTHING_SAID, Asked(LATER.date(), stretch=1.5)).content["outlook/carrot"]
    for (low, middle, high), (lower, same, higher) in zip(usual["weeks"][:9], wide["weeks"][:9], strict=True):
        assert same == middle
        assert higher - same == pytest.approx(1.5 * (high - middle), abs=2)
        assert lower == pytest.approx(max(middle - 1.5 * (middle - low), 0), abs=2)
    assert wide["run_out_days"][2] <= 400


def test_a_crop_of_earlier_winters_is_used_as_in_those(kept: dict[str, Any]) -> None:
    """By hand: 12 kg eaten in 24 weeks are half a kilogram a week, however little was eaten lately."""
    home: Home = kept["home"]
    swede = home.lot(kept["cellar"], "swede", grams=12_000, measured="weighed", day=-365)
    for week in range(1, 25):
        home.write(
            "take", {"lot": swede, "grams": 500, "measured": "weighed", "for": "eat"}, day=7 * week - 365
        )
    assert household_facts(home.id).need_kg["swede"] == pytest.approx(0.5)
