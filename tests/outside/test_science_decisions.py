"""Decisions and by-products against scipy, published examples and sums by hand. Each check names its
source.
"""

from __future__ import annotations

import itertools
import json
from dataclasses import replace

import numpy as np
import pytest
from scipy import optimize, stats

from homestead.reference import tables
from homestead.science import drawdown, heap, looking, planting, scraps, sharing, turning
from homestead.science.drawdown import Store
from homestead.science.heap import Stuff
from homestead.science.planting import Need
from homestead.science.ranges import Impossible
from homestead.science.scraps import Scraps
from homestead.science.sharing import Chores
from homestead.science.turning import Waiting

TWO_LOTS = Store(
    np.array([20.0, 20.0]), np.array([[1, 0.9, 0.7], [1, 0.98, 0.95]]), np.full(3, 12.0), np.full(2, 0.9)
)
WEEK = Chores(
    capacity=np.array([2.0, 2.0, 1.0]),
    debt_minutes=np.array([0.0, 10.0, 0.0]),
    minutes=np.array([30.0, 20, 15, 15, 10, 10]),
    may=np.array([[1.0] * 6, [1.0] * 6, [0.0, 0, 1, 1, 1, 1]]),
    dislike=np.zeros((3, 6)),
    did_last=np.zeros((3, 6)),
)
CABBAGE = Stuff(10.0, 92.2, 51.0, 2.62)
HEN_MANURE, STRAW = Stuff(1.0, 69.0, 48.0, 8.0), Stuff(1.0, 12.0, 56.0, 0.7)
TRIM = Scraps(1200.0, 7.8, 16.4)


def example(name: str) -> tuple[dict[str, list[float]], dict[str, float]]:
    row = next(row for row in tables().compost_examples if row.id == name)
    return json.loads(row.inputs), json.loads(row.expected)


def test_the_share_lost_by_waiting_orders_the_kitchen() -> None:
    """Source: by hand: 100 to 90 with a tenth of drying is 1 - 0.9 x 0.9; a share goes before kilograms."""
    assert turning.share_lost_by_waiting(100.0, 90.0, 0.1) == pytest.approx(0.19)
    assert turning.share_lost_by_waiting(0.0, 0.0) == 0.0
    lots = [
        Waiting("big", 1000, 950, 10, 0.1),
        Waiting("small", 40, 30, 3, 0.1),
        Waiting("well", 50, 49.9, 0, 0.1),
    ]
    order = turning.on_the_turn(lots)
    assert [one.lot for one in order] == ["small", "big"]
    assert (order[0].share, order[0].kg, order[0].showing_now_kg) == pytest.approx((0.25, 1.0, 0.3))


def test_two_lots_are_drawn_down_as_worked_by_hand() -> None:
    """Source: by hand: all 36 kg met; 12 of the first, then 7.2 and 4.8, then 12 of the second."""
    for plan in (drawdown.draw_down(TWO_LOTS), drawdown.greedy_draw_down(TWO_LOTS)):
        assert plan.eaten_kg == pytest.approx(np.array([[12, 7.2, 0], [0, 4.8, 12]]), abs=1e-6)
        assert plan.surplus_kg[1] == pytest.approx(20 - 4.8 / 0.98 - 12 / 0.95, abs=1e-6)


def test_a_plan_is_worth_what_another_solver_finds() -> None:
    """Source: scipy.optimize.linprog by interior points, the programme written out anew."""
    kg, rho, need = [30.0, 10.0], [[1, 0.6], [1, 0.9]], [14.0, 14.0]
    plan = drawdown.draw_down(Store(np.array(kg), np.array(rho), np.array(need), np.array([0.5, 0.5]), 8.0))
    worth = [1 - 0.01 * rho[i][1] / rho[i][t] for i in (0, 1) for t in (0, 1)]
    worth += [0.4 - 0.01 * rho[i][1] / rho[i][t] for i in (0, 1) for t in (0, 1)]
    use = [[1 / rho[i][t] if i == lot else 0 for i in (0, 1) for t in (0, 1)] * 2 for lot in (0, 1)]
    eat = [[float(t == m) for _ in (0, 1) for t in (0, 1)] + [0] * 4 for m in (0, 1)]
    cook = [[0] * 4 + [float(t == m) for _ in (0, 1) for t in (0, 1)] for m in (0, 1)]
    other = optimize.linprog(
        [-w for w in worth], A_ub=use + eat + cook, b_ub=[*kg, *need, 8, 8], method="highs-ipm"
    )
    ours = np.concatenate([plan.eaten_kg.ravel(), plan.put_by_kg.ravel()]) @ worth
    assert ours == pytest.approx(-other.fun, rel=1e-6)


def test_an_even_pace_feeds_less_than_the_plan() -> None:
    """Source: by hand: month 1 takes 12 of 40, leaving 14 of each (then 12.6 and 13.72 sound); month 2 takes
    12 of 26.32, leaving 7.617 of each; month 3 finds 7.617 x (.7 + .95) = 12.568 and takes 12: 36 kg. With a
    need of 13 a month: 13.5 left of each, then 6.585, of which 10.87 are sound: 36.87; the plan feeds more.
    """
    assert drawdown.even_pace_kg(TWO_LOTS) == pytest.approx(36.0)
    more = replace(TWO_LOTS, need_kg=np.full(3, 13.0))
    third = (13.5 - 13.5 * 13 / (13.5 * 1.88)) * 1.65
    assert third == pytest.approx(10.866, abs=0.001)
    assert drawdown.even_pace_kg(more) == pytest.approx(26.0 + third)
    assert drawdown.draw_down(more).eaten_kg.sum() > 26.0 + third


def test_surplus_of_the_middle_store_waits_for_three_percent() -> None:
    """Source: by hand from the rule; the 3 % is ours."""
    assert drawdown.put_by_now(2.0, 5.0, 0.0305) == 5.0
    assert drawdown.put_by_now(2.0, 5.0, 0.0299) == 2.0


def test_looks_are_as_far_apart_as_they_cost_least() -> None:
    """Source: by hand √(20/(0.3 x 0.024)) = 52.7 d; exact for one piece after Barlow, Hunter and
    Proschan (memory).
    """
    assert looking.look_every_days(10.0, 0.3, 0.024) == pytest.approx(52.7, abs=0.05)
    assert looking.look_every_days_one_piece(0.01, 5.0) == pytest.approx(30.0, abs=0.05)
    assert looking.look_every_days_one_piece(0.05, 5.0) == pytest.approx(12.65, abs=0.005)
    assert looking.look_every_days(5.0, 0.01, 1.0) == pytest.approx(31.6, abs=0.05)
    least = optimize.minimize_scalar(
        lambda t: 10 / t + 0.3 * 0.024 * t / 2, bounds=(1, 400), method="bounded"
    )
    assert looking.look_every_days(10.0, 0.3, 0.024) == pytest.approx(least.x, rel=1e-3)


def test_a_steady_forecast_gives_the_same_interval() -> None:
    """Source: `√(2c/(λκ))` by hand: 52.7, so the 53rd day; a cost of exactly a look after 4 days: 1 x
    0.5 x 16 / 2 = 4.
    """
    assert looking.look_in_days([0.3] * 100, 10.0, 0.024) == 53
    assert looking.look_in_days([0.5] * 9, 4.0, 1.0) == 4
    assert looking.look_in_days([0.0] * 9, 4.0, 1.0) is None


def test_an_onion_lot_is_looked_over_weekly_and_less_when_well() -> None:
    """Source: common practice, no source: weekly, ten days when all is well; not oftener than every four
    days.
    """
    assert looking.kept_in_table(52.7, 7.0, False) == 7.0
    assert looking.kept_in_table(52.7, 7.0, True) == 10.5
    assert looking.kept_in_table(1.0, 7.0, False) == 4.0
    assert looking.joined([3, 9, 6, 10, 20]) == [3, 9, 3, 9, 20]


def test_chores_are_shared_as_worked_by_hand() -> None:
    """Source: by hand: fair 44, 34, 22; best loads 45, 35, 20. And no assignment of all 3^6 is fairer."""
    assert sharing.fair_minutes(WEEK) == pytest.approx([44, 34, 22])
    chosen = sharing.share_out(WEEK)
    loads = [sum(m for m, p in zip(WEEK.minutes, chosen, strict=True) if p == person) for person in range(3)]
    assert loads == [45, 35, 20]
    allowed = (a for a in itertools.product(range(3), repeat=6) if 2 not in a[:2])
    best = min(sum(abs(np.bincount(a, WEEK.minutes, 3) - [44, 34, 22])) for a in allowed)
    assert sharing.unfairness_minutes(WEEK, chosen) == pytest.approx(best) == 4


def test_a_chore_nobody_may_do_is_shown() -> None:
    """Source: the rule, by hand."""
    alone = Chores(np.array([0.0, 1.0]), np.zeros(2), np.array([10.0, 5]), np.array([[1.0, 1], [0, 1]]),
                   np.zeros((2, 2)), np.zeros((2, 2)))  # fmt: skip
    assert sharing.share_out(alone) == [None, 1]


def test_so_many_plants_meet_the_need() -> None:
    """Source: by hand from the log-normal law: 119 at 50 %, 158 at 80, 182 at 90; and by drawing a
    million winters.
    """
    need = Need(80.0, 0.2, 30.0, 10.0, 0.9, 0.25)
    assert [planting.plants_needed(need, s) for s in (0.5, 0.8, 0.9)] == [119, 158, 182]
    rng = np.random.default_rng(5)
    asked = 80 * np.exp(0.2 * rng.standard_normal(10**6))
    brought = 0.9 * np.exp(0.25 * rng.standard_normal(10**6)) * rng.beta(30, 10, 10**6)
    assert np.quantile(asked / brought, 0.8) == pytest.approx(158, rel=0.006)


def test_what_is_carried_in_is_what_the_plants_bring() -> None:
    """Source: by drawing a million winters: the need over the share that gets eaten; and by hand: plants
    times what each brings, where each brings the same.
    """
    need = Need(80.0, 0.2, 30.0, 10.0, 0.9, 0.0)
    rng = np.random.default_rng(6)
    asked = 80 * np.exp(0.2 * rng.standard_normal(10**6)) / rng.beta(30, 10, 10**6)
    for share in (0.5, 0.8):
        assert planting.put_away_kg(need, share) == pytest.approx(np.quantile(asked, share), rel=0.006)
    assert planting.put_away_kg(need, 0.8) / 0.9 == pytest.approx(planting.plants_needed(need, 0.8), abs=0.5)


def test_winters_and_what_was_told_speak_by_how_sure_they_are() -> None:
    """Source: by hand: 40 kg in 20 of 40 weeks is the pace of 80 kg; ln 80 told with 0.2, ln 80 seen with
    0.25·√2: 80 kg, and 1/√(1/0.04 + 1/0.125) with 0.15 between winters is 0.22979. Statistics: the mean of
    two normal laws weighted by 1/variance, as numpy's average gives it.
    """
    winter = planting.Winter(40.0, 20.0)
    kg, spread = planting.winter_need([winter], 40.0, 2.0)
    assert (kg, spread) == (pytest.approx(80.0), pytest.approx(0.22979, abs=1e-5))
    more = planting.Winter(60.0, 40.0)
    kg, _ = planting.winter_need([winter, more], 40.0)
    middle = np.average(np.log([80.0, 60.0]), weights=[1 / 0.125, 1 / 0.0625])
    assert kg == pytest.approx(np.exp(middle))
    with pytest.raises(Impossible):
        planting.winter_need([planting.Winter(5.0, 3.0)], 40.0)


def test_an_old_store_must_hold_more_for_the_same_plate() -> None:
    """Source: by hand: 2 kg with nine tenths eaten is 1.8 kg on the plate; with six tenths it takes 3 kg."""
    assert planting.peeled_for(2.0, [0.9, 0.9, 0.6]) == pytest.approx(2 + 2 + 3)


def test_the_law_of_kept_shares_has_their_mean_and_spread() -> None:
    """Source: moments of scipy.stats.beta."""
    a, b = planting.kept_law([0.6, 0.8, 0.9], 0.7)
    shares = [0.6, 0.8, 0.9, 0.7]
    assert stats.beta.mean(a, b) == pytest.approx(np.mean(shares))
    assert stats.beta.std(a, b) == pytest.approx(np.std(shares, ddof=1))
    assert a == pytest.approx(0.75 * (0.75 * 0.25 / np.var(shares, ddof=1) - 1))


def test_one_variety_keeps_better_with_a_stated_chance() -> None:
    """Source: Φ by scipy.stats.norm; by hand: worse by half with .5 ± .858 is .72. Words are ours."""
    assert planting.chance_a_keeps_better(0.5, 0.858) == pytest.approx(stats.norm.cdf(0.5 / 0.858))
    assert planting.chance_a_keeps_better(0.5, 0.858) == pytest.approx(0.72, abs=0.003)
    assert [planting.verdict(p) for p in (0.799, 0.801, 0.06, 0.9495, 0.9505)] == [
        "not enough to tell", "probably", "probably", "probably", "clearly",
    ]  # fmt: skip


def test_cabbage_trim_for_six_hens() -> None:
    """Source: by hand with USDA's cabbage (7.8 % dry, 16.4 % protein): 93.6 g dry, 15.2 %, 18.2 g
    protein a hen.
    """
    assert scraps.dry_matter_g(TRIM) == pytest.approx(93.6)
    assert scraps.protein_g(TRIM) == pytest.approx(15.35, abs=0.005)
    assert scraps.share_of_diet(TRIM, 6, 115.0) == pytest.approx(0.1524, abs=5e-5)
    assert scraps.protein_g_hen(TRIM, 6, 115.0, 16.0) == pytest.approx(18.15, abs=0.02)
    assert [scraps.too_many_scraps(s) for s in (0.0995, 0.1005)] == [False, True]


def test_seven_hens_lay_thirty_five_eggs_in_a_week() -> None:
    """Source: definition of hen-day production: 35/49 = .714."""
    assert scraps.hen_day_lay(35, 49) == pytest.approx(0.7143, abs=5e-5)


def test_the_cornell_examples_of_moisture() -> None:
    """Source: Cornell, Calculating moisture content (seen, copy): 6.8 kg of leaves to 10 kg of grass;
    back to 60 %.
    """
    grass, leaves = Stuff(10.0, 77.0, 45.0, 2.4), Stuff(6.8, 35.0, 50.0, 0.75)
    given, expected = example("moist_balance_grass_leaves")
    assert heap.second_for_moisture_kg(grass, leaves, float(given["goal_pct"])) == pytest.approx(  # type: ignore[arg-type]
        expected["Q2_kg"], abs=0.05
    )
    assert heap.mixture_moisture_pct([grass, leaves]) == pytest.approx(60.0, abs=0.05)
    assert heap.carbon_to_nitrogen([grass, leaves]) == pytest.approx(36.7, abs=0.05)


def test_ratios_do_not_average() -> None:
    """Source: computed: 20 and 60 at equal dry mass are 30, not 40."""
    assert heap.carbon_to_nitrogen([Stuff(5, 0, 45, 2.25), Stuff(5, 0, 45, 0.75)]) == pytest.approx(30.0)
    given, expected = example("three_material_cabbage_henmanure_straw")
    mixed = [
        Stuff(*row) for row in zip(given["Q_kg"], given["M_pct"], given["C_pct"], given["N_pct"], strict=True)
    ]
    assert heap.carbon_to_nitrogen(mixed) == pytest.approx(expected["C_to_N"], abs=0.05)
    assert heap.mixture_moisture_pct(mixed) == pytest.approx(expected["moisture_pct"], abs=0.05)


def test_manure_and_straw_bring_cabbage_to_both_goals() -> None:
    """Source: by hand, 2.8 and 5.3 kg; the mixture checked by the two Cornell forms."""
    manure, straw = heap.two_to_add_kg(CABBAGE, HEN_MANURE, STRAW, 28.0, 65.0)
    assert (manure, straw) == pytest.approx((2.8, 5.3), abs=0.05)
    kg = [(10, 92.2, 51, 2.62), (manure, 69, 48, 8.0), (straw, 12, 56, 0.7)]
    dry = [q * (100 - m) for q, m, _, _ in kg]
    ratio = sum(d * c for d, (_, _, c, _) in zip(dry, kg, strict=True)) / sum(
        d * n for d, (_, _, _, n) in zip(dry, kg, strict=True)
    )
    assert ratio == pytest.approx(28.0)
    assert sum(q * m for q, m, _, _ in kg) / sum(q for q, _, _, _ in kg) == pytest.approx(65.0)
