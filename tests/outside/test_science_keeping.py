"""A lot's keeping against expectation, and which variety keeps, against other computations of the same."""

from __future__ import annotations

import datetime as dt
import math
import warnings

import lifelines
import numpy as np
import pytest
from scipy.stats import norm

from homestead.science import guesses, household, keeping, planting
from homestead.science.household import Labels, Saying
from homestead.science.lots import Handbook, Look

AUTUMN = dt.date(2023, 9, 15)
BOOK = Handbook(80.0, 120.0, 0.0, 2.5)


def one_guess(**changed: float) -> guesses.Traits:
    plain = {"haz": 1.0, "shape": 2.5, "weak": 0.1, "ln_q10": math.log(2.5)} | changed
    names = guesses.Traits.__dataclass_fields__
    return guesses.Traits(**{name: np.array([plain.get(name, 0.0)]) for name in names})


def test_the_share_expected_is_that_of_two_weibull_clocks() -> None:
    """Source: by hand: 70 days at 10 °C, Q10 2.5, are 175 at 0; a tenth runs by the clock of weak pieces."""
    found = keeping.expected_shares(one_guess(), BOOK, [10.0] * 73)[:, 0]
    aged = math.exp(-((70 * 2.5 / 100) ** 2.5) / 3)
    weak = math.exp(-((70 / 30) ** 1.4))
    assert len(found) == 11
    assert found[0] == pytest.approx(1.0)
    assert found[10] == pytest.approx(0.9 * aged + 0.1 * weak, rel=1e-6)


def test_below_its_chilling_threshold_the_clock_runs_no_slower() -> None:
    held = Handbook(80.0, 120.0, 0.0, 2.5, hold_below_c=5.0)
    cold = keeping.expected_shares(one_guess(), held, [-3.0] * 70)
    assert cold == pytest.approx(keeping.expected_shares(one_guess(), held, [5.0] * 70))


def test_what_was_eaten_counts_neither_way() -> None:
    """Source: by hand: 60 sound, 3 rotten, 7 out already: 60 of 70; nothing there is nothing lost."""
    share = keeping.share_kept(np.array([60.0, 0.0]), np.array([3.0, 0.0]), 7.0)
    assert share[0] == pytest.approx(60 / 70)
    assert keeping.share_kept(np.zeros(1), np.zeros(1), 0.0)[0] == 1.0


def test_shares_by_looks_are_the_product_limit() -> None:
    """Source: lifelines' KaplanMeierFitter: 4 of 100 out, 36 eaten, 6 of the 60 left out."""
    looks = [
        Look(AUTUMN + dt.timedelta(days=20), 60.0, 6.0),
        Look(AUTUMN + dt.timedelta(days=10), 100.0, 4.0),
    ]
    found = keeping.kept_by_looks([*looks, Look(AUTUMN, 100.0, 0.0, sought=False)], 100.0)
    durations, died, weights = [10, 15, 20, 30], [1, 0, 1, 0], [4, 36, 6, 54]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        fit = lifelines.KaplanMeierFitter().fit(durations, died, weights=weights)
    told = [float(fit.predict(10)), float(fit.predict(20))]
    assert [look.sound for look in found] == pytest.approx(told)
    assert [look.left for look in found] == pytest.approx(told)
    assert [(look.day - AUTUMN).days for look in found] == [10, 20]


def test_a_sample_tells_of_all_and_takes_out_only_its_own() -> None:
    """Source: by hand: 3 of 30 out is a tenth of all gone, but of 400 pieces only three are out."""
    sample = Look(AUTUMN + dt.timedelta(days=10), 30.0, 3.0, full=False)
    whole = Look(AUTUMN + dt.timedelta(days=20), 390.0, 39.0)
    first, second = keeping.kept_by_looks([sample, whole], 400.0)
    assert (first.sound, first.left) == pytest.approx((0.9, 397 / 400))
    assert (second.sound, second.left) == pytest.approx((0.9 * 397 / 400, 0.9 * 397 / 400))


def told(variety: str, season: int, off: float, space: str = "cellar", noise: float = 0.04) -> Saying:
    variance = np.full(12, np.inf)
    variance[guesses.HAZ] = noise
    word = np.zeros(12)
    word[guesses.HAZ] = off
    return Saying(Labels("onion", f"onion/{variety}", space, season), word, variance)


def regression(said: list[Saying]) -> tuple[dict[tuple[int, object], int], np.ndarray, np.ndarray]:
    """Bayesian regression with every effect written out as a column of its own: columns, mean, covariance."""
    columns: dict[tuple[int, object], int] = {}
    rows = []
    for one in said:
        named = (0, 1, one.labels.variety, one.labels.space, one.labels.season)
        rows.append([columns.setdefault((level, name), len(columns)) for level, name in enumerate(named)])
    for effect in ((0, 0), (1, 1), (2, "onion/a"), (2, "onion/b")):
        columns.setdefault(effect, len(columns))
    design = np.zeros((len(said), len(columns)))
    for number, places in enumerate(rows):
        design[number, places] = 1.0
    prior = np.diag([guesses.SPREADS[guesses.HAZ, level] ** 2 for level, _ in columns])
    noise = np.array([s.variance[guesses.HAZ] + guesses.SPREADS[guesses.HAZ, 5] ** 2 for s in said])
    precision = np.linalg.inv(prior) + design.T @ (design / noise[:, None])
    spread = np.linalg.inv(precision)
    middle = spread @ (design.T @ (np.array([s.off[guesses.HAZ] for s in said]) / noise))
    return columns, middle, spread


def by_effects(said: list[Saying], weights: dict[tuple[int, object], float]) -> tuple[float, float]:
    """Mean and standard deviation of a sum of effects."""
    columns, middle, spread = regression(said)
    summed = np.zeros(len(columns))
    for effect, weight in weights.items():
        summed[columns[effect]] = weight
    return float(summed @ middle), float(np.sqrt(summed @ spread @ summed))


def test_varieties_are_compared_as_a_regression_with_all_effects_would() -> None:
    """Source: the same normal model as an explicit Bayesian regression in numpy (Rasmussen and Williams 2006,
    section 2.1.1, memory)."""
    said = [told("a", 1, 0.1), told("b", 1, 0.7), told("b", 2, 0.4, "loft", 0.2), told("c", 2, -0.3, "loft")]
    assert household.variety_contrast("onion", "A", "b ", said) == pytest.approx(
        by_effects(said, {(2, "onion/b"): 1.0, (2, "onion/a"): -1.0})
    )


def test_a_variety_is_believed_to_be_what_its_own_effects_sum_up_to() -> None:
    """Source: the same regression: the effects of house, crop and variety; by hand with nothing told: no
    offset and .45² + .35² + .35², and with one lot 1.0 off, noise .1: .4475/.8225 = .5441.
    """
    said = [told("a", 1, 0.1), told("b", 1, 0.7), told("b", 2, 0.4, "loft", 0.2), told("c", 2, -0.3, "loft")]
    for variety in ("a", "b"):
        belief = household.variety_belief("onion", variety, 2.5, said)
        mean, spread = by_effects(said, {(0, 0): 1.0, (1, 1): 1.0, (2, f"onion/{variety}"): 1.0})
        assert belief.mean[guesses.HAZ] == pytest.approx(mean)
        assert belief.variance[guesses.HAZ] == pytest.approx(spread**2)
    nothing = household.variety_belief("onion", "a", 2.5, [])
    assert nothing.mean[guesses.HAZ] == 0.0
    assert nothing.variance[guesses.HAZ] == pytest.approx(0.4475)
    once = household.variety_belief("onion", "a", 2.5, [told("a", 1, 1.0, noise=0.1)])
    assert once.mean[guesses.HAZ] == pytest.approx(0.5441, abs=5e-5)


def test_one_shared_season_is_not_enough_to_tell() -> None:
    """Source: derived by hand: worse by .5 in one shared season and space, then in three."""
    once = household.variety_contrast("onion", "a", "b", [told("a", 1, 0.0), told("b", 1, 0.5)])
    assert planting.chance_a_keeps_better(*once) == pytest.approx(0.72, abs=0.006)
    assert norm.cdf(once[0] / once[1]) == pytest.approx(planting.chance_a_keeps_better(*once))
    thrice = [told(v, year, off) for year in (1, 2, 3) for v, off in (("a", 0.0), ("b", 0.5))]
    chance = planting.chance_a_keeps_better(*household.variety_contrast("onion", "a", "b", thrice))
    assert chance == pytest.approx(0.90, abs=0.006)
    assert household.variety_contrast("onion", "a", "b", []) == pytest.approx((0.0, math.sqrt(2) * 0.35))
