"""Random questions for the ladder and the feed rules, the same in both languages.

Twin: `frontend/src/storekeeping/ladder_twins.test.ts`. The numbers come from the minimal standard generator
of Park and Miller (x -> 48271 x mod 2^31 - 1), whose products fit the doubles of both languages.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

from homestead.storekeeping.conditions import part_in, rows_for
from homestead.storekeeping.rules import Rules

T = TypeVar("T")

LAWS: tuple[dict[str, Any] | None, ...] = (
    None,
    {"country": "AT", "confirmed": True, "kitchen_to": ["laying_hen", "pig"]},
    {"country": "NZ", "confirmed": True, "kitchen_to": ["laying_hen", "duck", "pig", "goat", "rabbit"]},
    {"country": "NZ", "confirmed": False, "kitchen_to": ["laying_hen"]},
    {"country": "AU", "confirmed": True, "kitchen_to": ["laying_hen", "pig"]},
    {"country": "AU-QLD", "confirmed": True, "kitchen_to": ["laying_hen", "goat"]},
    {"country": "CA", "confirmed": True, "kitchen_to": ["laying_hen", "pig", "rabbit"]},
    {"country": "CH", "confirmed": True, "kitchen_to": ["laying_hen"]},
)
CUT_IN = ("store", "yard", "kitchen", None)
EATERS = ("infant", "small_child", "pregnant", "old", "ill", "no_nuts")


@dataclass
class Dice:
    state: int

    def roll(self, sides: int) -> int:
        self.state = self.state * 48271 % 2147483647
        return self.state % sides

    def pick(self, of: Sequence[T]) -> T:
        return of[self.roll(len(of))]


def combinations(rules: Rules, seed: int, count: int) -> Iterator[dict[str, Any]]:
    """`count` questions with groups, law and a `went`; crops, parts and findings that go together and
    that don't."""
    dice = Dice(seed)
    crops = [*rules["crops"], "own_crop"]
    findings = list(rules["findings"])
    kinds = [*rules["animals"], "goose"]
    for _ in range(count):
        yield _combination(rules, dice, crops, findings, kinds)


def _combination(
    rules: Rules, dice: Dice, crops: Sequence[str], findings: Sequence[str], kinds: Sequence[str]
) -> dict[str, Any]:
    crop = dice.pick(crops)
    found = _findings(rules, dice, crop, findings)
    part = _part(rules, dice, crop, found)
    groups = [{"kind": dice.pick(kinds)} for _ in range(1 + dice.roll(3))]
    if dice.roll(20) == 0:
        groups[0] = {**groups[0], "withheld": True}
    question = {
        "crop": crop,
        "part": part,
        "findings": found,
        "age_days": dice.pick((None, 10, 100, 400)),
        "cut_in": dice.pick(CUT_IN),
        "eaters": [eater for eater in EATERS if dice.roll(4) == 0],
    }
    whole = dice.roll(2) == 0
    return {"question": question, "groups": groups, "law": dice.pick(LAWS), "whole": whole}


def _findings(rules: Rules, dice: Dice, crop: str, findings: Sequence[str]) -> list[str]:
    """Mostly what the ladder knows of this crop, now and then anything, several, or nothing."""
    own = list(rules["ladder"].get(crop, {})) or findings
    found = [dice.pick(own) if dice.roll(4) else dice.pick(findings) for _ in range(1 + dice.roll(8) // 6)]
    return [] if dice.roll(50) == 0 else found


def _part(rules: Rules, dice: Dice, crop: str, found: Sequence[str]) -> str | None:
    choice = dice.roll(6)
    if choice == 0:
        return "not_known"
    if choice == 1:
        return dice.pick(("core", "peel", "leaves", "bad part", "sound part"))
    parts = [part_in(name) for name in rows_for(rules, crop, found[0] if found else "sound")]
    return dice.pick(parts) if choice < 5 and parts else None
