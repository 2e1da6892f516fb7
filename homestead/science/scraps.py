"""What scraps are to the hens: dry matter, protein, their share of a day's feed. And how well they lay."""

from __future__ import annotations

from dataclasses import dataclass

from homestead.science.ranges import within

MOST_SHARE = 0.10
"""Share of scraps in the hens' dry matter above which to caution. Common practice; advice seen ranges 5
to 15 %. [-]
"""
FEED_DRY_SHARE = 0.89


@dataclass(frozen=True)
class Scraps:
    """Scraps of one kind as given [g], their dry matter [%] and the crude protein of that [%]."""

    grams: float
    dry_matter_pct: float
    crude_protein_pct: float


def dry_matter_g(scraps: Scraps) -> float:
    """Dry matter of scraps. [g]  Raises OutsideRange. Source: definition."""
    within("scraps", scraps.grams, 0.0, 1e7)
    return scraps.grams * within("dry matter", scraps.dry_matter_pct, 0.0, 100.0) / 100.0


def protein_g(scraps: Scraps) -> float:
    """Crude protein of scraps. [g]  Raises OutsideRange. Source: definition."""
    return dry_matter_g(scraps) * within("crude protein", scraps.crude_protein_pct, 0.0, 100.0) / 100.0


def share_of_diet(scraps: Scraps, hens: float, feed_g_hen: float) -> float:
    """Share of scraps in a day's dry matter, eaten in place of feed. [-]

    hens: over 0; feed_g_hen: as sold, over 0 [g]. Raises OutsideRange. Source: definition, feed of 89 %
    dry matter.
    """
    feed = within("hens", hens, 1e-6, 1e6) * within("feed a hen", feed_g_hen, 1e-6, 1e4) * FEED_DRY_SHARE
    return dry_matter_g(scraps) / feed


def protein_g_hen(scraps: Scraps, hens: float, feed_g_hen: float, feed_protein_pct: float) -> float:
    """Crude protein a hen gets in a day when scraps take feed's place. [g]

    feed_protein_pct: of the feed as sold [%]. At most the whole feed is replaced. Raises OutsideRange.
    Source: mass balance.
    """
    replaced = min(share_of_diet(scraps, hens, feed_g_hen), 1.0)
    feed = (1.0 - replaced) * feed_g_hen * within("feed protein", feed_protein_pct, 0.0, 100.0) / 100.0
    return feed + protein_g(scraps) / hens


def too_many_scraps(share: float) -> bool:
    """Whether to caution. Source: common practice, a tenth of the dry matter."""
    return share > MOST_SHARE


def hen_day_lay(eggs: float, hen_days: float) -> float:
    """Eggs per hen and day. [-]

    hen_days: hens summed over the days, over 0. Raises OutsideRange. Source: definition of hen-day
    production.
    """
    return within("eggs", eggs, 0.0, 1e7) / within("hen days", hen_days, 1e-6, 1e8)
