"""What state a piece is in, and which rows of the ladder speak of it.

Twin: `frontend/src/storekeeping/conditions.ts`. Rules told in docs/ladder.md.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from homestead.storekeeping.rules import STEPS, Question, Rules

NOT_KNOWN = "not_known"
ANY = "any_produce"
SOUND_PART = "sound part"
#: kinds of crop that the fall-back rows, written for fresh produce, may call food
PRODUCE = frozenset(
    ("tuber", "root", "bulb", "stalk", "head", "bud", "leaf", "stem", "fruit", "vegetable", "own")
)
OWN_CROP = {"stored_part": "piece", "starts_at": "raw", "kind": "own"}

LadderRow = Mapping[str, Any]


@dataclass(frozen=True)
class Selected:
    """Ladder rows by name for one condition: those that tell people, and those that hold for animals."""

    people: Mapping[str, LadderRow]
    animals: Mapping[str, LadderRow]


def crop_rule(rules: Rules, crop: str) -> Mapping[str, Any]:
    """The crop's entry; a household's own crop has no rows and is taken for fresh produce."""
    known: Mapping[str, Any] = rules["crops"].get(crop, OWN_CROP)
    return known


def conditions_of(rules: Rules, question: Question) -> list[str]:
    """Findings and states, each once: `unsure` where nothing is said, `old` by age, `sound` only alone."""
    found = list(dict.fromkeys(question["findings"])) or ["unsure"]
    age, old_after = question.get("age_days"), crop_rule(rules, question["crop"]).get("old_after_days")
    if age is not None and old_after is not None and age > old_after and "old" not in found:
        found.append("old")
    return [f for f in found if f != "sound"] or ["sound"]


def is_spoilt(rules: Rules, condition: str) -> bool:
    """Rot and mould of any kind: to no animal, whatever else is written."""
    return bool(rules["findings"].get(condition, {}).get("kind") == "rot")


def rows_for(rules: Rules, crop: str, condition: str) -> dict[str, LadderRow]:
    """Rows by part for a condition: the crop's own, else by the broader word, else the fall-back; keys are
    row names. Empty: nobody has written what this is good for."""
    broader = rules["findings"].get(condition, {}).get("broader")
    words = [condition, broader] if broader else [condition]
    for word in words:
        if rows := rules["ladder"].get(crop, {}).get(word):
            return _named(crop, word, rows)
    if condition == "sound" or crop == ANY:
        return {}
    for word in words:
        if rows := rules["ladder"][ANY].get(word):
            return _as_fall_back(rules, crop, _named(ANY, word, rows))
    return {}


def _named(crop: str, condition: str, rows: Mapping[str, LadderRow]) -> dict[str, LadderRow]:
    return {f"ladder:{crop}/{part}/{condition}": row for part, row in rows.items()}


def _as_fall_back(rules: Rules, crop: str, rows: dict[str, LadderRow]) -> dict[str, LadderRow]:
    """The fall-back tells of fresh produce; of eggs, jars, nuts and seeds it may only say what is thrown
    out."""
    if crop_rule(rules, crop)["kind"] in PRODUCE:
        return rows
    return {name: row for name, row in rows.items() if STEPS.index(row["steps"][0]) >= STEPS.index("compost")}


def part_in(name: str) -> str:
    """The part that a ladder row's name speaks of."""
    return name.split("/")[1]


def is_whole(part: str | None, stored_part: str) -> bool:
    """The piece as stored, or what is left of it once the bad is cut away."""
    return part is None or part in (stored_part, SOUND_PART)


def select(rules: Rules, crop: str, part: str | None, condition: str) -> Selected | None:
    """The rows that hold for a part, None when nothing is known.

    A whole piece is judged for people by what remains of it, for animals by all that was found on it. A
    part that is not known, or has no row of its own in this state, is judged by all rows, and by its own
    sound row.
    """
    rows = rows_for(rules, crop, condition)
    if not rows:
        return None
    by_part = {part_in(name): name for name in rows}
    if part is not None and part in by_part:
        own = {by_part[part]: rows[by_part[part]]}
        return Selected(people=own, animals=own)
    stored = crop_rule(rules, crop)["stored_part"]
    if part is None or part == stored:
        kept = next((by_part[p] for p in (stored, SOUND_PART) if p in by_part), None)
        remains = {kept: rows[kept]} if kept else rows
        return Selected(people=remains, animals=remains if _is_state(rules, condition) else rows)
    sound = _named(crop, "sound", rules["ladder"].get(crop, {}).get("sound", {}))
    joined = rows | {name: row for name, row in sound.items() if part_in(name) == part}
    return Selected(people=joined, animals=joined)


def _is_state(rules: Rules, condition: str) -> bool:
    """Sound, old, cooked: said of all of it, so that its other parts are another matter."""
    return bool(rules["findings"].get(condition, {}).get("kind") == "state")


def is_listed(rules: Rules, crop: str, part: str | None) -> bool:
    """Does the ladder know this part of the crop at all?"""
    if part is None or part in (NOT_KNOWN, SOUND_PART, "bad part"):
        return True
    states: Sequence[Mapping[str, LadderRow]] = list(rules["ladder"].get(crop, {}).values())
    return any(part in parts for parts in states) or part == crop_rule(rules, crop)["stored_part"]
