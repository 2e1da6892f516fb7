"""Scores against independent computations. Each check names its source."""

from __future__ import annotations

import numpy as np
import pytest

from homestead.science import ranges, score


def test_interval_scores_by_the_published_definition() -> None:
    """Source: Gneiting and Raftery 2007, by hand: 35-46 with 50 is 51; with 41 it is 11."""
    assert score.interval_score(35, 46, 50) == pytest.approx(51)
    assert score.interval_score(35, 46, 41) == pytest.approx(11)


def test_an_interval_score_is_ten_times_the_two_pinball_losses() -> None:
    """Source: identity in Gneiting and Raftery 2007 (form seen quoted); numpy computes the loss anew."""
    for low, high, y in ((35.0, 46.0, 50.0), (35.0, 46.0, 41.0), (3.0, 8.0, 1.0)):
        both = score.pinball(low, 0.1, y) + score.pinball(high, 0.9, y)
        assert score.interval_score(low, high, y) == pytest.approx(10 * both)
        anew = np.maximum(0.1 * (y - low), -0.9 * (y - low)) + np.maximum(0.9 * (y - high), -0.1 * (y - high))
        assert both == pytest.approx(anew)
    assert score.pinball(35.0, 0.1, 41.0) == pytest.approx(0.6)


def test_a_brier_score_by_hand() -> None:
    """Source: by hand: .2, .8, .8 with 0, 1, 0 are (.04 + .04 + .64)/3 = .24."""
    assert score.brier([0.2, 0.8, 0.8], [False, True, False]) == pytest.approx(0.24)


def test_reliability_counts_by_fifths() -> None:
    """Source: plain count."""
    assert score.reliability([0.1, 0.15, 0.9, 1.0], [False, True, True, True]) == [
        (2, 0.5), (0, 0.0), (0, 0.0), (0, 0.0), (2, 1.0),
    ]  # fmt: skip


def test_cover_and_stretch_by_hand() -> None:
    """Source: by hand: 2 of 3 inside; 9 off P50 of half a band of 6 is 1.5; 60 misses of 1.5: e^(0.6 ln
    1.5).
    """
    assert score.covered_share([(0, 2), (0, 2), (0, 2)], [1, 2, 3]) == pytest.approx(2 / 3)
    assert score.miss_in_bands(10, 14, 20, 23) == pytest.approx(1.5)
    assert score.miss_in_bands(14, 14, 14, 15) == pytest.approx(2.0)
    assert score.stretch_factor([1.5] * 60) == pytest.approx(1.5**0.6)
    assert score.stretch_factor([9.0] * 60) == 2.0
    assert score.stretch_factor([9.0] * 19) == 1.0
    spread = list(np.linspace(0, 2, 60))
    assert score.stretch_factor(spread) == pytest.approx(np.quantile(spread, 0.8) ** 0.6)


def test_a_band_is_stretched_about_its_middle() -> None:
    """Source: by hand: 10, 14, 20 by 1.5 is 8, 14, 23; pieces are not fewer than none."""
    assert score.stretched(10, 14, 20, 1.5) == pytest.approx((8, 14, 23))
    assert score.stretched(1, 14, 20, 2.0) == pytest.approx((0, 14, 26))
    assert score.stretched(10, 14, 20, 1.0) == pytest.approx((10, 14, 20))


def test_a_number_in_range_is_given_back() -> None:
    """Source: identity."""
    assert ranges.within("x", 5.0, 0.0, 10.0) == 5.0
