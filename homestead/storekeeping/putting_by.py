"""What may be put by: frozen, dried, fermented, jarred. Only sound pieces; docs/ladder.md, L14.

Twin: `frontend/src/storekeeping/putting_by.ts`. Both run `fixtures/vectors/put_by.json`. The form asks it of
what is in hand and of what the fold knows of the lot, and the push asks it again.
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
#: a piece left behind may weigh half of the lot's mean; the project's own figure
LIGHTER = 0.5
#: rounding, in pieces or grams
NEAR = 0.01


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


def may_put_by_of_lot(
    rules: Rules,
    crop: str,
    told: Sequence[str] | None,
    amount: Mapping[str, Any],
    lot: Mapping[str, Any],
) -> dict[str, Any]:
    """`may_put_by` of some of a lot, by what was told of these pieces and what stands on the lot.

    told: findings of the pieces put by; None: an older phone told none. amount: `pieces`, `grams`, either
    may be absent. lot: `pieces`, `grams`, `ratio` and `standing` as the fold says. A finding that nobody
    numbered holds for all pieces unless these were looked at; a numbered one for so many, and they stay.
    """
    if told is not None and not (answer := may_put_by(rules, crop, told))["allowed"]:
        return answer
    for seen in lot["standing"]:
        answer = may_put_by(rules, crop, [seen["finding"]])
        holds = told is None if seen["pieces"] is None else _takes_them_too(seen, amount, lot)
        if holds and not answer["allowed"]:
            return answer
    return may_put_by(rules, crop, told if told is not None else ["sound"])


def _takes_them_too(seen: Mapping[str, Any], amount: Mapping[str, Any], lot: Mapping[str, Any]) -> bool:
    """Does the amount leave fewer pieces behind than the finding was seen on?"""
    if (seen["share"] or 0) >= 1:
        return True
    pieces, grams = amount.get("pieces"), amount.get("grams")
    if pieces is not None and lot["pieces"] is not None:
        return bool(lot["pieces"] - pieces < seen["pieces"] - NEAR)
    if grams is None or lot["grams"] is None or lot["ratio"] is None:
        return False
    return bool(lot["grams"] - grams < seen["pieces"] * lot["ratio"] * LIGHTER - NEAR)


def may_be_trimmed_off(rules: Rules, crop: str, findings: Sequence[str]) -> dict[str, Any]:
    """Of what was cut off pieces that are put by: was it rot or mould, or nobody could say, they are not."""
    answer = may_put_by(rules, crop, findings) if findings else {"allowed": True, "rows": []}
    return answer if answer.get("code") in ("unsure", "spoilt", "patulin") else {"allowed": True, "rows": []}


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
