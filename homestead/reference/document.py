"""The rules document: what `storekeeping.ladder`, `feeding` and `due` read, the same on the server and the
phone.

Only structure, no sentences: answers name rows, and the words and sources of a row are looked up by its name.
"""

from __future__ import annotations

from collections import defaultdict
from typing import Any

from homestead.reference import ids
from homestead.reference.feeds import feed_words
from homestead.reference.tables import Tables, row_name
from homestead.reference.use_rows import FeedSafety, Rung


def rules_document(tables: Tables) -> dict[str, Any]:
    """Shape in `homestead.storekeeping.rules` and, typed, in `frontend/src/storekeeping/rules.ts`."""
    return {
        "crops": _crops(tables),
        "findings": _findings(tables),
        "animals": list(dict.fromkeys(rule.animal for rule in tables.feed_safety)),
        "ladder": _ladder(tables),
        "feed": _feed(tables),
        "law": _law(tables),
        "eaters": _eaters(tables),
        "soil": _soil(tables),
        "looking_over": {
            row.crop_id: {
                "every_days": row.every_days,
                "every_days_late": row.every_days_late,
                "late_from_month": row.late_from_month,
            }
            for row in tables.looking_over
        },
    }


def _given(**values: Any) -> dict[str, Any]:
    """Leaves out what is empty: absent rather than null, and a smaller first load."""
    return {name: value for name, value in values.items() if value not in (None, "", [], False)}


def _crops(tables: Tables) -> dict[str, Any]:
    best = {(r.crop_id, r.part): r.best_step for r in tables.ladder if r.condition == "sound"}
    old = {r.crop_id: r.after_days for r in tables.ladder if r.condition == "old"}
    stored = [(crop.crop_id, crop.kind, crop.stored_part, crop.feed_crop_id) for crop in tables.crops]
    in_hand = [(kind.id, kind.kind, kind.stored_part, kind.feed_crop_id) for kind in tables.in_hand]
    mixed = [("any_produce", "mixed", "mixed scraps", "any_produce")]
    return {
        crop: _given(
            feeds_as=feeds_as,
            stored_part=part,
            starts_at=best[crop, part],
            kind=kind,
            old_after_days=old.get(crop),
        )
        for crop, kind, part, feeds_as in [*stored, *in_hand, *mixed]
    }


def _findings(tables: Tables) -> dict[str, Any]:
    words = feed_words(tables)
    states = {state: {"kind": "state", "feeds_as": words[state]} for state in ids.STATES}
    return {
        f.id: _given(kind=f.kind, broader=f.broader, feeds_as=words[f.id]) for f in tables.findings
    } | states


def _ladder(tables: Tables) -> dict[str, Any]:
    crops: dict[str, dict[str, dict[str, Any]]] = defaultdict(lambda: defaultdict(dict))
    for rung in tables.ladder:
        crops[rung.crop_id][rung.condition][rung.part] = _rung(rung)
    return {crop: {c: dict(parts) for c, parts in states.items()} for crop, states in crops.items()}


def _rung(rung: Rung) -> dict[str, Any]:
    return _given(
        steps=list(rung.steps),
        offered=list(rung.animals_offered),
        limited=list(rung.animals_limited),
        avoid=list(rung.animals_avoid),
        never=list(rung.animals_never),
        feed=list(rung.drawn_from),
        topic=rung.kitchen_topic,
        caution=bool(rung.caution),
    )


def _feed(tables: Tables) -> dict[str, Any]:
    grouped: dict[tuple[str, str, str], list[FeedSafety]] = defaultdict(list)
    for rule in tables.feed_safety:
        grouped[rule.crop_id, rule.crop_part, rule.condition].append(rule)
    fed: dict[str, list[dict[str, Any]]] = defaultdict(list)
    for (crop, part, condition), rules in grouped.items():
        fed[crop].append(
            {
                "crop": crop,
                "part": part,
                "parts": [word.strip() for word in part.split(",")],
                "condition": condition,
                "verdicts": {rule.animal: rule.verdict for rule in rules},
            }
        )
    return dict(fed)


def _law(tables: Tables) -> list[dict[str, Any]]:
    return [
        {
            "row": row_name("feeding_law", law),
            "countries": list(law.countries),
            "animals": list(law.animal_ids),
            "kitchen": law.kitchen,
        }
        for law in tables.feeding_law
    ]


def _soil(tables: Tables) -> list[dict[str, Any]]:
    return [
        {
            "id": row.id,
            "rows": [row_name("soil_diseases", row), f"kitchen_safety:{row.kitchen_topic}"],
            "findings": list(row.findings),
            "maybe": list(row.maybe),
            "carriers": list(row.carriers),
            "kin": list(row.kin),
        }
        for row in tables.soil_diseases
    ]


def _eaters(tables: Tables) -> list[dict[str, Any]]:
    return [
        {
            "row": row_name("eaters", row),
            "topic": row.kitchen_topic,
            "eater": eater,
            "crops": list(row.crops),
            "parts": list(row.parts),
            "conditions": list(row.conditions),
            "steps": list(row.steps),
        }
        for row in tables.eaters
        for eater in row.eaters
    ]
