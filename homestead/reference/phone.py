"""Writes what the phone holds of the tables: `frontend/src/reference/built/*.json`.

Kept in the tree, so that the frontend builds without Python; a test fails when the files differ from the
tables. `python -m homestead.reference.phone` writes them anew.

- `rules.json`, `rows.json`, `words.<language>.json`: the first load
- `kitchen_rows.json`, `kitchen_words.<language>.json`: how to pack, hazards, law, dishes, yields, loaded by
the
  places that show them
- `sources/<table>.json`: where each row is from, loaded when a figure is tapped
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from homestead.reference.document import rules_document
from homestead.reference.figures import fold_figures
from homestead.reference.kitchen_rows import clocks, jarred, keeping, keeps_days
from homestead.reference.scrap_rows import MATERIALS, heap_values, scrap_values
from homestead.reference.served import version
from homestead.reference.tables import ROW_TYPES, Tables, load_tables, row_name
from homestead.reference.words import FIRST, LANGUAGES, PART, SECOND, Translation, parts, words_of

FOLDER = Path(__file__).resolve().parents[2] / "frontend" / "src" / "reference" / "built"


#: in the rules document already
_DUE = ("every_days", "every_days_late", "late_from_month")


def built(tables: Tables) -> dict[str, Any]:
    """Every file by its name, as the phone is to have it."""
    files: dict[str, Any] = {
        "rules.json": rules_document(tables),
        "rows.json": _first_rows(tables),
        "kitchen_rows.json": _kitchen_rows(tables),
    }
    for language in ("en", *LANGUAGES):
        words = Translation(language)
        names = {part: words.of(PART, part) for part in parts(tables)}
        files[f"words.{language}.json"] = words_of(tables, FIRST, words) | {"parts": names}
        files[f"kitchen_words.{language}.json"] = words_of(tables, SECOND, words)
    return files | {f"sources/{table}.json": _sources(tables, table) for table in ROW_TYPES}


def _first_rows(tables: Tables) -> dict[str, Any]:
    """What screens of the first load show beside the words."""
    return {
        "version": version(),
        "crops": [crop.crop_id for crop in tables.crops],
        "in_hand": [kind.id for kind in tables.in_hand],
        "packs": _packs(tables),
        "figures": {
            crop: {name: figure for name, figure in known.items() if name not in _DUE}
            for crop, known in fold_figures(tables).items()
        },
        "cures": _cures(tables),
        "look_fors": _look_fors(tables),
        "findings": {row.id: [row.kind, row.spreads, row.urgency] for row in tables.findings},
        "looking_over": {
            row.crop_id: [row.way, row.sample_pieces_min, row.sample_share_pct, row.minutes_per_10kg]
            for row in tables.looking_over
        },
    }


def _look_fors(tables: Tables) -> dict[str, dict[str, list[str]]]:
    crops: dict[str, dict[str, list[str]]] = {}
    for row in tables.look_fors:
        crops.setdefault(row.crop_id, {})[row.finding_id] = [row.urgency, row.neighbours_at_risk]
    return crops


#: "2 weeks", "14-20 days", "10 days at 27 C, or 2-3 weeks": spans told in days or weeks
_SPAN = re.compile(r"(\d+)(?:-(\d+))? (day|week)s?\b")


def _cures(tables: Tables) -> dict[str, list[Any]]:
    """Fewest and most days a crop cures by all that the tables have, and the rows that say so."""
    found: dict[str, list[Any]] = {}
    for row in tables.storage:
        for low, high, unit in _SPAN.findall(row.cure):
            days = [int(n) * (7 if unit == "week" else 1) for n in (low, high or low)]
            least, most, rows = found.setdefault(row.crop_id, [days[0], days[1], []])
            name = row_name("storage", row)
            found[row.crop_id] = [min(least, days[0]), max(most, days[1]), list(dict.fromkeys([*rows, name]))]
    return found


def _packs(tables: Tables) -> dict[str, dict[str, str]]:
    """Fit of each pack by crop; of two rows for one thing the most cautious holds."""
    order = ("never", "poor", "fair", "good", "best")
    fits: dict[str, dict[str, str]] = {}
    for row in tables.packs:
        known = fits.setdefault(row.crop_id, {})
        known[row.pack] = min(known.get(row.pack, row.fit), row.fit, key=order.index)
    return fits


def _kitchen_rows(tables: Tables) -> dict[str, Any]:
    return {
        "dishes": [
            {
                "id": dish.dish_id,
                "step": dish.use_step,
                "uses": [_use(use) for use in dish.uses.split("; ")],
                "minutes": dish.minutes,
                "minutes_hands_on": dish.minutes_hands_on,
                "keeps_days": dish.keeps_days,
                "freezes": dish.freezes,
            }
            for dish in tables.dishes
        ],
        "preserve_yields": [
            {
                "crop": row.crop,
                "process": row.process,
                "form": row.form,
                "fresh_kg_per_unit": row.fresh_kg_per_unit,
                "unit": row.unit,
                "yield_ratio": row.yield_ratio,
                "blanch_minutes": row.blanch_minutes,
                "storage_months": row.storage_months,
                "storage_temp_c": row.storage_temp_c,
            }
            for row in tables.preserve_yields
        ],
        "animals": [
            [row.animal, row.sort, row.quantity, row.condition, row.low, row.high, row.unit]
            for row in tables.animals
        ],
        "feed_values": {
            row.feedstuff: [row.dry_matter_pct, row.crude_protein_pct_dm]
            for row in tables.feed_values
            if row.row_type == "feedstuff"
        },
        "scrap_values": scrap_values(tables),
        "heap_values": heap_values(tables),
        "heap_materials": list(MATERIALS),
        "clocks": clocks(tables),
        "keeping": keeping(tables),
        "keeps_days": keeps_days(tables),
        "jarred": jarred(tables),
    }


def _use(use: str) -> dict[str, Any]:
    """`crop[.part]:state/state:kg` of dishes.csv, for 4 people."""
    crop, states, kg = use.split(":")
    crop, _, part = crop.partition(".")
    return {"crop": crop, "part": part or None, "states": states.split("/"), "kg": float(kg)}


def _sources(tables: Tables, table: str) -> dict[str, Any]:
    """`sources`: [name, where], each once. `rows`: by key, for each row [number, evidence, notes]."""
    numbers: dict[tuple[str, str], int] = {}
    rows: dict[str, list[list[Any]]] = {}
    for row in tables.rows(table):
        number = numbers.setdefault((row.source, row.source_where), len(numbers))
        key = row_name(table, row).partition(":")[2]
        rows.setdefault(key, []).append([number, row.evidence, row.notes])
    return {"sources": [list(source) for source in numbers], "rows": rows}


def as_text(content: Any) -> str:
    """One line of JSON: these files are read by programs, and every byte goes to a phone."""
    return json.dumps(content, ensure_ascii=False, separators=(",", ":")) + "\n"


def write(folder: Path = FOLDER) -> list[Path]:
    """Writes every file whose content differs; returns those written."""
    written = []
    for name, content in built(load_tables()).items():
        path, text = folder / name, as_text(content)
        path.parent.mkdir(parents=True, exist_ok=True)
        if not path.exists() or path.read_text(encoding="utf-8") != text:
            path.write_text(text, encoding="utf-8")
            written.append(path)
    return written


if __name__ == "__main__":
    for path in write():
        print(path)
