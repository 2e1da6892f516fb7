"""What scraps are to the animals that ate them: dry matter, protein, share of the diet. And hen-day lay.

Twin: `frontend/src/storekeeping/diet.ts`. Pure; figures come from the tables, see
`homestead.reference.scrap_rows`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Literal, NotRequired, TypedDict

#: crop of mixed scraps in the tables
MIXED = "any_produce"
#: dry share of bought feed, least and most: `animals.csv`, complete layer feed 88 to 90 %, from memory
FEED_DRY = (0.88, 0.90)
#: how far a weight may be off, by how it is known. Common practice, no source.
OFF: Mapping[str, float] = {"weighed": 0.0, "vessel": 0.1, "guessed": 0.25}

Measured = Literal["weighed", "guessed", "vessel"]
Values = Mapping[str, Mapping[str, Mapping[str, Any]]]


class Fed(TypedDict):
    """Scraps that went to a group [g]. `crop` None: mixed."""

    crop: str | None
    grams: float
    part: NotRequired[str | None]
    measured: NotRequired[Measured | None]


class Band(TypedDict):
    """Likeliest, and the least and most it may be."""

    mid: float
    low: float
    high: float


class Diet(TypedDict):
    """Of a span of days. fresh_g: all as given. dry_g, protein_g: of what the tables know. unknown_g: of the
    rest, as given [g]. share: scraps in all dry matter eaten, 0 to 1; None without feed or figures."""

    fresh_g: float
    unknown_g: float
    dry_g: Band
    protein_g: float
    share: Band | None


def value_of(values: Values, crop: str | None, part: str | None) -> Mapping[str, Any] | None:
    """The row for a part, else for the crop, None where the tables have none."""
    rows = values.get(crop or MIXED, {})
    return rows.get(part or "", rows.get(""))


def diet_of(fed: Sequence[Fed], values: Values, feed_g: Sequence[float] | None) -> Diet:
    """feed_g: feed as sold that they had in those days, least and most [g].

    share = dry scraps / (dry scraps + dry feed). Source: definition; the table's worked example (six hens,
    1 kg of cabbage trimmings: 11.6 %).
    """
    known = [(one, value) for one in fed if (value := value_of(values, one["crop"], one.get("part")))]
    fresh = sum(one["grams"] for one in fed)
    dry = Band(
        mid=sum(_dry(one, value, 1, 0.0) for one, value in known),
        low=sum(_dry(one, value, 0, -_off(one)) for one, value in known),
        high=sum(_dry(one, value, 2, _off(one)) for one, value in known),
    )
    protein = sum(_dry(one, value, 1, 0.0) * (value["protein"] or 0.0) / 100.0 for one, value in known)
    return Diet(
        fresh_g=fresh,
        unknown_g=fresh - sum(one["grams"] for one, _ in known),
        dry_g=dry,
        protein_g=protein,
        share=_share(dry, feed_g) if feed_g and feed_g[0] > 0 and (known or not fed) else None,
    )


def _dry(one: Fed, value: Mapping[str, Any], which: int, off: float) -> float:
    dry: float = value["dry"][which]
    return one["grams"] * (1.0 + off) * dry / 100.0


def _off(one: Fed) -> float:
    return OFF[one.get("measured") or "weighed"]


def _share(dry: Band, feed_g: Sequence[float]) -> Band:
    least, most = feed_g[0] * FEED_DRY[0], feed_g[1] * FEED_DRY[1]
    middle = (feed_g[0] + feed_g[1]) * (FEED_DRY[0] + FEED_DRY[1]) / 4.0
    return Band(
        mid=dry["mid"] / (dry["mid"] + middle),
        low=dry["low"] / (dry["low"] + most),
        high=dry["high"] / (dry["high"] + least),
    )


def protein_pct(diet: Diet, feed_g: float, feed_protein_pct: float) -> float:
    """Crude protein of all dry matter eaten. [%]  feed_g: as sold; feed_protein_pct: of its dry matter.

    Source: mass balance.
    """
    feed = feed_g * (FEED_DRY[0] + FEED_DRY[1]) / 2.0
    return (feed * feed_protein_pct + diet["protein_g"] * 100.0) / (feed + diet["dry_g"]["mid"])


def hen_day_lay(eggs: float, hens: float, days: float) -> float | None:
    """Eggs per hen and day, None without hens or days. [-]  Source: definition of hen-day production."""
    return eggs / (hens * days) if hens > 0 and days > 0 else None
