"""Rooms, ageing and survival against others' figures. Each check names its source."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import replace
from pathlib import Path

import lifelines
import lifelines.datasets
import numpy as np
import pytest
from scipy import optimize, stats

from homestead.science import (
    ageing,
    chance,
    cloud,
    evidence,
    guesses,
    household,
    outlook,
    past,
    pieces,
    plain,
    reach,
    rooms,
    survival,
    walk,
)
from homestead.science.lots import Handbook, Look, Lot, Take, checked
from homestead.science.rooms import Reading
from homestead.season.cases import read_line

WORKED = json.loads((Path(__file__).parents[1] / "science" / "data" / "one_guess.json").read_text())
ONION = Handbook(180.0, 270.0, 0.0, 2.5)
AUTUMN = dt.date(2023, 9, 15)
TABLES = chance.chances(1)
CALM = replace(
    TABLES, count=np.zeros(300), haz=np.zeros(300), bend=np.zeros(300), clumps=np.ones((2, 300)),
    appetite=np.ones((chance.WEEKS, 300)), aged=np.zeros((chance.WEEKS, 300)),
    weak=np.zeros((chance.WEEKS, 300)),
)  # fmt: skip


def onions(**facts: object) -> Lot:
    return replace(Lot("onion", "A", "loft", 0, AUTUMN, 200.0, ONION), **facts)  # type: ignore[arg-type]


def never_lost() -> survival.Belief:
    mean = guesses.MEAN.copy()
    mean[guesses.HAZ], mean[guesses.WEAK], mean[guesses.SPREAD] = -5.0, -30.0, -9.0
    return survival.Belief(mean, np.full(12, 1e-10))


def test_a_week_in_warmth_ages_by_the_q10_rule() -> None:
    """Source: Q10 rule, by hand: 8 °C against 0 °C with 2.5 is 2.081; 100 days are 208.1.

    With Q10 of 3.0 below and 2.5 above 10 °C Saltveit's table has 3.0 and 7.5 (seen: a chapter quoting it).
    """
    assert ageing.ageing_rate(8.0, 0.0, 2.5) == pytest.approx(2.081, abs=5e-4)
    assert ageing.effective_age_days([8.0] * 100, 0.0, 2.5) == pytest.approx(208.1, abs=0.05)
    assert ageing.effective_age_days([0.0, 10.0], 0.0, 2.5) / 2 == pytest.approx(1.75)
    assert ageing.ageing_rate(10.0, 0.0, 3.0) * ageing.ageing_rate(20.0, 10.0, 2.5) == pytest.approx(7.5)


def test_chilling_adds_up_below_the_threshold() -> None:
    """Source: by hand: 3 days at 8 and 2 at 15 °C against 10 °C are 6 degree-days."""
    assert ageing.chill_degree_days([8, 8, 8, 15, 15], 10.0) == pytest.approx(6.0)


def test_a_room_from_three_readings() -> None:
    """Source: worked by the project's designers, independent of this code."""
    readings = [Reading(dt.date(2023, 10, d), c) for d, c in ((1, 9.0), (15, 8.0), (29, 6.0))]
    wave = rooms.room_wave(readings)
    assert (wave.mean_c, wave.cos_c, wave.sin_c) == pytest.approx((6.621, -4.461, 0.114), abs=6e-4)
    temps = rooms.daily_temps_c(dt.date(2023, 9, 24), 43, wave, readings)
    assert (temps[0], temps[42]) == pytest.approx((9.32, 6.10), abs=5e-3)
    assert rooms.room_wave([]).at(dt.date(2024, 1, 30)) == pytest.approx(4.0)


def test_a_walk_ends_as_the_designers_worked_it() -> None:
    """Source: worked by the project's designers, independent of this code; 0.5 % or 0.002."""
    for check in WORKED["checks"]:
        line = {"case": "x", "household": "h", "year": 0, "as_of": check["as_of"], "temps": []}
        as_of = dt.date.fromisoformat(check["as_of"])
        lot = read_line(json.dumps(line | {"lot": WORKED["lots"][check["lot"]]})).lot.before(as_of)
        plain_guess = guesses.traits(np.array([[WORKED["guess"][name] for name in guesses.NAMES]]))
        path = walk.stretches(lot, [4.0] * 400, as_of)
        end = walk.walk(lot, path, plain_guess)
        got = (end.pieces.fresh[0], end.pieces.late[0], end.pieces.rotten[0], end.pieces.variance[0])
        expected = tuple(check[name] for name in ("F", "G2", "R", "count_variance"))
        assert got == pytest.approx(expected, rel=5e-4, abs=2e-3)
        assert end.age_days[0] == pytest.approx(check["effective_age"], rel=2e-4)
        if check["log_likelihood"]:
            said = end.said + walk.said_of_use(lot, plain_guess, end.day)
            assert said[0] == pytest.approx(check["log_likelihood"], abs=2e-3)


def test_counts_follow_the_negative_binomial_law() -> None:
    """Source: by hand -9.8354 = 6 ln(4/12) - 8 ln 1.5; differences in the mean by scipy.stats.nbinom."""
    assert evidence.ln_negative_binomial(6, np.array([4.0]), 8.0)[0] == pytest.approx(-9.8354, abs=5e-5)
    ours = evidence.ln_negative_binomial(3, np.array([2.0, 5.0]), 8.0)
    theirs = stats.nbinom.logpmf(3, 8.0, 8.0 / (8.0 + np.array([2.0, 5.0])))
    assert ours[0] - ours[1] == pytest.approx(theirs[0] - theirs[1], rel=1e-9)


def test_a_miscount_is_forgiven_like_a_student_law() -> None:
    """Source: scipy.stats.t with 4 degrees of freedom."""
    ours = evidence.ln_student(np.array([3.0]), 2.0)[0]
    assert ours == pytest.approx(stats.t.logpdf(3 / 2**0.5, 4) - stats.t.logpdf(0, 4), rel=1e-9)


def test_a_full_count_and_the_takes_speak_as_worked_by_hand() -> None:
    """Source: by hand from the laws above: nb(1, .3, 4) + nb(2, .8, 4); a use of 12 where 14 were planned."""
    row = np.zeros((1, 12))
    plain_guess = guesses.traits(row)  # every share is a half, every factor 1
    eaten = pieces.Eaten(np.array([1.6 / 0.8]), np.array([0.6 / 0.8]))
    said = evidence.takes_say(eaten, plain_guess, np.array([0.8]), 1.0, 2.0)[0]
    assert said == pytest.approx(
        np.log(0.3 / 4.3) - 4 * np.log(1.075) + 2 * np.log(0.8 / 4.8) - 4 * np.log(1.2)
    )
    use = evidence.use_says(plain_guess, 12.0, 4, 14.0, 2.0, 3.0)[0]
    off = np.log(12.9 / 14.9) ** 2 / (0.0025 + 0.15 + 0.0625)
    assert use == pytest.approx(-2.5 * np.log1p(off / 4))
    lying = pieces.Pieces(*(np.array([x]) for x in (90.0, 0.0, 0.0, 0.0, 8.0, 3.0, 100.0)))
    looked = evidence.look_says(lying, Look(AUTUMN, 100.0, 5.0), plain_guess)[0]
    count = -2.5 * np.log1p(4 / 16) - 0.5 * np.log(4)
    assert looked == pytest.approx(count + 5 * np.log(4 / 12) - 8 * np.log(1.5))


def test_it_agrees_with_lifelines_where_there_is_no_prior() -> None:
    """Source: lifelines 0.30 WeibullFitter on its own data set `waltons`: log-likelihood, and its best
    fit is ours.
    """
    flies = lifelines.datasets.load_waltons()
    fit = lifelines.WeibullFitter().fit(flies["T"], flies["E"])
    age, dead = flies["T"].to_numpy(float), flies["E"].to_numpy(float)

    def said(x: np.ndarray) -> float:
        haz, shape = np.full(len(age), np.exp(x[0])), np.full(len(age), np.exp(x[1]))
        alive = np.log(pieces.sound_share(age, 50.0, haz, shape))
        rate = shape * pieces.cumulative_hazard(age, 50.0, haz, shape) / age
        return float((alive + dead * np.log(rate)).sum())

    best = optimize.minimize(lambda x: -said(x), [0.0, 0.5], method="Nelder-Mead", options={"xatol": 1e-6})
    assert said(best.x) == pytest.approx(fit.log_likelihood_, rel=1e-6)
    assert np.exp(best.x[1]) == pytest.approx(fit.rho_, rel=1e-3)
    assert 50.0 * (np.exp(best.x[0]) / 3) ** (-np.exp(-best.x[1])) == pytest.approx(fit.lambda_, rel=1e-3)


def test_a_wide_prior_leaves_the_lifelines_fit() -> None:
    """Source: lifelines 0.30 WeibullFitter on `waltons`: the cloud's mean within 1 % of its fit, on the
    log scale.
    """
    flies = lifelines.datasets.load_waltons()
    fit = lifelines.WeibullFitter().fit(flies["T"], flies["E"])
    age, dead = flies["T"].to_numpy(float), flies["E"].to_numpy(float)

    def weigh(points: np.ndarray) -> tuple[np.ndarray, None]:
        shape = np.exp(np.clip(points[:, 1:], -3.0, 3.0))
        x = (age / np.exp(points[:, :1])) ** shape
        return (dead * np.log(shape * x / age) - x).sum(axis=1), None

    normals = np.random.default_rng(2).standard_normal((6, 1000, 2))
    found = cloud.fit_cloud(weigh, np.array([3.5, 0.5]), np.array([4.0, 4.0]), normals)
    assert found.mean() == pytest.approx([np.log(fit.lambda_), np.log(fit.rho_)], rel=5e-3)


def test_a_normal_prior_and_a_normal_reading_meet_in_the_middle() -> None:
    """Source: conjugate normal law (textbook): 2±1 and 4±1 give 3±0.707."""
    normals = np.random.default_rng(3).standard_normal((3, 20_000, 1))
    found = cloud.fit_cloud(
        lambda x: (-0.5 * (x[:, 0] - 4) ** 2, None), np.array([2.0]), np.array([1.0]), normals
    )
    assert found.mean()[0] == pytest.approx(3.0, rel=4e-3)
    assert found.variance()[0] == pytest.approx(0.5, rel=0.03)


def test_weights_count_as_many_as_they_are_worth() -> None:
    """Source: Kish's formula by hand: (1+1+2)²/(1+1+4) = 2.667; tempering stops at the number asked for."""
    assert cloud.effective_number(np.array([1.0, 1.0, 2.0])) == pytest.approx(8 / 3)
    weights = cloud.even_weights(np.linspace(0, 90, 100), 40.0)
    assert weights.sum() == pytest.approx(1.0)
    assert 1 / (weights**2).sum() == pytest.approx(40.0, rel=0.005)
    assert outlook.even_index(np.array([0.25, 0.5, 0.25]), 8).tolist() == [0, 0, 1, 1, 1, 1, 2, 2]


def test_random_tables_have_the_moments_they_are_named_for() -> None:
    """Source: normal and gamma laws: mean 0 and deviation 1; gamma of 5 over 5 has mean 1 and variance
    1/5.
    """
    tables = chance.chances(20_230_915)
    assert tables.normals.std() == pytest.approx(1.0, abs=0.008)
    assert tables.appetite.mean() == pytest.approx(1.0, abs=0.009)


def test_without_records_a_lot_is_what_the_prior_says() -> None:
    """Source: Bayes: no evidence leaves the prior; its means and variances by hand from the table of
    spreads.
    """
    lot = onions(plan_per_week=0.0)
    belief = survival.first_belief(lot)
    assert belief.variance[guesses.HAZ] == pytest.approx(0.7225)
    assert guesses.prior(2.5)[1][guesses.HAZ] == pytest.approx(0.7225)
    fitted = survival.fit_lot(lot, [4.0] * 60, AUTUMN + dt.timedelta(days=56), belief, TABLES)
    assert fitted.cloud.mean()[guesses.SPREAD] == pytest.approx(np.log(0.008), rel=5e-3)


def test_seventy_pieces_at_seven_a_week_last_seventy_days() -> None:
    """Source: plain count: 70 / 7 a week without losses."""
    lot = onions(pieces=70.0, plan_per_week=7.0)
    fitted = survival.fit_lot(lot, [0.0], AUTUMN, never_lost(), CALM)
    ahead = outlook.look_ahead(fitted, [0.0], CALM)
    assert ahead.run_out().p50 == pytest.approx(70.0, abs=0.05)
    assert ahead.sound_in(28).p50 == pytest.approx(42.0)
    half = survival.fit_lot(replace(lot, pieces=35.0), [0.0], AUTUMN, never_lost(), CALM)
    both = reach.crop_ahead([(half, np.zeros(1)), (half, np.zeros(1))], 7.0, [1.0, 1.0], CALM)
    assert both.run_out_days == pytest.approx(70.0, abs=0.05)
    assert reach.chance_to_meet_harvest(both, 69.0, 0.0, CALM) == pytest.approx(300.5 / 301)
    assert reach.chance_to_meet_harvest(both, 71.0, 0.0, CALM) == pytest.approx(0.5 / 301)


def test_a_quarter_of_the_kept_is_what_a_sample_says() -> None:
    """Source: numpy quantiles and a plain count: 0 to 100 has P10 10, P50 50, P90 90, mean 50; 75 of 300
    is 75.5/301.
    """
    got = outlook.band(np.arange(101.0))
    assert (got.mean, got.p10, got.p50, got.p90) == pytest.approx((50.0, 10.0, 50.0, 90.0))
    assert outlook.chance_of(np.arange(300) < 75) == pytest.approx(75.5 / 301)


def test_a_weeks_steps_ahead_by_hand() -> None:
    """Source: by hand: 28 eaten from 100 over a need of 28 with 14 left is day 7 x 14/28; 5 °C over 0 is
    half a ten.
    """
    out = outlook.run_out(np.full(1, 400.0), np.array([14.0]), np.array([14.0]), np.array([28.0]), 2)
    assert out[0] == pytest.approx(14 + 3.5)
    lot = onions(pieces=1000.0)
    fitted = survival.fit_lot(lot, [0.0], AUTUMN, never_lost(), CALM)
    assert outlook.weekly_tens(fitted, [5.0])[3] == pytest.approx(0.5)
    sample = outlook.draw_sample(fitted, CALM)
    assert sample.pieces.present == pytest.approx(1000.0, abs=1.0)
    sample.pieces.late = sample.pieces.late * 0 + 60.0
    rotted = outlook.one_week(sample, np.zeros(300), 0, CALM)
    assert rotted == pytest.approx(60 * -np.expm1(-7 / 6), rel=1e-6)
    assert outlook.run_on(sample, np.zeros(3), CALM).sound[0] == pytest.approx(
        1000 + 60 * np.exp(-7 / 6), rel=2e-3
    )


def test_news_of_one_day_moves_the_kept_cloud() -> None:
    """Source: Q10 rule by hand: a day at 10 °C adds Q10 days of age to every guess; no news changes no
    weight.
    """
    lot = onions(plan_per_week=0.0)
    fitted = survival.fit_lot(
        lot, [0.0] * 60, AUTUMN + dt.timedelta(days=28), survival.first_belief(lot), TABLES
    )
    temps = [0.0] * 28 + [10.0] * 2
    later = survival.hear_more(fitted, lot, temps, AUTUMN + dt.timedelta(days=29))
    added = later.cloud.found.age_days - fitted.cloud.found.age_days
    assert added == pytest.approx(np.exp(fitted.traits().ln_q10), rel=1e-9)
    assert later.cloud.weights == pytest.approx(fitted.cloud.weights, rel=1e-9)


def test_what_one_onion_lot_says_of_the_next() -> None:
    """Source: worked by the project's designers, independent of this code."""
    own, value = household.own_word(np.array([0.5]), np.array([0.2]), np.array([0.0]), np.array([0.7225]))
    assert (own[0], value[0]) == pytest.approx((0.2766, 0.6914), abs=5e-5)
    off, noise = np.zeros(12), np.full(12, np.inf)
    off[guesses.HAZ], noise[guesses.HAZ] = 1.0, 0.1
    told = [household.Saying(household.Labels.of(onions()), off, noise)]
    mean, variance = household.beliefs([household.Labels.of(onions(variety="B", season=1))], told)
    assert (mean[0, 0], variance[0, 0]) == pytest.approx((0.5046, 0.5131), abs=5e-5)
    belief = household.belief_of(onions(crop="beet", variety="A", space="cellar", season=1), told)
    assert (belief.mean[0], belief.variance[0]) == pytest.approx((0.2462, 0.6726), abs=5e-5)
    left = household.beliefs_left_out(told, [2.5])[0]
    assert (left.mean[0], left.variance[0]) == pytest.approx((0.0, 0.7225), abs=1e-9)
    assert household.covariance([told[0].labels], [told[0].labels])[0, 0, 0] == pytest.approx(0.6)


def test_a_finished_lot_says_what_its_posterior_adds_to_its_prior() -> None:
    """Source: quotient of two normal densities, by hand from the cloud's mean and variance."""
    lot = onions(
        plan_per_week=7.0,
        looks=(Look(dt.date(2023, 12, 1), 130.0, 25.0),),
        takes=(Take(dt.date(2023, 10, 1), 20.0),),
    )
    one = past.Finished("one", lot, dt.date(2024, 1, 10))
    belief = survival.first_belief(lot)
    end = dt.date(2023, 12, 2)
    temps = past.lot_temps_c(lot, end, (), ())
    assert temps[0] == pytest.approx(8 - 4 * np.cos(2 * np.pi * 228 / 365.25))
    found = survival.fit_lot(lot, temps, end, belief, TABLES).cloud
    added = 1 / (1 / found.variance()[0] - 1 / 0.7225)
    for word in (past.learn([one], {}, TABLES)["one"], household.saying(lot, found, belief)):
        assert word.variance[0] == pytest.approx(added)
        assert word.off[0] == pytest.approx(added * found.mean()[0] / found.variance()[0])


def test_the_handbook_alone_counts_and_lets_a_weibull_law_run() -> None:
    """Source: by hand: 28.3 % gone at one life; 200 - 6 - 10 taken; lives from 180 to 270 days on a log
    scale.
    """
    curves = plain.handbook_curves(ONION)
    assert (curves.life_days[0], curves.life_days[10], curves.life_days[20]) == pytest.approx(
        (180, 220.45, 270), abs=0.01
    )
    assert curves.sound(180.0)[0] == pytest.approx(np.exp(-1 / 3))
    assert plain.ages_days(ONION, [10.0, 0.0]) == pytest.approx([0, 2.5, 3.5])
    lot = onions(takes=(Take(dt.date(2023, 10, 1), 10.0, tossed=6.0),))
    assert plain.ledger_pieces(lot) == pytest.approx((184.0, 0))
    ahead = plain.plain_ahead(onions(), AUTUMN, [0.0] * 413, curves)
    assert ahead.sound[28, 0] == pytest.approx(200 * np.exp(-((196 / 180) ** 2.5) / 3), rel=1e-6)


def test_about_a_tenth_of_stored_onions_is_lost_by_spring() -> None:
    """Source: common practice, no source: in a cool loft about a tenth, at most a third, of sound onions
    by spring.
    """
    fitted = survival.fit_lot(onions(), [2.0], AUTUMN, survival.first_belief(onions()), TABLES)
    ahead = outlook.look_ahead(fitted, [2.0], TABLES)
    assert 0.05 < 1 - ahead.sound_in(140).p50 / 200 < 0.35


def test_the_pieces_of_a_lot_move_as_worked_by_hand() -> None:
    """Source: by hand from the rules in the module's docstring."""
    plain_guess = guesses.traits(np.zeros((1, 12)))
    state = pieces.begin(100.0, 5.0, np.array([1.0]), 225.0, plain_guess)
    weak = 50 * np.exp(-((12 / 30) ** 1.4))
    assert (state.weak[0], state.variance[0], state.most[0]) == pytest.approx((weak, 25.0, 130.0))
    assert pieces.weak_hazard(60.0) == pytest.approx(2**1.4)
    state.rotten = np.array([4.0])
    turned = pieces.new_signs(state, plain_guess, np.array([0.1]), 0.2, 100.0, 7.0)
    assert turned.aged[0] == pytest.approx(state.fresh[0] * -np.expm1(-0.1))
    assert turned.weak[0] == pytest.approx(state.weak[0] * -np.expm1(-0.2))
    late = state.late[0]
    assert pieces.move_on(state, turned, 7.0)[0] == pytest.approx(late * -np.expm1(-7 / 6))
    lying = pieces.Pieces(*(np.array([x]) for x in (80.0, 0.0, 6.0, 4.0, 5.0, 0.0, 95.0)))
    eaten = pieces.eat(lying, np.array([20.0]), np.array([0.5]))
    first = 10 * -np.expm1(-1.0)
    assert eaten.chosen[0] == pytest.approx(min(0.8 * first, 3.8) + first - min(0.8 * first, 3.8))
    assert eaten.tossed[0] == pytest.approx(5 * -np.expm1(-(20 - first) / (90 - first)))


def test_what_is_thrown_out_is_rotten_first() -> None:
    """Source: by hand: 8 thrown out of 5 rotten and 90 sound leave 0 and 87. A bare count finds no rot."""
    lying = pieces.Pieces(*(np.array([x]) for x in (80.0, 0.0, 6.0, 4.0, 5.0, 0.0, 95.0)))
    assert pieces.throw_out(lying, 8.0)[0] == pytest.approx(5.0)
    assert (lying.rotten[0], lying.sound[0]) == pytest.approx((0.0, 87.0))
    lying.rotten = np.array([5.0])
    evidence.look_says(lying, Look(AUTUMN, 92.0, sought=False), guesses.traits(np.zeros((1, 12))))
    assert (lying.rotten[0], lying.present[0]) == pytest.approx((5.0, 92.0))


def test_records_are_cut_into_weeks_and_summed() -> None:
    """Source: plain count: 16 days are 7 + 7 + 2; 12 taken in 2 takes with a plan of 8 is a draw of 4."""
    lot = checked(onions(plan_per_week=8.0, takes=(Take(AUTUMN, 5.0), Take(AUTUMN + dt.timedelta(8), 7.0))))
    path = walk.stretches(lot, [5.0] * 30, AUTUMN + dt.timedelta(days=16))
    assert [(s.days, s.written, s.tens_c) for s in path] == [(7, 5.0, 0.5), (7, 7.0, 0.5), (2, 0.0, 0.5)]
    assert walk.habit(lot).draw == pytest.approx(4.0)
    plain_guess = guesses.traits(np.zeros((1, 12)))
    end = walk.carry_on(walk.walk(lot, path[:1], plain_guess), lot, path[1:], plain_guess)
    assert end.age_days[0] == pytest.approx(16 * np.exp(0.2 * 0.5))
    off = np.log(13.2 / (0.5 * 8 * 16 / 7 + 1.2)) ** 2 / (0.0025 + 0.3 * 7 / 16 + 0.125)
    assert walk.said_of_use(lot, plain_guess, 16)[0] == pytest.approx(-2.5 * np.log1p(off / 4))
    assert checked(lot).pieces == pytest.approx(200.0)
