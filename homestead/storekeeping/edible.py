"""What is left to eat after stripping and peeling (F14). Twin: `edible.ts`."""

from __future__ import annotations

from itertools import pairwise

from homestead.storekeeping.amounts import Maybe
from homestead.storekeeping.state import CropFigures

DAYS_A_MONTH = 30.4
ALL_EDIBLE = frozenset({"frozen", "dried", "jar", "ferment"})


def refuse_share(crop: str, figures: CropFigures, age_days: float) -> Maybe:
    """Share of a piece that is stripped or peeled off, 0 to 1; None where no figure is known.

    Straight from the fresh figure, at most the first stored one, through the stored ones, flat after it.
    """
    fresh = figures.get("refuse_pct")
    stored = [(each["months"] * DAYS_A_MONTH, each["pct"]) for each in figures.get("refuse_stored", ())]
    if not stored:
        if fresh is None:
            return 0.0 if crop in ALL_EDIBLE else None
        return fresh / 100
    start = stored[0][1] if fresh is None else min(fresh, stored[0][1])
    return _along([(0.0, start), *stored], max(age_days, 0.0)) / 100


def _along(points: list[tuple[float, float]], age_days: float) -> float:
    for (early, at_early), (late, at_late) in pairwise(points):
        if age_days < late:
            return at_early + (at_late - at_early) * (age_days - early) / (late - early)
    return points[-1][1]


def edible_grams(food_grams: Maybe, refuse: Maybe) -> Maybe:
    return None if food_grams is None or refuse is None else food_grams * (1 - refuse)
