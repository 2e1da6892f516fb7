"""How the findings of a round are called in the feeding tables."""

from __future__ import annotations

from homestead.reference import ids
from homestead.reference.tables import Tables

_MOULD = ("mould", "white_mould", "grey_mould", "blue_mould", "black_mould")

#: findings and states by their word in feed_safety.csv; what is not here and no rot counts as sound
WORDS = {
    **dict.fromkeys(_MOULD, "mouldy"),
    **{"cooked": "cooked", "spent": "cooked", "salted": "salted", "greening": "green"},
    **{"shrivelled": "wilted", "yellowing": "wilted", "frosted": "frosted", "thawed": "frosted"},
    **{"sprouting": "sprouted", "bolted": "sprouted", "bitter": "bitter", "rancid": "rancid"},
}


def feed_word(condition: str, kind: str) -> str:
    """The word for a finding or state; kind as in findings.csv."""
    return WORDS.get(condition, "rotten" if kind == "rot" else "sound")


def feed_words(tables: Tables) -> dict[str, str]:
    """Every finding and state with its word."""
    kinds = {finding.id: finding.kind for finding in tables.findings} | dict.fromkeys(ids.STATES, "state")
    return {condition: feed_word(condition, kind) for condition, kind in kinds.items()}


def feed_as(tables: Tables) -> dict[str, str]:
    """Crop to its rows in the feeding tables; empty where it has none."""
    stored = {crop.crop_id: crop.feed_crop_id for crop in tables.crops}
    return stored | {kind.id: kind.feed_crop_id for kind in tables.in_hand} | {"any_produce": "any_produce"}
