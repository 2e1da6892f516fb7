"""The roster: who walks which space and when."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Any

import pytest

from homestead.household.models import Household
from homestead.ledger.reads import sheets_of
from homestead.rounds.planning import Facts, by_outlook, contents, make_roster, plan_of, with_risk
from homestead.rounds.reads import DueLot, lots_due, minutes_by_day, open_suspects
from homestead.rounds.roster import NOTHING_BEFORE, Before, Door, Looking, churn, minutes_of, walks_of
from homestead.rounds.sharing import Walker
from tests.factories import MORNING, Home, HomeFactory

DAY = dt.date(2026, 11, 25)
CELLAR, LOFT = uuid.UUID(int=1), uuid.UUID(int=2)
ANA, TOM, WIL = uuid.UUID(int=11), uuid.UUID(int=12), uuid.UUID(int=13)


def ago(minutes: float) -> dict[dt.date, float]:
    """So many minutes given, yesterday."""
    return {DAY - dt.timedelta(days=1): minutes}


def due(lot: int, day: int, space: uuid.UUID = CELLAR, **told: Any) -> DueLot:
    on = DAY + dt.timedelta(days=day)
    facts = {
        "crop": "carrot",
        "last_look": on - dt.timedelta(days=14),
        "days": 14,
        "pieces": None,
        "grams": 10_000,
    }
    return DueLot(lot=uuid.UUID(int=lot), space=space, due=on, **facts | told)


def facts(doors: list[Door], lots: list[DueLot], walkers: list[Walker], **told: Any) -> Facts:
    known = {
        "today": DAY,
        "doors": {door.space: door for door in doors},
        "due": lots,
        "minutes": {lot.lot: told.pop("each", 10) for lot in lots},
        "walkers": walkers,
        "asked": (),
        "claimed": {},
        "gave": {},
        "before": NOTHING_BEFORE,
    }
    return Facts(**known | told)


def roster(
    doors: list[Door], lots: list[DueLot], walkers: list[Walker], minutes: float = 10
) -> dict[uuid.UUID, Any]:
    known = facts(doors, lots, walkers, minutes={lot.lot: minutes for lot in lots})
    told = contents(known, plan_of(known))
    return {door.space: told[f"roster/{door.space}"] for door in doors}


def who(told: dict[uuid.UUID, Any], space: uuid.UUID = CELLAR) -> str | None:
    found: str | None = told[space]["walks"][0]["who"]
    return found


def test_a_walk_is_on_the_day_its_first_lot_is_due_and_takes_those_due_soon_after() -> None:
    told = roster([Door(CELLAR)], [due(5, 6), due(3, 2), due(4, 4)], [Walker(ANA, "adult")])
    walk = told[CELLAR]["walks"][0]
    assert walk["day"] == "2026-11-27"
    assert walk["lots"] == [str(uuid.UUID(int=lot)) for lot in (3, 4)]
    assert walk["minutes"] == 20
    assert [lot["due"] for lot in told[CELLAR]["lots"]] == ["2026-11-27", "2026-11-29", "2026-12-01"]


def test_a_late_walk_keeps_the_day_it_was_due() -> None:
    told = roster([Door(CELLAR)], [due(3, -4)], [Walker(ANA, "adult")])
    assert told[CELLAR]["walks"][0]["day"] == "2026-11-21"


def days(lots: list[DueLot], before: list[dt.date] | None = None, minutes: float = 10) -> list[str]:
    walks = walks_of(lots, {lot.lot: minutes for lot in lots}, DAY, before or [])
    return [walk.day.isoformat()[5:] for walk in walks]


def test_walks_are_told_14_days_ahead_and_the_next_one_however_far() -> None:
    assert days([due(3, 2, days=5)]) == ["11-27", "12-02", "12-07"]
    assert days([due(3, 40, days=60)]) == ["01-04"]


def test_no_lot_is_looked_at_after_its_latest_day_by_plan() -> None:
    lots = [due(number, number % 5, days=7 + number % 9) for number in range(3, 20)]
    for walk in walks_of(lots, {lot.lot: 4.0 for lot in lots}, DAY):
        assert walk.day <= walk.latest


def test_a_quarter_of_its_days_or_three_are_left_after_the_day_it_is_due() -> None:
    assert [(lot.latest - lot.due).days for lot in (due(3, 0), due(3, 0, days=30), due(3, 0, days=4))] == [
        3,
        7,
        2,
    ]
    assert due(3, 0, firm=True).latest == DAY


def test_what_can_wait_is_left_for_the_next_day_of_a_walk_too_long() -> None:
    lots = [due(number, 1) for number in (3, 4, 5)]
    walks = walks_of(lots, {lot.lot: 20.0 for lot in lots}, DAY)
    assert [(walk.day.day, len(walk.lots)) for walk in walks[:2]] == [(26, 2), (27, 1)]
    urgent = [due(number, 1, firm=True) for number in (3, 4, 5)]
    assert len(walks_of(urgent, {lot.lot: 20.0 for lot in urgent}, DAY)[0].lots) == 3


def test_a_day_that_was_told_stands_while_it_is_soon_enough() -> None:
    told = [DAY + dt.timedelta(days=1)]
    assert days([due(3, 2)], told)[0] == "11-26"
    assert days([due(3, 0)], told)[0] == "11-25"
    assert days([due(3, 5)], told)[0] == "11-30"


@pytest.mark.parametrize("every", [1, 2, 3])
def test_a_day_kept_for_a_lot_of_nearly_every_day_is_planned_for_once(every: int) -> None:
    """Pears are looked over every other day from February on: looking_over.csv, common practice."""
    told = [DAY + dt.timedelta(days=ahead) for ahead in range(15)]
    walked = days([due(3, every, days=every)], told)
    assert len(walked) == len(set(walked)) <= 15


def test_an_outlook_says_how_often_a_lot_is_looked_at() -> None:
    sheets = [{"content": {"lots": [{"lot": str(uuid.UUID(int=3)), "look_days": 5}, {"lot": "another"}]}}]
    [sooner, as_it_was] = by_outlook([due(3, 0), due(4, 0)], sheets)
    assert (sooner.days, sooner.due) == (5, DAY - dt.timedelta(days=9))
    assert as_it_was == due(4, 0)


def plan(lots: list[DueLot], walkers: list[Walker], **told: Any) -> Before:
    return plan_of(facts([Door(CELLAR)], lots, walkers, **told)).given


BOTH = [Walker(ANA, "adult"), Walker(TOM, "adult")]


def test_who_had_a_walk_keeps_it_unless_another_gave_much_less() -> None:
    key = f"roster/{CELLAR}/2026-11-26"
    before = Before(DAY - dt.timedelta(days=1), {key: TOM})
    assert plan([due(3, 1)], BOTH).who[key] == ANA
    assert plan([due(3, 1)], BOTH, before=before).who[key] == TOM
    gave_much = [Walker(ANA, "adult"), Walker(TOM, "adult", gave=ago(30))]
    assert plan([due(3, 1)], gave_much, before=before).who[key] == ANA


def test_who_let_the_day_pass_is_followed_by_another_once_a_day() -> None:
    key = f"roster/{CELLAR}/2026-11-24"
    yesterday = Before(DAY - dt.timedelta(days=1), {key: ANA})
    passed_on = plan([due(3, -1)], BOTH, before=yesterday)
    assert passed_on.who[key] == TOM
    assert plan([due(3, -1)], BOTH, before=passed_on).who[key] == TOM
    alone = plan([due(3, -1)], [Walker(ANA, "adult")], before=yesterday)
    assert alone.who[key] == ANA


def test_a_walk_claimed_is_theirs_and_one_given_away_is_anothers() -> None:
    key = f"roster/{CELLAR}/2026-11-25"
    assert plan([due(3, 0)], BOTH, claimed={key: TOM}).who[key] == TOM
    assert plan([due(3, 0)], BOTH, gave={key: ANA}).who[key] == TOM


def asked_too(lots: list[DueLot], walkers: list[Walker], **told: Any) -> list[uuid.UUID]:
    return list(plan(lots, walkers, **told).also.values())


def test_on_the_last_two_days_in_time_another_is_asked_as_well() -> None:
    yesterday = Before(DAY - dt.timedelta(days=1), {f"roster/{CELLAR}/2026-11-22": ANA})
    assert asked_too([due(3, -3)], BOTH, before=yesterday) == [ANA], "Tom has it now"
    assert len(asked_too([due(3, -2)], BOTH)) == 1
    assert asked_too([due(3, -1)], BOTH) == []
    assert asked_too([due(3, -4)], BOTH) == [], "late already: nothing is lost by asking one"


def test_who_gave_it_away_or_may_not_is_not_asked_as_well() -> None:
    key = f"roster/{CELLAR}/2026-11-22"
    assert asked_too([due(3, -3)], BOTH, gave={key: ANA}) == []
    assert asked_too([due(3, -3)], [Walker(ANA, "adult"), Walker(TOM, "child")]) == []


def test_after_days_on_which_nobody_could_a_walk_is_no_longer_and_takes_what_is_most_at_risk() -> None:
    lots = [due(number, -9, risk_g=risk) for number, risk in ((3, 200), (4, None), (5, 900), (6, 400))]
    walks = walks_of(lots, {lot.lot: 20.0 for lot in lots}, DAY)
    assert [[lot.int for lot in walk.lots] for walk in walks[:2]] == [[5, 6], [3, 4]]
    assert [walk.day for walk in walks[:2]] == [DAY, DAY + dt.timedelta(days=1)]


def test_what_would_be_late_tomorrow_goes_before_what_is_late() -> None:
    lots = [due(3, -9, risk_g=900), due(4, -9, risk_g=800), due(5, -3), due(6, -3), due(7, -3)]
    [walk, *_] = walks_of(lots, {lot.lot: 20.0 for lot in lots}, DAY)
    assert [lot.int for lot in walk.lots] == [5, 6, 7]


def test_a_walk_tells_what_a_week_of_waiting_loses() -> None:
    sheets = [{"content": {"lots": [{"lot": str(uuid.UUID(int=3)), "grams": 1400}]}}]
    lots = with_risk([due(3, 0), due(4, 0)], sheets)
    told = roster([Door(CELLAR)], lots, BOTH)[CELLAR]
    assert [lot["risk_g"] for lot in told["lots"]] == [1400, None]
    assert told["walks"][0]["risk_g"] == 1400
    assert roster([Door(CELLAR)], [due(4, 0)], BOTH)[CELLAR]["walks"][0]["risk_g"] is None


def test_churn_is_what_was_told_and_stands_no_more() -> None:
    key, other = f"roster/{CELLAR}/2026-11-26", f"roster/{CELLAR}/2026-12-08"
    before = Before(DAY, {key: ANA, other: TOM, "a chore": ANA})
    week = (DAY, DAY + dt.timedelta(days=7))
    assert churn(before, before, *week) == (0, 1)
    assert churn(before, Before(DAY, {key: TOM}), *week) == (1, 1)
    assert churn(before, Before(DAY, {}), DAY, DAY + dt.timedelta(days=20)) == (2, 2)


def test_a_space_without_lots_has_no_walk() -> None:
    told = roster([Door(CELLAR)], [], [Walker(ANA, "adult")])
    assert told[CELLAR] == {"space": str(CELLAR), "day": "2026-11-25", "walks": [], "lots": []}


def test_the_next_walk_goes_to_who_has_given_least() -> None:
    walkers = [Walker(ANA, "adult", gave=ago(50)), Walker(TOM, "adult", gave=ago(20))]
    assert who(roster([Door(CELLAR)], [due(3, 0)], walkers)) == str(TOM)


def test_what_someone_has_given_is_measured_by_what_they_can_give() -> None:
    walkers = [Walker(ANA, "adult", 120, gave=ago(50)), Walker(TOM, "adult", 30, gave=ago(20))]
    assert who(roster([Door(CELLAR)], [due(3, 0)], walkers)) == str(ANA)


def test_two_walks_are_shared_the_sooner_one_given_first() -> None:
    told = roster(
        [Door(LOFT), Door(CELLAR)],
        [due(3, 1, CELLAR), due(4, 0, LOFT)],
        [Walker(ANA, "adult"), Walker(TOM, "adult", gave=ago(1))],
    )
    assert (who(told, LOFT), who(told, CELLAR)) == (str(ANA), str(TOM))


def test_who_is_away_is_not_sent() -> None:
    away = (DAY, DAY + dt.timedelta(days=3))
    walkers = [Walker(ANA, "adult", away=away), Walker(TOM, "adult", gave=ago(500))]
    assert who(roster([Door(CELLAR)], [due(3, 2)], walkers)) == str(TOM)
    assert who(roster([Door(CELLAR)], [due(3, 4)], walkers)) == str(ANA)
    assert who(roster([Door(CELLAR)], [due(3, -9)], walkers)) == str(TOM), "late: asked of today"


@pytest.mark.parametrize("away", [(None, DAY), (DAY, None)])
def test_an_open_ended_absence_is_one_too(away: tuple[dt.date | None, dt.date | None]) -> None:
    assert who(roster([Door(CELLAR)], [due(3, 0)], [Walker(ANA, "adult", away=away)])) is None


def test_nobody_can_is_told_as_nobody() -> None:
    assert who(roster([Door(CELLAR)], [due(3, 0)], [])) is None


@pytest.mark.parametrize("caution", ["gas", "not_alone"])
def test_no_older_child_is_sent_through_a_door_it_should_not_pass(caution: str) -> None:
    walkers = [Walker(WIL, "rounds"), Walker(TOM, "adult", gave=ago(900))]
    assert who(roster([Door(CELLAR, frozenset({caution}))], [due(3, 0)], walkers)) == str(TOM)
    assert who(roster([Door(CELLAR, frozenset({"ladder"}))], [due(3, 0)], walkers)) == str(WIL)


def test_who_can_give_nothing_is_asked_last() -> None:
    walkers = [Walker(ANA, "adult", 0), Walker(TOM, "adult", 10, gave=ago(400))]
    assert who(roster([Door(CELLAR)], [due(3, 0)], walkers)) == str(TOM)


def test_the_same_facts_in_any_order_give_the_same_roster() -> None:
    doors, lots = [Door(CELLAR), Door(LOFT)], [due(3, 1), due(4, 1, LOFT), due(5, 1)]
    walkers = [Walker(ANA, "adult"), Walker(TOM, "adult")]
    assert roster(doors, lots, walkers) == roster(doors[::-1], lots[::-1], walkers[::-1])


@pytest.mark.parametrize(
    ("grams", "pieces", "expected"),
    [
        (14_000, None, 1.0),  # 20 pieces of 100 g
        (30_000, None, 1.5),  # a tenth: 3 kg
        (100_000, None, 5.0),  # a tenth: 10 kg
        (None, 1_000, 5.0),  # weighed by the piece
        (None, None, 3.0),
        (-500, None, 1.0),
    ],
)
def test_minutes_follow_what_is_looked_at(grams: float | None, pieces: float | None, expected: float) -> None:
    """The larger of 20 pieces and a tenth, 5 minutes per 10 kg: common practice, no source."""
    lot = due(3, 0, grams=grams, pieces=pieces)
    assert minutes_of(lot, Looking(20, 0.1, 5.0), piece_g=100) == pytest.approx(expected)


def test_a_lot_is_due_by_its_crops_interval(home: Home) -> None:
    """Onions are looked over weekly: common practice, no source (fixtures/reference/looking_over.csv)."""
    cellar = home.space()
    onion, carrot = home.lot(cellar, "onion"), home.lot(cellar, "carrot")
    told = {str(lot.lot): (lot.days, lot.due) for lot in lots_due(home.id)}
    assert told == {onion: (7, DAY + dt.timedelta(days=7)), carrot: (14, DAY + dt.timedelta(days=14))}


def test_an_own_interval_goes_before_the_tables(home: Home) -> None:
    home.lot(home.space(), "carrot")
    figure = {"table": "looking_over", "key": "carrot", "column": "every_days", "value": 10}
    home.edit("figure", figure)
    assert [lot.days for lot in lots_due(home.id)] == [10]


def test_a_look_moves_the_day_and_a_decision_brings_it_forward(home: Home) -> None:
    cellar = home.space()
    lot = home.lot(cellar, "carrot")
    look = {"lot": lot, "space": cellar, "way": "sample", "looked": 20, "counted": False}
    home.write("inspection", look, day=10)
    [told] = lots_due(home.id)
    assert (told.last_look, told.due) == (DAY + dt.timedelta(days=10), DAY + dt.timedelta(days=24))
    suspect = home.write("suspect", {"lot": lot, "findings": ["wet"], "lies": "held"}, day=11)
    home.write("decision", {"suspect": suspect, "do": "keep", "look_on": "2026-12-10"}, day=12)
    [told] = lots_due(home.id)
    assert (told.days, told.due, told.late(dt.date(2026, 12, 12))) == (14, dt.date(2026, 12, 10), 2)


def test_a_finished_a_struck_and_another_familys_lot_are_not_due(home: Home) -> None:
    cellar = home.space()
    home.strike(home.lot(cellar))
    home.write("count", {"lot": home.lot(cellar), "grams": 0})
    other = HomeFactory()
    other.lot(other.space())
    assert lots_due(home.id) == []


def test_minutes_of_walks_and_chores_are_added_up_for_all_who_were_there(home: Home) -> None:
    cellar, ana = home.space(), home.person("Ana", "rounds")
    times = {"began_at": "2026-11-26T10:00:00.000+01:00", "ended_at": "2026-11-26T10:20:00.000+01:00"}
    home.write("round", {"space": cellar} | times, day=1, **{"with": [ana]})
    set_back = {"began_at": "2026-11-26T10:00:00.000+01:00", "ended_at": "2026-11-26T09:00:00.000+01:00"}
    home.write("round", {"space": cellar} | set_back, day=1)
    home.write("chore_done", {"chore": f"roster/{cellar}/2026-11-26", "minutes": 5}, day=1, person=ana)
    walked = DAY + dt.timedelta(days=1)
    assert minutes_by_day(home.id, DAY) == {
        uuid.UUID(home.keeper): {walked: 20},
        uuid.UUID(ana): {walked: 25},
    }
    assert minutes_by_day(home.id, DAY + dt.timedelta(days=2)) == {}


def test_open_suspects_come_oldest_first_and_leave_when_decided(home: Home) -> None:
    lot = home.lot(home.space(), "cabbage", pieces=17)
    later = home.write("suspect", {"lot": lot, "findings": ["wet"], "lies": "held"}, day=3)
    sooner = home.write("suspect", {"lot": lot, "findings": ["unsure"], "lies": "set_apart"}, day=2)
    assert [str(one["uuid"]) for one in open_suspects(home.id)] == [sooner, later]
    home.write("decision", {"suspect": sooner, "do": "bin"}, day=4)
    [told] = open_suspects(home.id)
    assert (told["lot__crop"], told["findings"], told["pieces"]) == ("cabbage", ["wet"], 1)


def test_the_roster_is_a_sheet_a_space_and_running_twice_writes_nothing_new(home: Home) -> None:
    cellar, loft = home.space("Cellar"), home.space("Loft")
    lot = home.lot(cellar, "onion", grams=9_000)
    make_roster(home.id, now=MORNING)
    sheets = {sheet["key"]: sheet for sheet in sheets_of(home.id, "roster")}
    assert set(sheets) == {f"roster/{cellar}", f"roster/{loft}"}
    content = sheets[f"roster/{cellar}"]["content"]
    walk, _ = content["walks"]
    assert (walk["day"], walk["who"], walk["lots"]) == ("2026-12-02", home.keeper, [lot])
    assert sheets[f"roster/{loft}"]["content"]["walks"] == []

    head = Household.objects.get(pk=home.id).next_seq
    make_roster(home.id, now=MORNING + dt.timedelta(hours=3))
    assert Household.objects.get(pk=home.id).next_seq == head


def test_the_roster_says_up_to_which_line_it_knew(home: Home) -> None:
    home.lot(home.space())
    head = Household.objects.get(pk=home.id).next_seq - 1
    make_roster(home.id, now=MORNING)
    assert [sheet["as_of"] for sheet in sheets_of(home.id, "roster")] == [head]


def test_a_walk_done_gives_the_next_to_somebody_else(home: Home) -> None:
    tom = home.person("Tom", "adult")
    home.person("Small", "child")
    cellar = home.space()
    home.lot(cellar, "onion")
    times = {"began_at": "2026-11-26T10:00:00.000+01:00", "ended_at": "2026-11-26T10:20:00.000+01:00"}
    home.write("round", {"space": cellar} | times, day=1)
    make_roster(home.id, now=MORNING + dt.timedelta(days=2))
    [sheet] = sheets_of(home.id, "roster")
    assert sheet["content"]["walks"][0]["who"] == tom
