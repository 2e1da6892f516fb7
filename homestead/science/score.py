"""How forecasts turned out: scores of bands and chances, and what they say of the next ones."""

from __future__ import annotations

import math
from collections.abc import Sequence

from homestead.science.ranges import Impossible, within

LEAST_SETTLED = 20
"""Forecasts that must have come to their day before bands are stretched by them. Ours."""


def interval_score(low: float, high: float, happened: float, outside: float = 0.2) -> float:
    """Width of a band and a fine for missing it; less is better. [unit of the quantity]

    low, high: the band; happened: the truth; outside: share the band leaves out, over 0 to 1 [-].
    Raises Impossible when low > high. Source: Gneiting and Raftery 2007 (form seen quoted).
    """
    within("outside", outside, 1e-6, 1.0)
    if low > high:
        raise Impossible(f"A band from {low:g} to {high:g} is upside down.")
    return (high - low) + 2.0 / outside * (max(low - happened, 0.0) + max(happened - high, 0.0))


def pinball(quantile: float, share: float, happened: float) -> float:
    """Loss of a stated quantile; less is better. [unit of the quantity]

    share: the share that should lie below it, 0 to 1 [-]. Source: Koenker and Bassett 1978 (memory).
    """
    within("share", share, 0.0, 1.0)
    off = happened - quantile
    return share * off if off >= 0 else (share - 1.0) * off


def brier(chances: Sequence[float], happened: Sequence[bool]) -> float:
    """Mean square of chance against what happened; 0 is best. [-]

    chances: 0 to 1; as many as `happened`, at least one. Raises Impossible, OutsideRange. Source: Brier
    1950 (memory).
    """
    if not chances or len(chances) != len(happened):
        raise Impossible(f"{len(chances)} chances for {len(happened)} happenings.")
    pairs = zip(chances, happened, strict=True)
    return sum((within("chance", p, 0.0, 1.0) - float(y)) ** 2 for p, y in pairs) / len(chances)


def reliability(
    chances: Sequence[float], happened: Sequence[bool], fifths: int = 5
) -> list[tuple[int, float]]:
    """How many were stated in each fifth of the chances, and the share of them that happened. [-]

    An empty fifth has the share 0 of 0. Source: reliability diagram, Murphy and Winkler 1977 (memory).
    """
    bins: list[list[bool]] = [[] for _ in range(fifths)]
    for p, y in zip(chances, happened, strict=True):
        bins[min(int(within("chance", p, 0.0, 1.0) * fifths), fifths - 1)].append(y)
    return [(len(one), sum(one) / len(one) if one else 0.0) for one in bins]


def covered_share(bands: Sequence[tuple[float, float]], happened: Sequence[float]) -> float:
    """Share of the truths within their bands; 0.8 is meant. [-]  At least one. Source: definition."""
    inside = [low <= y <= high for (low, high), y in zip(bands, happened, strict=True)]
    return sum(inside) / len(inside)


def miss_in_bands(p10: float, p50: float, p90: float, happened: float) -> float:
    """Distance from P50 in half bands of its own side, which is at least half a piece wide. [-]  Source:
    ours.
    """
    side = p90 - p50 if happened >= p50 else p50 - p10
    return abs(happened - p50) / max(side, 0.5)


def stretch_factor(misses: Sequence[float]) -> float:
    """By how much to stretch bands about P50, after a season's misses. [-]

    misses: from `miss_in_bands`. 1 below 20 of them; between 0.7 and 2. Source: ours: exp(n/(n+40) ln q80).
    """
    if len(misses) < LEAST_SETTLED:
        return 1.0
    q80 = _quantile(sorted(misses), 0.8)
    factor = math.exp(len(misses) / (len(misses) + 40.0) * math.log(max(q80, 1e-3)))
    return min(max(factor, 0.7), 2.0)


def stretched(p10: float, p50: float, p90: float, factor: float) -> tuple[float, float, float]:
    """A band made wider or narrower about its P50, never below nought. [unit of the quantity]

    factor: from `stretch_factor`, over 0 [-]. Raises OutsideRange. Source: ours.
    """
    within("factor", factor, 0.01, 100.0)
    return max(p50 - factor * (p50 - p10), min(p10, 0.0)), p50, p50 + factor * (p90 - p50)


def _quantile(ordered: Sequence[float], share: float) -> float:
    place = share * (len(ordered) - 1)
    below = math.floor(place)
    above = min(below + 1, len(ordered) - 1)
    return ordered[below] + (place - below) * (ordered[above] - ordered[below])
