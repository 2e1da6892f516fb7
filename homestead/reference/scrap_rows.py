"""Which rows of the feed and compost tables speak of which crop, and their figures as numbers.

The tables name feedstuffs and materials in the words of their sources; scraps name crops and parts. What has
no row here has no figure: then nothing is reckoned for it, and the screen says so.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from homestead.reference.tables import Tables, row_name

#: by crop and part ('' any part); `any_produce` is mixed scraps
FEED: Mapping[str, Mapping[str, str]] = {
    "cabbage": {"": "cabbage"},
    "savoy_cabbage": {"": "cabbage"},
    "chinese_cabbage": {"": "cabbage"},
    "red_cabbage": {"": "red cabbage"},
    "kale": {"": "kale"},
    "brussels_sprout": {"": "Brussels sprouts"},
    "cauliflower": {"": "cauliflower"},
    "kohlrabi": {"": "kohlrabi"},
    "carrot": {"": "carrot", "tops": "carrot tops"},
    "beet": {"": "beet (root)", "tops": "beet greens"},
    "turnip": {"": "turnip (root)", "tops": "turnip greens"},
    "swede": {"": "swede"},
    "celeriac": {"": "celeriac"},
    "parsnip": {"": "parsnip"},
    "radish_winter": {"": "radish"},
    "celery": {"": "celery"},
    "leek": {"": "leek"},
    "onion": {"": "onion"},
    "shallot": {"": "onion"},
    "garlic": {"": "garlic"},
    "potato": {"": "potato raw with skin", "peel": "potato skin raw"},
    "sweet_potato": {"": "sweet potato raw"},
    "squash": {"": "winter squash, all kinds"},
    "pumpkin": {"": "pumpkin"},
    "tomato": {"": "tomato"},
    "apple": {"": "apple with skin"},
    "pear": {"": "pear"},
    "citrus": {"": "orange, flesh", "peel": "orange peel"},
    "lettuce": {"": "lettuce, green leaf"},
    "spinach_chard": {"": "Swiss chard"},
    "bean_green": {"": "beans, green"},
    "bread": {"": "bread white"},
    "grain_cooked": {"": "rice white cooked"},
    "any_produce": {"": "vegetable residues, 9 kinds"},
}
#: crops and what else goes on a heap; `any_produce` is mixed scraps
HEAP: Mapping[str, str] = {
    **dict.fromkeys(("cabbage", "savoy_cabbage", "chinese_cabbage", "red_cabbage"), "cabbage trimmings"),
    **dict.fromkeys(("kohlrabi", "cauliflower"), "cabbage trimmings"),
    **dict.fromkeys(("onion", "shallot"), "onion"),
    **{"kale": "kale", "brussels_sprout": "Brussels sprouts", "carrot": "carrot", "beet": "beet root"},
    **{"turnip": "turnip", "swede": "swede", "celery": "celery", "celeriac": "celeriac", "leek": "leek"},
    **{"parsnip": "parsnip", "garlic": "garlic", "potato": "potato", "sweet_potato": "sweet potato"},
    **{"tomato": "tomato", "squash": "winter squash", "pumpkin": "pumpkin", "apple": "apple", "pear": "pear"},
    **{"citrus": "orange peel", "lettuce": "lettuce", "spinach_chard": "spinach", "rhubarb": "rhubarb"},
    **{"bread": "bread", "grain_cooked": "rice cooked", "bean_dry": "beans dry"},
    "any_produce": "vegetable produce",
    "straw": "straw, general",
    "leaves": "leaves, fallen",
    "cardboard": "cardboard, corrugated",
    "wood_chips": "shrub trimmings",
    "grass": "grass clippings",
    "hen_manure": "laying hen manure",
    "horse_manure": "horse manure, general",
}
#: what is put on a heap by itself, beside scraps: browns first
MATERIALS = ("straw", "leaves", "cardboard", "wood_chips", "grass", "hen_manure", "horse_manure")

_NUMBERS = re.compile(r"\d+(?:\.\d+)?")
_MEAN = re.compile(r"\((\d+(?:\.\d+)?)\)")


def low_mid_high(text: str) -> tuple[float, float, float] | None:
    """A figure as its source gives it, `0.3-1.1 (0.7)`, `2.8-9.6` or `78`: least, middle, most.

    The middle is the mean the source names in brackets, else half way. None: it holds no number.
    """
    mean = _MEAN.search(text)
    numbers = [float(n) for n in _NUMBERS.findall(text[: mean.start()] if mean else text)]
    if not numbers:
        return None
    low, high = min(numbers), max(numbers)
    return low, float(mean[1]) if mean else (low + high) / 2, high


def scrap_values(tables: Tables) -> dict[str, dict[str, Any]]:
    """By crop and part: `dry` [%, least, middle, most], `protein` [% of dry, or null], `row` its name."""
    rows = {row.feedstuff: row for row in tables.feed_values if row.row_type == "feedstuff"}
    told: dict[str, dict[str, Any]] = {}
    for crop, parts in FEED.items():
        for part, feedstuff in parts.items():
            row = rows[feedstuff]
            protein = low_mid_high(row.crude_protein_pct_dm)
            told.setdefault(crop, {})[part] = {
                "dry": low_mid_high(row.dry_matter_pct),
                "protein": protein and protein[1],
                "row": row_name("feed_values", row),
            }
    return told


def heap_values(tables: Tables) -> dict[str, Any]:
    """By crop or material: `n` nitrogen [% of dry], `c_to_n`, `moisture` [%], `density` [kg/m3] or null, each
    its middle; `row` its name. Of rows that share a name the first that tells all but the density."""
    told: dict[str, Any] = {}
    for thing, material in HEAP.items():
        rows = [row for row in tables.compost_materials if row.material == material]
        row = next(r for r in rows if r.nitrogen_pct_dm and r.c_to_n and r.moisture_pct)
        figures = {
            "n": low_mid_high(row.nitrogen_pct_dm),
            "c_to_n": low_mid_high(row.c_to_n),
            "moisture": low_mid_high(row.moisture_pct),
            "density": low_mid_high(row.bulk_density_kg_m3),
        }
        told[thing] = {name: figure and figure[1] for name, figure in figures.items()} | {
            "row": row_name("compost_materials", row)
        }
    return told
