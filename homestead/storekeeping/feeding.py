"""What may go to which animal: the feed rules, the law and fold F20 in one answer.

Twin: `frontend/src/storekeeping/feeding.ts`. The server's check at push and the phone's forms ask the same
functions, so that what one offers the other never refuses.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from homestead.storekeeping.conditions import (
    ANY,
    NOT_KNOWN,
    LadderRow,
    conditions_of,
    crop_rule,
    is_spoilt,
    is_whole,
    select,
)
from homestead.storekeeping.law import from_a_kitchen, kept_in, law_refuses
from homestead.storekeeping.rules import FeedAnswer, Group, Law, Question, Refusal, Rules, Verdict

#: parts of a feed rule that mean every part
EVERY_PART = frozenset(("any", "all", "all parts"))


@dataclass(frozen=True)
class _Borne:
    """A feed rule that speaks of the piece in question."""

    row: str
    verdict: str
    of_the_crop: bool


@dataclass(frozen=True)
class _Asked:
    """What is asked, with what every step of the answer needs of it."""

    rules: Rules
    question: Question
    group: Group
    law: Law | None
    conditions: Sequence[str]


def may_feed(rules: Rules, question: Question, group: Group, law: Law | None = None) -> FeedAnswer:
    """May this group have it? The first of these that says no: fold F20, the tables, the law; then what is to
    be avoided, then the limits that count."""
    asked = _Asked(rules, question, group, law, conditions_of(rules, question))
    return (
        _barred_by_state(asked)
        or _barred_by_tables(asked)
        or _barred_by_law(asked)
        or _better_not(asked)
        or _offered(asked)
    )


def check_went(
    rules: Rules,
    went: Mapping[str, Any],
    *,
    crop: str | None,
    findings: Sequence[str],
    whole: bool,
    groups: Mapping[str, Group],
    law: Law | None,
) -> Refusal | None:
    """Why this `went` (fold section 2, W) must not be written, or None.

    `whole`: the piece left its lot uncut (take, cull, out of a round, decision): then an absent `cut_in`
    means it never saw a kitchen and an absent `part` the whole piece; else both are not known. `groups` by
    id (text). A went with `accident` is never refused here: it tells what happened; who may write it is the
    caller's to ask. `crop` None: mixed scraps.
    """
    if went["step"] != "animals" or went.get("accident"):
        return None
    question = _question(went, crop or ANY, findings, whole)
    for group in _fed(rules, went, groups):
        answer = may_feed(rules, question, group, law)
        if answer["refused"]:
            return {
                "code": answer["code"],
                "kind": group["kind"],
                "crop": question["crop"],
                "rows": answer["rows"],
            }
    return None


def _question(went: Mapping[str, Any], crop: str, findings: Sequence[str], whole: bool) -> Question:
    mixed_or_whole = whole or crop == ANY
    return {
        "crop": crop,
        "part": went.get("part") or (None if mixed_or_whole else NOT_KNOWN),
        "findings": list(findings),
        "cut_in": went.get("cut_in") or ("store" if whole else None),
    }


def _fed(rules: Rules, went: Mapping[str, Any], groups: Mapping[str, Group]) -> list[Group]:
    """Whom it went to: the group named, else each group kept, else every kind the tables know."""
    if named := went.get("animals"):
        return [groups.get(str(named), {"kind": NOT_KNOWN})]
    return list(groups.values()) or [{"kind": kind} for kind in rules["animals"]]


def _refused(
    group: Group, verdict: Verdict, code: str, rows: list[str], *, at_push: bool = True
) -> FeedAnswer:
    return {
        "kind": group["kind"],
        "verdict": verdict,
        "offered": False,
        "refused": at_push,
        "code": code,
        "rows": list(dict.fromkeys(rows)),
        "limits": [],
    }


def _barred_by_state(asked: _Asked) -> FeedAnswer | None:
    """Fold F20, and the states that no animal's feed is in."""
    rules, group, conditions = asked.rules, asked.group, asked.conditions
    if not asked.question["findings"]:
        return _refused(group, "never", "findings_needed", [])
    if "unsure" in conditions:
        return _refused(group, "never", "unsure", [])
    if spoilt := [c for c in conditions if is_spoilt(rules, c)]:
        words = {rules["findings"][c]["feeds_as"] for c in spoilt}
        rows = [f"feed_safety:{group['kind']}/{ANY}/any/{word}" for word in sorted(words)]
        return _refused(group, "never", "rot_or_mould", rows + _own_nevers(asked))
    for state in ("spent", "treated"):
        if state in conditions:
            return _refused(group, "never", state, [f"ladder:{ANY}/piece/{state}"])
    if group.get("withheld"):
        return _refused(group, "never", "withheld", ["kitchen_safety:treated_birds"])
    if kept_in(asked.law, group):
        return _refused(group, "never", "housing_order", ["kitchen_safety:housing_order"])
    return None


def _ladder_rows(asked: _Asked) -> dict[str, LadderRow] | None:
    """All ladder rows that hold for animals; None when one state is not known."""
    question = asked.question
    rows: dict[str, LadderRow] = {}
    for condition in asked.conditions:
        selected = select(asked.rules, question["crop"], question.get("part"), condition)
        if selected is None:
            return None
        rows |= selected.animals
    return rows


def _borne_by(asked: _Asked, rows: Mapping[str, LadderRow]) -> list[_Borne]:
    """Feed rules for this kind of animal that speak of crop, part and state."""
    rules, question, kind = asked.rules, asked.question, asked.group["kind"]
    fed = crop_rule(rules, question["crop"]).get("feeds_as")
    words = {rules["findings"].get(c, {}).get("feeds_as", "sound") for c in asked.conditions} | {"any"}
    if "cooked" not in words:
        words.add("sound")
    drawn_from = {name for row in rows.values() for name in row.get("feed", ())}
    found = []
    for table in dict.fromkeys((fed, ANY)):
        for rule in rules["feed"].get(table, ()):
            verdict = rule["verdicts"].get(kind)
            if not verdict:
                continue
            name = f"{rule['crop']}/{rule['part']}/{rule['condition']}"
            speaks = rule["condition"] in words and _same_part(rules, question, rule, verdict)
            if name in drawn_from or speaks:
                found.append(_Borne(f"feed_safety:{kind}/{name}", verdict, rule["crop"] == fed))
    return found


def _same_part(rules: Rules, question: Question, rule: Mapping[str, Any], verdict: str) -> bool:
    """A rule of the whole piece holds for a part of it only where it is a never."""
    part, parts = question.get("part"), rule["parts"]
    if EVERY_PART.intersection(parts):
        return True
    if rule["crop"] == ANY and question["crop"] != ANY:
        return False
    stored = crop_rule(rules, question["crop"])["stored_part"]
    if part == NOT_KNOWN or part in parts:
        return True
    whole = is_whole(part, stored)
    return (whole and stored in parts) or ("whole" in parts and (whole or verdict == "never"))


def _own_nevers(asked: _Asked) -> list[str]:
    """What the crop's own rules say never to, beside the rule for any produce."""
    borne = _borne_by(asked, _ladder_rows(asked) or {})
    return [rule.row for rule in borne if rule.of_the_crop and rule.verdict == "never"]


def _named_in(rows: Mapping[str, LadderRow], column: str, kind: str) -> list[str]:
    return [name for name, row in rows.items() if kind in row.get(column, ())]


def _barred_by_tables(asked: _Asked) -> FeedAnswer | None:
    group = asked.group
    rows = _ladder_rows(asked)
    borne = _borne_by(asked, rows or {})
    never = [rule.row for rule in borne if rule.verdict == "never"]
    never += _named_in(rows or {}, "never", group["kind"])
    if never:
        return _refused(group, "never", "never", never)
    if rows is None or not any(rule.of_the_crop for rule in borne):
        return _refused(group, "not_known", "not_known", list(rows or {}))
    return None


def _barred_by_law(asked: _Asked) -> FeedAnswer | None:
    kind = crop_rule(asked.rules, asked.question["crop"])["kind"]
    if not from_a_kitchen(asked.question, kind, asked.conditions):
        return None
    refused = law_refuses(asked.rules, asked.law, asked.group["kind"], animal_matter=kind == "animal")
    return _refused(asked.group, "never", *refused) if refused else None


def _better_not(asked: _Asked) -> FeedAnswer | None:
    """What the tables avoid or the ladder does not offer: no choice on a form, and no refusal at push."""
    kind = asked.group["kind"]
    rows = _ladder_rows(asked) or {}
    avoid = [rule.row for rule in _borne_by(asked, rows) if rule.verdict == "avoid"]
    avoid += _named_in(rows, "avoid", kind)
    avoid += [name for name, row in rows.items() if kind not in row.get("offered", ())]
    return _refused(asked.group, "avoid", "avoid", avoid, at_push=False) if avoid else None


def _offered(asked: _Asked) -> FeedAnswer:
    kind = asked.group["kind"]
    rows = _ladder_rows(asked) or {}
    borne = _borne_by(asked, rows)
    limits = [rule.row for rule in borne if rule.verdict == "limited"]
    limits += _named_in(rows, "limited", kind)
    return {
        "kind": kind,
        "verdict": "limited" if limits else "good",
        "offered": True,
        "refused": False,
        "rows": list(dict.fromkeys([*rows, *(rule.row for rule in borne)])),
        "limits": list(dict.fromkeys(limits)),
    }
