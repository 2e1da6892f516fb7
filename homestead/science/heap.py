"""The compost heap: how wet a mixture is, its carbon to nitrogen, and what to add.

Source of the forms: Cornell Composting (seen; examples in fixtures/reference/compost_examples.csv).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from homestead.science.ranges import Impossible, within


@dataclass(frozen=True)
class Stuff:
    """A material as handled: its kg, moisture [%], and carbon and nitrogen of its dry matter [%]."""

    kg: float
    moisture_pct: float
    carbon_pct: float
    nitrogen_pct: float


def mixture_moisture_pct(stuffs: Sequence[Stuff]) -> float:
    """Moisture of a mixture. [%]  Raises Impossible for nothing at all, OutsideRange. Source: Cornell,
    ΣQM/ΣQ.
    """
    whole = sum(_checked(one).kg for one in stuffs)
    if whole <= 0:
        raise Impossible("There is nothing on the heap.")
    return sum(one.kg * one.moisture_pct for one in stuffs) / whole


def carbon_to_nitrogen(stuffs: Sequence[Stuff]) -> float:
    """C:N of a mixture, never the mean of the ratios. [-]

    Raises Impossible without any nitrogen, OutsideRange. Source: Cornell, ΣQ C(100-M) / ΣQ N(100-M).
    """
    carbon = sum(_checked(one).kg * one.carbon_pct * (100.0 - one.moisture_pct) for one in stuffs)
    nitrogen = sum(one.kg * one.nitrogen_pct * (100.0 - one.moisture_pct) for one in stuffs)
    if nitrogen <= 0:
        raise Impossible("A mixture without nitrogen has no C:N.")
    return carbon / nitrogen


def second_for_moisture_kg(first: Stuff, second: Stuff, goal_pct: float) -> float:
    """Kilograms of the second material that bring the first to a moisture. [kg]

    goal_pct: between the moistures of both. Raises Impossible, OutsideRange. Source: Cornell,
    Q1(G-M1)/(M2-G).
    """
    _checked(first), _checked(second)
    within("goal moisture", goal_pct, 0.0, 100.0)
    low, high = sorted((first.moisture_pct, second.moisture_pct))
    if second.moisture_pct == goal_pct or not low <= goal_pct <= high:
        raise Impossible(f"{goal_pct:g} % does not lie between {low:g} and {high:g} % moisture.")
    return first.kg * (goal_pct - first.moisture_pct) / (second.moisture_pct - goal_pct)


def two_to_add_kg(
    given: Stuff, second: Stuff, third: Stuff, ratio: float, moisture_pct: float
) -> tuple[float, float]:
    """Kilograms of two materials that bring a third to a C:N and a moisture. [kg, kg]

    Raises Impossible when an amount would be below 0, naming the goal that gives, OutsideRange.
    Source: the two Cornell forms as a linear system.
    """
    stuffs = [_checked(one) for one in (given, second, third)]
    a = [(100.0 - s.moisture_pct) * (s.carbon_pct - ratio * s.nitrogen_pct) for s in stuffs]
    b = [s.moisture_pct - moisture_pct for s in stuffs]
    whole = a[1] * b[2] - a[2] * b[1]
    if abs(whole) < 1e-9:
        raise Impossible("These two materials pull the same way; they cannot meet both goals.")
    first = given.kg * (a[2] * b[0] - a[0] * b[2]) / whole
    other = given.kg * (a[0] * b[1] - a[1] * b[0]) / whole
    if min(first, other) < 0:
        raise Impossible(f"C:N {ratio:g} and {moisture_pct:g} % moisture cannot both be met with these.")
    return first, other


def _checked(one: Stuff) -> Stuff:
    within("kg on the heap", one.kg, 0.0, 1e7)
    within("moisture", one.moisture_pct, 0.0, 100.0)
    within("carbon", one.carbon_pct, 0.0, 100.0)
    within("nitrogen", one.nitrogen_pct, 0.0, 100.0)
    return one
