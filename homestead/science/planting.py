"""How much of a crop to put away and to plant for next winter, and which variety kept better."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from scipy.special import digamma, ndtr, ndtri, polygamma

from homestead.science.ranges import Impossible, within

Verdict = Literal["not enough to tell", "probably", "clearly"]

LEAST_WEEKS = 8.0
"""A winter of which less was seen says nothing of its need. Ours. [weeks]"""
TOLD_SPREAD, WINTER_SPREAD, BETWEEN_SPREAD = 0.20, 0.25, 0.15
"""How far off, on the log scale: a weekly use that was told, a whole winter's use, one winter from another.
Ours. [-]
"""


@dataclass(frozen=True)
class Winter:
    """What was used of a crop in a winter [kg], and for how many weeks there was any."""

    used_kg: float
    weeks: float


@dataclass(frozen=True)
class Need:
    """What is to be eaten and what a plant brings: medians in kg with their spreads as shares of them.

    `kept_a`, `kept_b`: Beta law of the share that gets eaten.
    """

    kg: float
    kg_spread: float
    kept_a: float
    kept_b: float
    plant_kg: float
    plant_spread: float


def winter_need(winters: Sequence[Winter], weeks: float, told_kg: float | None = None) -> tuple[float, float]:
    """What a winter of `weeks` asks for: median [kg] and spread on the log scale [-].

    A winter that ended early is carried on at its own pace to the full weeks. told_kg: a week, where somebody
    told it; weeks: 1 to 104. Raises OutsideRange, and Impossible where nothing is told and no winter says
    enough. Source: mean of logarithms weighted by how sure each is; spreads ours.
    """
    within("weeks", weeks, 1.0, 104.0)
    said = [(math.log(told_kg * weeks), TOLD_SPREAD**2)] if told_kg else []
    for winter in winters:
        if winter.weeks >= LEAST_WEEKS and winter.used_kg > 0:
            pace = winter.used_kg / min(winter.weeks, weeks)
            said.append((math.log(pace * weeks), WINTER_SPREAD**2 * max(weeks / winter.weeks, 1.0)))
    if not said:
        raise Impossible("Nobody told a weekly use, and no winter was long enough to show one.")
    sure = sum(1.0 / variance for _, variance in said)
    middle = sum(value / variance for value, variance in said) / sure
    return math.exp(middle), math.sqrt(1.0 / sure + BETWEEN_SPREAD**2)


def peeled_for(kg_a_week: float, edible: Sequence[float]) -> float:
    """What a weekly use asks of the store over the weeks, when more is peeled off as the crop ages. [kg]

    kg_a_week: as it is used while fresh; edible: share left after peeling in each week, over 0 to 1 [-].
    Raises OutsideRange. Source: definition: the same food on the plate.
    """
    shares = [within("edible share", one, 0.01, 1.0) for one in edible]
    return sum(kg_a_week * shares[0] / one for one in shares)


def put_away_kg(need: Need, service: float = 0.8) -> float:
    """What to put away so that, after shrink, the need is met in a share `service` of winters. [kg]

    Yields left out: it is what is carried in. service: 0.01 to 0.99 [-]. Raises OutsideRange. Source: as
    `plants_needed`.
    """
    return _quantile(replace(need, plant_kg=1.0, plant_spread=0.0), service)


def plants_needed(need: Need, service: float = 0.8) -> int:
    """Plants that meet the need in a share `service` of winters, to the nearest. [plants]

    service: over 0, below 1 [-]. Raises OutsideRange. Source: quantile of a log-normal law (derived):
    ln N ~ N(ln U - E ln k - ln Y, ...), with E ln k = ψ(a)-ψ(a+b) and Var ln k = ψ1(a)-ψ1(a+b).
    """
    return round(_quantile(need, service))


def _quantile(need: Need, service: float) -> float:
    within("service", service, 0.01, 0.99)
    a, both = within("kept_a", need.kept_a, 1e-3, 1e6), need.kept_a + within("kept_b", need.kept_b, 1e-3, 1e6)
    kg, plant_kg = within("need", need.kg, 1e-6, 1e6), within("plant_kg", need.plant_kg, 1e-6, 1e4)
    middle = math.log(kg) - float(digamma(a) - digamma(both)) - math.log(plant_kg)
    kept_variance = float(polygamma(1, a) - polygamma(1, both))
    spread = math.sqrt(need.kg_spread**2 + kept_variance + need.plant_spread**2)
    return math.exp(middle + float(ndtri(service)) * spread)


def kept_law(shares: Sequence[float], handbook_share: float) -> tuple[float, float]:
    """Beta law (a, b) with the mean and variance of the lots' kept shares, the handbook's counting as
    one more lot.

    shares: of own lots, 0 to 1 [-]. With none, as wide as two lots (ours). Raises OutsideRange. Source:
    method of moments.
    """
    within("handbook_share", handbook_share, 0.01, 0.99)
    all_shares = [within("kept share", one, 0.0, 1.0) for one in shares] + [handbook_share]
    mean = min(max(sum(all_shares) / len(all_shares), 0.01), 0.99)
    off = sum((one - mean) ** 2 for one in all_shares) / max(len(all_shares) - 1, 1)
    variance = min(max(off, 0.0004), 0.9 * mean * (1 - mean)) if shares else mean * (1 - mean) / 3
    strength = mean * (1 - mean) / variance - 1
    return mean * strength, (1 - mean) * strength


def chance_a_keeps_better(haz_b_minus_a: float, spread: float) -> float:
    """Chance that variety A keeps longer than B. [-]

    haz_b_minus_a: how much faster B goes, mean on the log scale; spread: its standard deviation, over 0.
    Raises OutsideRange. Source: normal law, Φ(mean/sd).
    """
    return float(ndtr(haz_b_minus_a / within("spread", spread, 1e-9, 1e3)))


def verdict(chance: float) -> Verdict:
    """What to say of a chance that one is better. Raises OutsideRange.

    Source: ours, below 0.80 and from 0.95.
    """
    within("chance", chance, 0.0, 1.0)
    surer = max(chance, 1.0 - chance)
    if surer < 0.80:
        return "not enough to tell"
    return "probably" if surer < 0.95 else "clearly"
