"""All tables together, as read from `fixtures/reference`."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from homestead.reference.reading import TableRow, read_rows
from homestead.reference.stored_rows import (
    Crop,
    Finding,
    InHand,
    LookFor,
    LookingOver,
    Name,
    Pack,
    PieceWeight,
    Planting,
    Storage,
)
from homestead.reference.use_rows import (
    Animal,
    CompostExample,
    CompostMaterial,
    Dish,
    Eater,
    FeedingLaw,
    FeedSafety,
    FeedValue,
    KitchenSafety,
    PreserveYield,
    Rung,
    SoilDisease,
)

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "reference"

ROW_TYPES: dict[str, type[TableRow]] = {
    "crops": Crop,
    "in_hand": InHand,
    "names": Name,
    "storage": Storage,
    "packs": Pack,
    "piece_weights": PieceWeight,
    "planting": Planting,
    "findings": Finding,
    "look_fors": LookFor,
    "looking_over": LookingOver,
    "ladder": Rung,
    "feed_safety": FeedSafety,
    "feeding_law": FeedingLaw,
    "kitchen_safety": KitchenSafety,
    "eaters": Eater,
    "soil_diseases": SoilDisease,
    "animals": Animal,
    "feed_values": FeedValue,
    "dishes": Dish,
    "preserve_yields": PreserveYield,
    "compost_materials": CompostMaterial,
    "compost_examples": CompostExample,
}

#: columns that name a row, in the order its name is written; several rows may share a name
KEYS: dict[str, tuple[str, ...]] = {
    "crops": ("crop_id",),
    "in_hand": ("id",),
    "names": ("domain", "id"),
    "storage": ("crop_id", "condition", "rank"),
    "packs": ("crop_id", "pack"),
    "piece_weights": ("crop_id", "piece", "size"),
    "planting": ("crop_id", "kind", "rank"),
    "findings": ("id",),
    "look_fors": ("crop_id", "finding_id"),
    "looking_over": ("crop_id",),
    "ladder": ("crop_id", "part", "condition"),
    "feed_safety": ("animal", "crop_id", "crop_part", "condition"),
    "feeding_law": ("jurisdiction", "citation", "animal"),
    "kitchen_safety": ("topic",),
    "eaters": ("id",),
    "soil_diseases": ("id",),
    "animals": ("animal", "quantity", "sort", "condition"),
    "feed_values": ("row_type", "feedstuff"),
    "dishes": ("dish_id",),
    "preserve_yields": ("crop", "process", "form"),
    "compost_materials": ("material",),
    "compost_examples": ("id",),
}


@dataclass(frozen=True)
class Tables:
    crops: tuple[Crop, ...]
    in_hand: tuple[InHand, ...]
    names: tuple[Name, ...]
    storage: tuple[Storage, ...]
    packs: tuple[Pack, ...]
    piece_weights: tuple[PieceWeight, ...]
    planting: tuple[Planting, ...]
    findings: tuple[Finding, ...]
    look_fors: tuple[LookFor, ...]
    looking_over: tuple[LookingOver, ...]
    ladder: tuple[Rung, ...]
    feed_safety: tuple[FeedSafety, ...]
    feeding_law: tuple[FeedingLaw, ...]
    kitchen_safety: tuple[KitchenSafety, ...]
    eaters: tuple[Eater, ...]
    soil_diseases: tuple[SoilDisease, ...]
    animals: tuple[Animal, ...]
    feed_values: tuple[FeedValue, ...]
    dishes: tuple[Dish, ...]
    preserve_yields: tuple[PreserveYield, ...]
    compost_materials: tuple[CompostMaterial, ...]
    compost_examples: tuple[CompostExample, ...]

    def rows(self, table: str) -> tuple[TableRow, ...]:
        rows: tuple[TableRow, ...] = getattr(self, table)
        return rows


def row_name(table: str, row: TableRow) -> str:
    """`table:key/key`, the name answers and sources use. A slash inside a key is written `-`."""
    keys = (str(getattr(row, column)).replace("/", "-") for column in KEYS[table])
    return f"{table}:{'/'.join(keys)}"


def load_tables(folder: Path = FOLDER) -> Tables:
    """Reads all tables of a folder. Raises TableError (file, line, column) at the first that can't be
    read."""
    read: dict[str, Any] = {t: read_rows(folder / f"{t}.csv", ROW_TYPES[t]) for t in ROW_TYPES}
    return Tables(**read)


@cache
def tables() -> Tables:
    """The tables of this build, read once."""
    return load_tables()
