"""The use ladder: what is left to do with a piece, in order, each use with its caution and where it is from.

Twin: `frontend/src/storekeeping/ladder.ts`. Both run `fixtures/vectors/ladder*.json`. Rules told in
docs/ladder.md.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from homestead.storekeeping.conditions import (
    NOT_KNOWN,
    LadderRow,
    conditions_of,
    crop_rule,
    is_listed,
    is_whole,
    part_in,
    rows_for,
    select,
)
from homestead.storekeeping.feeding import may_feed
from homestead.storekeeping.rules import (
    STEPS,
    Allowed,
    FeedAnswer,
    Group,
    Law,
    NotFor,
    Question,
    Rules,
    Rung,
    Standing,
    Step,
    Uses,
    Withheld,
)

FOOD: tuple[Step, ...] = ("raw", "cook", "pot")
LAST: tuple[Step, ...] = ("compost", "bin")
#: from this share of the looked on a finding lowers a lot's rung (fold F18; the project's own figure)
SHARE_THAT_COUNTS = 0.25


@dataclass(frozen=True)
class _Found:
    """What is asked, and what was found for it."""

    rules: Rules
    question: Question
    conditions: Sequence[str]
    rows: Mapping[str, LadderRow]
    known: bool
    animals: Sequence[FeedAnswer]


def uses_of(rules: Rules, question: Question, groups: Sequence[Group] = (), law: Law | None = None) -> Uses:
    """All uses left for what is asked about, and those withheld with the reason; the strictest rule holds."""
    crop, part = question["crop"], question.get("part")
    conditions = conditions_of(rules, question)
    selected = [select(rules, crop, part, condition) for condition in conditions]
    found = _Found(
        rules=rules,
        question=question,
        conditions=conditions,
        rows={name: row for one in selected if one for name, row in one.people.items()},
        known="unsure" not in conditions and None not in selected and is_listed(rules, crop, part),
        animals=[may_feed(rules, question, group, law) for group in groups],
    )
    steps = _left(found)
    return {
        "known": found.known,
        "steps": [_allowed(found, step, steps) for step in steps],
        "withheld": _withheld(found, steps),
        "animals": list(found.animals),
    }


def parts_of(rules: Rules, crop: str, findings: Sequence[str]) -> list[str]:
    """Parts the table tells apart for this crop in this state, the stored part first."""
    stored = crop_rule(rules, crop)["stored_part"]
    conditions = conditions_of(rules, {"crop": crop, "findings": findings})
    parts = [part_in(name) for c in conditions for name in rows_for(rules, crop, c)]
    return sorted(dict.fromkeys(parts), key=lambda part: part != stored)


def rung_of(rules: Rules, crop: str, standing: Sequence[Standing]) -> Rung:
    """Where a lot stands on the ladder (fold F18): best step of the stored part, lowered by standing
    findings."""
    rung = turning = STEPS.index(crop_rule(rules, crop)["starts_at"])
    for seen in standing:
        best = _best_of_what_is_left(rules, crop, seen["finding"])
        turning = max(turning, best)
        share = seen.get("share")
        if share is None or share >= SHARE_THAT_COUNTS:
            rung = max(rung, best)
    return {"rung": STEPS[rung], "turning": STEPS[turning]}


def _best_of_what_is_left(rules: Rules, crop: str, finding: str) -> int:
    """Index of the best step of a piece with this finding; 0, no lower than it was, where nothing is
    known."""
    selected = select(rules, crop, None, finding) if finding != "unsure" else None
    if selected is None:
        return 0
    return max(STEPS.index(row["steps"][0]) for row in selected.people.values())


def _begins_at(found: _Found) -> int:
    """Index of the step a whole piece of the crop begins at; parts have their own rows."""
    rule = crop_rule(found.rules, found.question["crop"])
    whole = is_whole(found.question.get("part"), rule["stored_part"])
    return STEPS.index(rule["starts_at"]) if whole else 0


def _left(found: _Found) -> list[Step]:
    """The steps that every row leaves, none above where the crop begins, food only where it is known."""
    rows = [set(row["steps"]) for row in found.rows.values()] or [set(LAST)]
    named = set.union(*rows)
    common = set.intersection(*(steps | {"bin"} for steps in rows))
    left = common - {"animals"} - set(STEPS[: _begins_at(found)])
    if "bin" not in named and common != {"bin"}:
        left -= {"bin"}
    if not found.known:
        left -= set(FOOD)
    if any(answer["offered"] for answer in found.animals):
        left |= {"animals"}
    return [step for step in STEPS if step in left] or ["bin"]


def _allowed(found: _Found, step: Step, steps: Sequence[Step]) -> Allowed:
    rows = found.rows
    cautions = [name for name, row in rows.items() if row.get("caution")]
    if step in FOOD or not set(FOOD).intersection(steps):
        cautions += [f"kitchen_safety:{row['topic']}" for row in rows.values() if row.get("topic")]
    return {
        "step": step,
        "rows": list(rows),
        "cautions": list(dict.fromkeys(cautions)),
        "not_for": _not_for(found, step),
    }


def _not_for(found: _Found, step: Step) -> list[NotFor]:
    """Those at table who must not have it at this step."""
    question = found.question
    part, at_table = question.get("part"), question.get("eaters", ())
    return [
        {"eater": rule["eater"], "row": rule["row"]}
        for rule in found.rules["eaters"]
        if rule["eater"] in at_table
        and step in rule["steps"]
        and (not rule["crops"] or question["crop"] in rule["crops"])
        and (not rule["parts"] or part == NOT_KNOWN or part in rule["parts"])
        and (not rule["conditions"] or set(rule["conditions"]).intersection(found.conditions))
    ]


def _withheld(found: _Found, steps: Sequence[Step]) -> list[Withheld]:
    """Each step that is not left, with the reason; the bin is no use to withhold."""
    gone = [step for step in STEPS[:-1] if step not in steps and (step != "animals" or found.animals)]
    return [_reason(found, step) for step in gone]


def _reason(found: _Found, step: Step) -> Withheld:
    rows = found.rows
    if step == "animals":
        named = [row for answer in found.animals for row in answer["rows"]]
        return {"step": step, "code": "no_animal", "rows": list(dict.fromkeys(named))}
    if STEPS.index(step) < _begins_at(found):
        crop = found.question["crop"]
        start = f"ladder:{crop}/{crop_rule(found.rules, crop)['stored_part']}/sound"
        return {"step": step, "code": "begins_below", "rows": [start]}
    if step in FOOD and "unsure" in found.conditions:
        return {"step": step, "code": "unsure", "rows": []}
    if step in FOOD and not found.known:
        return {"step": step, "code": "not_known", "rows": list(rows)}
    against = [name for name, row in rows.items() if step not in row["steps"]]
    return {"step": step, "code": "table", "rows": against}
