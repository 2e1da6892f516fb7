"""What other rooms ask for, read once and kept: the files do not change while the server runs."""

from __future__ import annotations

import hashlib
from functools import cache
from typing import Any

import rfc8785

from homestead.reference import ids
from homestead.reference.document import rules_document
from homestead.reference.figures import fold_figures
from homestead.reference.scrap_rows import MATERIALS
from homestead.reference.tables import tables
from homestead.storekeeping.rules import Rules


@cache
def rules() -> Rules:
    """The rules document for `storekeeping.ladder`, `feeding` and `due`; shape in `storekeeping.rules`."""
    return rules_document(tables())


@cache
def figures_for_fold() -> dict[str, Any]:
    """By crop, as `storekeeping.state.CropFigures` and `storekeeping.due.LookingOver`;
    `figures.fold_figures` tells the units. A household's own figures are laid over it by `own.with_own`."""
    return fold_figures(tables())


@cache
def crop_ids() -> frozenset[str]:
    """Crops that may be stored."""
    return frozenset(ids.crops(tables()))


@cache
def in_hand_ids() -> frozenset[str]:
    """Crops and what else comes to hand in a kitchen (rhubarb, bread, meat): ids a scrap may name."""
    return frozenset(ids.in_hand(tables()))


@cache
def finding_ids() -> frozenset[str]:
    """Findings that an entry may name, `sound` and `unsure` and the states among them."""
    return frozenset(ids.conditions(tables()))


@cache
def pack_ids() -> frozenset[str]:
    return frozenset(pack.pack for pack in tables().packs)


@cache
def animal_kinds() -> frozenset[str]:
    """Kinds of animal the tables know; another kind may be kept, and is offered nothing."""
    return frozenset(ids.animals(tables()))


@cache
def heap_materials() -> frozenset[str]:
    """What may be put on a heap by itself, beside scraps."""
    return frozenset(MATERIALS)


@cache
def version() -> str:
    """First 16 hex digits of the SHA-256 of the rules document: what a sheet names as the table version."""
    return hashlib.sha256(rfc8785.dumps(dict(rules()))).hexdigest()[:16]
