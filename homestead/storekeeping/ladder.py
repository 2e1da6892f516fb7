"""The use ladder: what is left to do with a piece, in order, each use with its caution and where it is from.

Twin: `frontend/src/storekeeping/ladder.ts`. Both run `fixtures/vectors/ladder*.json`. Rules told in
docs/ladder.md.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

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


def uses_of(rules: Rules, question: Question, groups: Sequence[Group] = (), law: Law | None = None) -> Uses:
    """All uses left for what is asked about, and those withheld with the reason; the strictest rule holds."""
    conditions = conditions_of(rules, question)
    animals = [may_feed(rules, question, group, law) for group in groups]
    found = [(c, select(rules, question["crop"], question.get("part"), c)) for c in conditions]
    rows = {name: row for _, selected in found if selected for name, row in selected.people.items()}
    known = "unsure" not in conditions and all(selected for _, selected in found)
    known = known and is_listed(rules, question["crop"], question.get("part"))
    steps = _left(rules, question, rows, known, animals)
    return {
        "known": known,
        "steps": [_allowed(rules, question, conditions, step, rows, steps) for step in steps],
        "withheld": _withheld(rules, question, conditions, rows, known, steps, animals),
        "animals": animals,
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


def _left(
    rules: Rules,
    question: Question,
    rows: Mapping[str, LadderRow],
    known: bool,
    animals: Sequence[FeedAnswer],
) -> list[Step]:
    """The steps that every row leaves, none above where the crop begins, food only where it is known."""
    common = set.intersection(*({*row["steps"], "bin"} for row in rows.values())) if rows else set(LAST)
    named = {step for row in rows.values() for step in row["steps"]} or set(LAST)
    left = {s for s in common if s != "animals" and (s != "bin" or "bin" in named or common == {"bin"})}
    if not known:
        left -= set(FOOD)
    rule = crop_rule(rules, question["crop"])
    if is_whole(question.get("part"), rule["stored_part"]):
        left -= set(STEPS[: STEPS.index(rule["starts_at"])])
    if any(answer["offered"] for answer in animals):
        left.add("animals")
    return [step for step in STEPS if step in left or (step == "bin" and not left)]


def _allowed(
    rules: Rules,
    question: Question,
    conditions: Sequence[str],
    step: Step,
    rows: Mapping[str, LadderRow],
    steps: Sequence[Step],
) -> Allowed:
    cautions = [name for name, row in rows.items() if row.get("caution")]
    if step in FOOD or not set(FOOD).intersection(steps):
        cautions += [f"kitchen_safety:{row['topic']}" for row in rows.values() if row.get("topic")]
    return {
        "step": step,
        "rows": list(rows),
        "cautions": list(dict.fromkeys(cautions)),
        "not_for": _not_for(rules, question, conditions, step),
    }


def _not_for(rules: Rules, question: Question, conditions: Sequence[str], step: Step) -> list[NotFor]:
    """Those at table who must not have it at this step."""
    part, at_table = question.get("part"), question.get("eaters", ())
    return [
        {"eater": rule["eater"], "row": rule["row"]}
        for rule in rules["eaters"]
        if rule["eater"] in at_table
        and step in rule["steps"]
        and (not rule["crops"] or question["crop"] in rule["crops"])
        and (not rule["parts"] or part == NOT_KNOWN or part in rule["parts"])
        and (not rule["conditions"] or set(rule["conditions"]).intersection(conditions))
    ]


def _withheld(
    rules: Rules,
    question: Question,
    conditions: Sequence[str],
    rows: Mapping[str, LadderRow],
    known: bool,
    steps: Sequence[Step],
    animals: Sequence[FeedAnswer],
) -> list[Withheld]:
    """Each step that is not left, with the reason; the bin is no use to withhold."""
    rule = crop_rule(rules, question["crop"])
    whole = is_whole(question.get("part"), rule["stored_part"])
    withheld: list[Withheld] = []
    for index, step in enumerate(STEPS[:-1]):
        if step in steps or (step == "animals" and not animals):
            continue
        if step == "animals":
            reasons = [row for answer in animals for row in answer["rows"]]
            withheld.append({"step": step, "code": "no_animal", "rows": list(dict.fromkeys(reasons))})
        elif whole and index < STEPS.index(rule["starts_at"]):
            start = f"ladder:{question['crop']}/{rule['stored_part']}/sound"
            withheld.append({"step": step, "code": "begins_below", "rows": [start]})
        elif "unsure" in conditions and step in FOOD:
            withheld.append({"step": step, "code": "unsure", "rows": []})
        elif not known and step in FOOD:
            withheld.append({"step": step, "code": "not_known", "rows": list(rows)})
        else:
            against = [name for name, row in rows.items() if step not in row["steps"]]
            withheld.append({"step": step, "code": "table", "rows": against})
    return withheld
