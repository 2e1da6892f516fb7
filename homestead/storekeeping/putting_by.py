"""What may be put by: frozen, dried, fermented, jarred. Only sound pieces; docs/ladder.md, L14.

Twin: `frontend/src/storekeeping/putting_by.ts`. Both run `fixtures/vectors/put_by.json`. The form asks it of
what is in hand.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from homestead.storekeeping.conditions import conditions_of, is_spoilt, select
from homestead.storekeeping.rules import Rules

#: states that end a piece's keeping, whatever its rows say: cut back, thawed, drawn out, dressed
NEVER = frozenset(("trimmed", "thawed", "spent", "treated"))
#: the topic of rows that speak of the poison that outlives heat
PATULIN = "mould_apple_patulin"
#: rows shown for the reasons that no row of the crop tells
FIRM_MOULD = "kitchen_safety:mould_firm_produce"
PATULIN_ROW = f"kitchen_safety:{PATULIN}"
GNAWED = "gnawed"


def may_put_by(rules: Rules, crop: str, findings: Sequence[str]) -> dict[str, Any]:
    """`{allowed, rows}`, and where it is not allowed `code`: unsure, spoilt, patulin, not_sound, not_known.

    crop: of the tables. findings: of the pieces as they are to be put by, `sound` where nothing is on them.
    """
    conditions = conditions_of(rules, {"crop": crop, "findings": list(findings)})
    if "unsure" in conditions:
        return _refused("unsure", [])
    rows = _rows(rules, crop, conditions)
    if any(row.get("topic") == PATULIN for row in (rows or {}).values()):
        return _refused("patulin", [*(rows or {}), PATULIN_ROW])
    if any(is_spoilt(rules, condition) for condition in conditions):
        return _refused("spoilt", [*(rows or {}), FIRM_MOULD])
    if rows is None:
        return _refused("not_known", [])
    worn = NEVER.intersection(conditions) or GNAWED in conditions
    if worn or not all({"raw", "cook"}.intersection(row["steps"]) for row in rows.values()):
        return _refused("not_sound", list(rows))
    return {"allowed": True, "rows": list(rows)}


def _rows(rules: Rules, crop: str, conditions: Sequence[str]) -> Mapping[str, Any] | None:
    """What holds for people of the whole piece in all these states; None when one state is not known."""
    rows: dict[str, Any] = {}
    for condition in conditions:
        selected = select(rules, crop, None, condition)
        if selected is None:
            return None
        rows |= selected.people
    return rows


def _refused(code: str, rows: Sequence[str]) -> dict[str, Any]:
    return {"allowed": False, "code": code, "rows": list(dict.fromkeys(rows))}
