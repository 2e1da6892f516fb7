"""Reference tables: loads, checks and serves `fixtures/reference`, every figure with its source.

Rooms above import from here. Nothing here needs Django. What is served:

- `rules()`: the document that ladder, feeding and due read; the phone holds the same, byte for byte
- `figures_for_fold()`: what the fold needs to know of a crop
- `crop_ids()`, `in_hand_ids()`, `finding_ids()`, `pack_ids()`, `animal_kinds()`: ids that entries may name
- `heap_materials()`: what may be put on a heap beside scraps
- `tables()`: every table as typed rows; `findings_in()`: what is wrong with them
- `with_own()`, `can_be_own()`: the household's own figures, laid beside the published ones
"""

from homestead.reference.checks import findings_in
from homestead.reference.own import can_be_own, with_own
from homestead.reference.served import (
    animal_kinds,
    crop_ids,
    figures_for_fold,
    finding_ids,
    heap_materials,
    in_hand_ids,
    pack_ids,
    rules,
    version,
)
from homestead.reference.tables import tables

__all__ = [
    "animal_kinds",
    "can_be_own",
    "crop_ids",
    "figures_for_fold",
    "finding_ids",
    "findings_in",
    "heap_materials",
    "in_hand_ids",
    "pack_ids",
    "rules",
    "tables",
    "version",
    "with_own",
]
