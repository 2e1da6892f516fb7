"""What finished lots say of the next. Check values: worked by the project's designers, independent of
this code.
"""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from homestead.science.guesses import HAZ, SPREADS
from homestead.science.household import (
    Labels,
    Saying,
    belief_of,
    beliefs,
    beliefs_left_out,
    covariance,
    own_word,
)
from homestead.science.lots import Handbook, Lot

ONION = Labels("onion", "onion/a", "loft", 0)


def says(labels: Labels, value: float, variance: float) -> Saying:
    off, noise = np.zeros(12), np.full(12, np.inf)
    off[HAZ], noise[HAZ] = value, variance
    return Saying(labels, off, noise)


def test_it_takes_the_prior_out_of_what_a_lot_said() -> None:
    noise, value = own_word(np.array([0.5]), np.array([0.2]), np.array([0.0]), np.array([0.7225]))
    assert value[0] == pytest.approx(0.6914, abs=5e-5)
    assert noise[0] == pytest.approx(0.2766, abs=5e-5)


def test_it_drops_what_adds_less_than_a_twentieth() -> None:
    noise, _ = own_word(np.array([0.1]), np.array([0.70]), np.array([0.0]), np.array([0.7225]))
    assert noise[0] == np.inf


@pytest.mark.parametrize(
    ("new", "mean", "variance"),
    [
        (Labels("onion", "onion/b", "loft", 1), 0.5046, 0.5131),
        (Labels("beet", "beet/a", "cellar", 1), 0.2462, 0.6726),
    ],
)
def test_one_onion_lot_tells_something_of_others(new: Labels, mean: float, variance: float) -> None:
    off, wide = beliefs([new], [says(ONION, 1.0, 0.1)])
    assert off[0, HAZ] == pytest.approx(mean, abs=5e-5)
    assert wide[0, HAZ] == pytest.approx(variance, abs=5e-5)


def test_leaving_one_out_is_the_same_as_never_having_heard_it() -> None:
    told = [
        says(Labels("onion", f"onion/{v}", s, y), 0.3 * y, 0.1) for y, (v, s) in enumerate(["al", "bl", "ac"])
    ]
    whole = beliefs_left_out(told, [2.5] * 3)
    for number in range(3):
        rest = told[:number] + told[number + 1 :]
        off, wide = beliefs([told[number].labels], rest)
        assert whole[number].mean[HAZ] == pytest.approx(off[0, HAZ], abs=1e-9)
        assert whole[number].variance[HAZ] == pytest.approx(wide[0, HAZ], abs=1e-9)


def test_what_lots_have_in_common_adds_up_by_level() -> None:
    """House, crop and space: .45² + .35² + .30² = .415 (by hand, from the table of spreads)."""
    shared = covariance([ONION], [Labels("onion", "onion/b", "loft", 1)])
    assert shared[HAZ, 0, 0] == pytest.approx(0.415)


def test_it_never_grows_surer_than_a_twentieth_of_a_stranger() -> None:
    lot = Lot("onion", "A", "loft", 0, dt.date(2023, 9, 15), 100, Handbook(180, 270, 0.0, 2.5))
    belief = belief_of(lot, [says(ONION, 0.2, 1e-6)] * 40)
    assert (belief.variance >= 0.05 * (SPREADS**2).sum(axis=1) - 1e-12).all()
