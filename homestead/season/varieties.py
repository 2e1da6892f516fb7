"""The sheet `varieties`: which variety of a crop kept better, and how far the household's winters can tell.

docs/sheets.md tells its shape.
"""

from __future__ import annotations

import datetime as dt
import itertools
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import numpy as np

from homestead.science.chance import chances
from homestead.science.guesses import traits
from homestead.science.household import Labels, Saying, variety_belief, variety_contrast
from homestead.science.keeping import expected_shares
from homestead.science.lots import Lot
from homestead.science.outlook import Band, band
from homestead.science.planting import chance_a_keeps_better, verdict
from homestead.season.facts import Kept

SEED = 20_230_915
#: shrink is compared after so long in the crop's best warmth: half a winter. Ours [d]
COMPARED_AFTER_DAYS = 154

#: lots by variety, named as it was first written
Lots = Mapping[str, Sequence[Kept]]


def varieties_sheet(kept: Iterable[Kept], said: Sequence[Saying], today: dt.date) -> dict[str, Any]:
    """Crops of which finished lots of two or more named varieties are known, by what those lots said."""
    crops = [
        _crop(crop, varieties, said)
        for crop, varieties in sorted(_by_crop(kept).items())
        if len(varieties) > 1
    ]
    return {"day": today.isoformat(), "after_days": COMPARED_AFTER_DAYS, "crops": crops}


def _by_crop(kept: Iterable[Kept]) -> dict[str, Lots]:
    """Varieties are compared without case."""
    names: dict[str, str] = {}
    found: defaultdict[str, defaultdict[str, list[Kept]]] = defaultdict(lambda: defaultdict(list))
    for one in kept:
        variety = one.facts.variety.strip()
        if one.closed is not None and variety and one.facts.pieces > 0:
            label = Labels.of(one.facts).variety
            found[one.facts.crop][names.setdefault(label, variety)].append(one)
    return {crop: dict(varieties) for crop, varieties in found.items()}


def _crop(crop: str, varieties: Lots, said: Sequence[Saying]) -> dict[str, Any]:
    shrinks = {name: _shrink(lots[0].facts, said) for name, lots in varieties.items()}
    ordered = sorted(varieties, key=lambda name: (shrinks[name].p50, name))
    return {
        "crop": crop,
        "winters": len({one.facts.season for lots in varieties.values() for one in lots}),
        "varieties": [_variety(name, varieties[name], shrinks[name]) for name in ordered],
        "pairs": [_pair(crop, one, other, said) for one, other in itertools.combinations(ordered, 2)],
        "side_by_side": _together(varieties),
    }


def _variety(name: str, lots: Sequence[Kept], shrink: Band) -> dict[str, Any]:
    put_away = sum(one.facts.pieces * one.piece_kg for one in lots)
    return {
        "name": name,
        "lots": len(lots),
        "put_away_grams": round(1000 * put_away),
        "shrink": [round(100 * x) for x in (shrink.p10, shrink.p50, shrink.p90)],
    }


def _shrink(of: Lot, said: Sequence[Saying]) -> Band:
    """What lots of the variety lose in a space and a winter like any other, in the crop's best warmth. [-]"""
    belief = variety_belief(of.crop, of.variety, of.handbook.q10, said)
    guesses = traits(belief.mean + np.sqrt(belief.variance) * chances(SEED).normals[0])
    temps = np.full(COMPARED_AFTER_DAYS, of.handbook.ref_c)
    return band(1.0 - expected_shares(guesses, of.handbook, temps)[-1])


def _pair(crop: str, one: str, other: str, said: Sequence[Saying]) -> dict[str, Any]:
    chance = chance_a_keeps_better(*variety_contrast(crop, one, other, said))
    return {"better": one, "than": other, "chance": round(chance, 2), "verdict": verdict(chance)}


def _together(varieties: Lots) -> bool:
    """Whether two of them ever lay in one space in one winter: only then the space says nothing."""
    met: defaultdict[tuple[str, int], set[str]] = defaultdict(set)
    for name, lots in varieties.items():
        for one in lots:
            label = Labels.of(one.facts)
            met[label.space, label.season].add(name)
    return any(len(names) > 1 for names in met.values())
