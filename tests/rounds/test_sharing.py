"""Fair shares: against Webster's method, against an assignment by scipy, and who is never asked."""

from __future__ import annotations

import datetime as dt
import itertools
import random
import uuid
from collections import Counter
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from scipy.optimize import linear_sum_assignment

from homestead.rounds.planning import idle_days
from homestead.rounds.reads import days_off
from homestead.rounds.sharing import Shares, Walker, Work
from tests.factories import Home

DAY = dt.date(2026, 11, 25)
ADULTS = frozenset({"adult"})


def person(number: int) -> uuid.UUID:
    return uuid.UUID(int=number)


def walkers(*minutes: int, role: str = "adult") -> list[Walker]:
    return [Walker(person(number), role, each) for number, each in enumerate(minutes, start=1)]


def given(shares: Shares, pieces: int, minutes: float = 10) -> list[int]:
    """How many pieces of equal length each person got."""
    got = Counter(shares.give(Work(str(n), DAY, minutes, ADULTS)) for n in range(pieces))
    return [got[one.person] for one in shares.walkers]


def test_equal_pieces_fall_as_seats_do_by_websters_method() -> None:
    """53,000, 24,000 and 23,000 votes and seven seats: 3, 2, 2.

    The worked example of the method of Webster and Sainte-Laguë in encyclopedias (memory); its quotients are
    53, 24, 23, 17.7, 10.6, 8 and 7.7 thousand.
    """
    shares = Shares(walkers(53_000, 24_000, 23_000), DAY)
    assert given(shares, 7) == [3, 2, 2]


@pytest.mark.parametrize("seed", range(8))
def test_equal_pieces_are_shared_as_an_assignment_by_scipy_shares_them(seed: int) -> None:
    """The k-th piece of one who can give c costs (k - 1/2)/c; scipy finds the least sum, and it is ours."""
    dice = random.Random(seed)
    can = [dice.choice([20, 35, 60, 90, 140]) for _ in range(4)]
    pieces = dice.randint(5, 14)
    slots = [(who, (k + 0.5) / minutes) for who, minutes in enumerate(can) for k in range(pieces)]
    costs = np.tile([cost for _, cost in slots], (pieces, 1))
    rows, columns = linear_sum_assignment(costs)
    ours = given(Shares(walkers(*can), DAY), pieces)
    of_ours = sum((k + 0.5) / can[who] for who, count in enumerate(ours) for k in range(count))
    assert of_ours == pytest.approx(costs[rows, columns].sum())


@pytest.mark.parametrize("seed", range(4))
def test_where_not_everyone_may_do_everything_nobody_envies_more_than_one_piece(seed: int) -> None:
    """Envy-free up to one piece, for pieces both may do: Budish 2011's EF1, for chores (memory)."""
    dice = random.Random(seed)
    shares = Shares(walkers(60, 60, 60), DAY)
    work = [Work(str(n), DAY, dice.randint(5, 30), ADULTS) for n in range(30)]
    has: dict[uuid.UUID | None, list[float]] = {one.person: [] for one in shares.walkers}
    for one in work:
        has[shares.give(one)].append(one.minutes)
    for mine, theirs in itertools.permutations(has.values(), 2):
        assert sum(mine) - max(mine) <= sum(theirs)


def test_days_away_are_no_days_they_could_give() -> None:
    away = (DAY - dt.timedelta(days=20), DAY - dt.timedelta(days=7))
    assert Walker(person(1), "adult", 70).can_give(DAY) == 280
    assert Walker(person(1), "adult", 70, away).can_give(DAY) == 140


def test_nobody_is_asked_on_a_day_away_or_a_weekday_that_is_not_theirs() -> None:
    away = Walker(person(1), "adult", away=(DAY, DAY))
    sundays = Walker(person(2), "adult", weekdays=frozenset({7}))
    shares = Shares([away, sundays], DAY)
    assert shares.give(Work("a", DAY, 10, ADULTS)) is None
    assert shares.give(Work("b", dt.date(2026, 11, 29), 10, ADULTS)) == person(2)


@pytest.mark.parametrize(
    ("work", "may"),
    [
        ({"least_age": 8}, True),
        ({"least_age": 10}, False),
        ({"needs": frozenset({"ladder"})}, False),
        ({"needs": frozenset({"knife"})}, False),
        ({"roles": ADULTS}, False),
    ],
)
def test_a_child_is_never_given_what_its_age_or_the_needs_exclude(work: dict[str, object], may: bool) -> None:
    child = Walker(person(1), "child", born=2017)
    told = {"key": "a", "day": DAY, "minutes": 5, "roles": frozenset({"child", "adult"})} | work
    assert child.may(Work(**told)) is may  # type: ignore[arg-type]


def test_an_older_child_is_not_sent_where_nobody_goes_alone_and_none_what_they_cannot() -> None:
    roles = frozenset({"adult", "rounds"})
    alone = Work("a", DAY, 5, roles, needs=frozenset({"not_alone"}))
    ladder = Work("b", DAY, 5, roles, needs=frozenset({"ladder"}))
    assert not Walker(person(1), "rounds").may(alone)
    assert Walker(person(1), "rounds").may(ladder)
    assert not Walker(person(1), "adult", cannot=frozenset({"ladder"})).may(ladder)


def test_who_is_named_has_it_while_there() -> None:
    ana, tom = walkers(60, 60)
    named = Work("a", DAY, 10, ADULTS, doer=tom.person)
    assert Shares([ana, tom], DAY).give(named) == tom.person
    away = Walker(tom.person, "adult", away=(DAY, DAY))
    assert Shares([ana, away], DAY).give(named) == ana.person


def test_what_was_given_over_four_weeks_ago_is_owed_to_nobody() -> None:
    ana, tom = person(1), person(2)
    long_ago, lately = DAY - dt.timedelta(days=28), DAY - dt.timedelta(days=27)
    walked = [Walker(ana, "adult", gave={long_ago: 90}), Walker(tom, "adult", gave={lately: 10})]
    assert Shares(walked, DAY).give(Work("a", DAY, 10, ADULTS)) == ana


def test_what_falls_out_of_the_four_weeks_until_the_day_of_the_piece_counts_no_more() -> None:
    """Ana gave 30 minutes 20 days ago: today they count, in ten days they do not."""
    walked = [Walker(person(1), "adult", gave={DAY - dt.timedelta(days=20): 30}), Walker(person(2), "adult")]
    shares = Shares(walked, DAY)
    assert shares.give(Work("a", DAY, 10, ADULTS)) == person(2)
    assert shares.give(Work("b", DAY + dt.timedelta(days=10), 10, ADULTS)) == person(1)


def test_who_gave_one_piece_away_and_did_another_that_day_was_there(home: Home) -> None:
    key = f"roster/{home.space()}/2026-11-26"
    home.write("offer", {"chore": key}, day=1)
    since, zone, walked = DAY, ZoneInfo("Europe/Vienna"), DAY + dt.timedelta(days=1)
    ruth = uuid.UUID(home.keeper)
    assert days_off(home.id, ruth, since, zone) == {walked}
    assert days_off(home.id, ruth, since, zone, {walked: 12}) == frozenset()


def test_days_on_which_nobody_did_anything_count_for_nobody_once_somebody_began() -> None:
    began, again = DAY - dt.timedelta(days=9), DAY - dt.timedelta(days=2)
    idle = idle_days([{began: 10}, {again: 5, DAY - dt.timedelta(days=1): 0}], DAY)
    assert idle == {DAY - dt.timedelta(days=back) for back in (8, 7, 6, 5, 4, 3, 1)}
    assert idle_days([], DAY) == frozenset()
