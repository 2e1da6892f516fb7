"""What other rooms ask for, read once and kept: the files do not change while the server runs."""

from __future__ import annotations

from typing import Any

from homestead.storekeeping.rules import Rules


def rules() -> Rules:
    """The rules document for `storekeeping.ladder`, `feeding` and `due`; shape in `storekeeping.rules`."""
    raise NotImplementedError


def figures_for_fold() -> dict[str, Any]:
    """`{crop: {piece_g, count_unit, refuse: [[age_days, share], ...], every_days, every_days_late,
    late_from_month}}`; a figure that is not known is absent.

    piece_g: grams a piece, middle of medium, garden before shop. refuse: points of the line of F14, share 0 to 1.
    """
    raise NotImplementedError


def crop_ids() -> frozenset[str]:
    """Crops that may be stored."""
    raise NotImplementedError


def in_hand_ids() -> frozenset[str]:
    """Crops and what else comes to hand in a kitchen (rhubarb, bread, meat): ids a scrap may name."""
    raise NotImplementedError


def finding_ids() -> frozenset[str]:
    """Findings that an entry may name, `sound` and `unsure` and the states among them."""
    raise NotImplementedError


def pack_ids() -> frozenset[str]:
    raise NotImplementedError


def animal_kinds() -> frozenset[str]:
    """Kinds of animal the tables know; another kind may be kept, and is offered nothing."""
    raise NotImplementedError


def version() -> str:
    """First 16 hex digits of the SHA-256 of the rules document: what a sheet names as the table version."""
    raise NotImplementedError
