"""After a push only what it touched is worked out again; in the night all is. The sheets are the same."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from homestead.ledger.reads import sheets_of
from homestead.science.chance import chances
from homestead.season import foresee, words
from homestead.season.facts import household_facts
from homestead.season.foresee import SEED
from homestead.season.models import Learnt
from homestead.season.outlook import KINDS, make_outlook, sheets_content
from homestead.season.words import NOTHING_SAID, finished, words_of
from tests.bodies import out
from tests.factories import MORNING, Home

LATER = MORNING + dt.timedelta(days=60)


@pytest.fixture
def two_crops(home: Home) -> dict[str, Any]:
    cellar = home.space()
    carrots = home.lot(cellar, "carrot", pieces=300, grams=30_000, day=0)
    cabbage = home.lot(cellar, "cabbage", pieces=17, grams=34_000, day=0)
    home.edit("weekly_use", {"crop": "carrot", "grams": 1_400})
    return {"home": home, "cellar": cellar, "carrots": carrots, "cabbage": cabbage}


@pytest.fixture
def fits(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Crops of the lots that were fitted, in order."""
    fitted: list[str] = []
    truly = foresee.foresee

    def watched(kept: Any, *rest: Any) -> Any:
        fitted.append(kept.facts.crop)
        return truly(kept, *rest)

    monkeypatch.setattr(foresee, "foresee", watched)
    return fitted


def content(home: Home) -> dict[str, Any]:
    return {one["key"]: one["content"] for one in sheets_of(home.id, *KINDS)}


def test_after_a_take_only_its_crop_is_fitted_again(two_crops: dict[str, Any], fits: list[str]) -> None:
    home: Home = two_crops["home"]
    make_outlook(home.id, now=LATER)
    assert sorted(fits) == ["cabbage", "carrot"]
    home.write("take", {"lot": two_crops["carrots"], "pieces": 14, "for": "eat"}, day=59)
    make_outlook(home.id, now=LATER + dt.timedelta(minutes=1))
    assert sorted(fits) == ["cabbage", "carrot", "carrot"]
    make_outlook(home.id, now=LATER + dt.timedelta(minutes=2))
    assert len(fits) == 3


def test_a_meal_of_a_later_day_changes_no_other_crop_though_nobody_told_its_use(
    two_crops: dict[str, Any], fits: list[str]
) -> None:
    home: Home = two_crops["home"]
    for crop, day in (("cabbage", 56), ("carrots", 56)):
        home.write("take", {"lot": two_crops[crop], "pieces": 2, "for": "eat"}, day=day)
    make_outlook(home.id, now=LATER)
    home.write("take", {"lot": two_crops["carrots"], "pieces": 14, "for": "eat"}, day=58)
    make_outlook(home.id, now=LATER + dt.timedelta(minutes=1))
    assert sorted(fits) == ["cabbage", "carrot", "carrot"]


def test_what_is_taken_over_is_what_would_be_worked_out(two_crops: dict[str, Any]) -> None:
    home: Home = two_crops["home"]
    make_outlook(home.id, now=LATER)
    look = {"lot": two_crops["carrots"], "space": two_crops["cellar"], "way": "all", "looked": 290}
    home.write("inspection", look | {"counted": True, "out": [out(pieces=9)]}, day=58)
    make_outlook(home.id, now=LATER + dt.timedelta(minutes=1))
    assert content(home) == dict(sheets_content(household_facts(home.id), LATER.date()))


def test_a_reading_changes_all_that_lie_in_its_space(two_crops: dict[str, Any], fits: list[str]) -> None:
    home: Home = two_crops["home"]
    make_outlook(home.id, now=LATER)
    home.write("reading", {"space": two_crops["cellar"], "temp_c": 9.0}, day=58)
    make_outlook(home.id, now=LATER + dt.timedelta(minutes=1))
    assert sorted(fits) == ["cabbage", "cabbage", "carrot", "carrot"]


def test_the_night_works_all_out_again(two_crops: dict[str, Any], fits: list[str]) -> None:
    home: Home = two_crops["home"]
    make_outlook(home.id, now=LATER)
    make_outlook(home.id, now=LATER + dt.timedelta(days=1))
    assert sorted(fits) == ["cabbage", "cabbage", "carrot", "carrot"]


def eaten_up(two_crops: dict[str, Any]) -> None:
    """Another lot of carrots, looked over and eaten to the last."""
    home: Home = two_crops["home"]
    lot = home.lot(two_crops["cellar"], "carrot", pieces=40, grams=4_000, day=1)
    look = {"lot": lot, "space": two_crops["cellar"], "way": "all", "looked": 40, "counted": True}
    home.write("inspection", look | {"out": [out(pieces=4)]}, day=20)
    home.write("take", {"lot": lot, "pieces": 36, "for": "eat", "last": True}, day=30)


def test_finished_lots_are_learnt_from_once_and_remembered(
    two_crops: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    home: Home = two_crops["home"]
    eaten_up(two_crops)
    kept = household_facts(home.id).kept
    learnt = words_of(home.id, kept, chances(SEED), anew=True)
    assert len(learnt.said) == 1
    monkeypatch.setattr(words, "learn", lambda *_: pytest.fail("It was learnt already."))
    again = words_of(home.id, kept, chances(SEED), anew=True)
    assert again.mark == learnt.mark
    [one], [other] = learnt.said, again.said
    assert one.labels == other.labels
    assert one.variance.tolist() == other.variance.tolist()
    assert one.off.tolist() == other.off.tolist()


def test_a_push_that_finishes_a_lot_waits_for_the_night_to_learn_from_it(two_crops: dict[str, Any]) -> None:
    home: Home = two_crops["home"]
    eaten_up(two_crops)
    make_outlook(home.id, now=LATER)
    mark = Learnt.rows.of(home.id).get().mark
    home.write("take", {"lot": two_crops["cabbage"], "pieces": 17, "for": "eat", "last": True}, day=59)
    make_outlook(home.id, now=LATER + dt.timedelta(minutes=1))
    assert Learnt.rows.of(home.id).get().mark == mark
    make_outlook(home.id, now=LATER + dt.timedelta(days=1))
    assert Learnt.rows.of(home.id).get().mark != mark


def test_a_household_without_finished_lots_has_learnt_nothing(two_crops: dict[str, Any]) -> None:
    home: Home = two_crops["home"]
    kept = household_facts(home.id).kept
    assert finished(kept) == []
    assert words_of(home.id, kept, chances(SEED), anew=True) == NOTHING_SAID
