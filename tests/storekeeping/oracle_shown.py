"""What the oracle tells of a lot as of a day: docs/fold.md F12 to F18 and the balance."""

from __future__ import annotations

import datetime as dt
from fractions import Fraction
from typing import Any

from tests.storekeeping.oracle_lot import Life
from tests.storekeeping.oracle_words import SMALL, STEPS, Case, Posting

Json = dict[str, Any]
BUCKETS = ["found", "eaten", "given", "seed", "shrink", "cured", "moved", "put_by", "unknown"]


def number(amount: Fraction | None) -> float | None:
    return None if amount is None else round(float(amount), 6)


def two(pair: list[Fraction | None]) -> Json:
    return {"pieces": number(pair[0]), "grams": number(pair[1])}


def shown_of(life: Life, today: dt.date, setting: Json) -> Json:
    known = known_as(life, today)
    shown = shown_amount(life, today, known)
    seed = [
        each if each is None or there is None else min(each, there)
        for each, there in zip(life.both(life.seed), shown, strict=True)
    ]
    held = held_by_suspects(life)
    food = [
        None if t is None or s is None or h is None else max(t - s - h, Fraction(0))
        for t, s, h in zip(shown, seed, held, strict=True)
    ]
    refuse = refuse_of(life, today)
    begins = 8 if setting["hemisphere"] == "north" else 2
    return {
        "crop": life.crop,
        "parent": life.parent,
        "space": life.space,
        "spot": life.spot,
        "pack": life.pack,
        "code": life.code,
        "curing": life.curing,
        "put_away_day": life.put_away_day.isoformat(),
        "born_day": life.birth.day.isoformat(),
        "winter": life.put_away_day.year - (life.put_away_day.month < begins),
        "pieces": number(life.there[0]),
        "grams": number(life.there[1]),
        "ratio": number(life.ratio),
        "own_measure": ("pieces", "grams")[life.own],
        "known": known,
        "shown": two(shown),
        "seed": two(seed),
        "held": two(held),
        "food": two(food),
        "edible_grams": number(None if food[1] is None or refuse is None else food[1] * (1 - refuse)),
        "asks_count": life.asks or any(each is not None and each < -SMALL for each in life.there),
        "finished": life.finished,
        "tallies": tallies_of(life.postings) | whole(life),
        "suspects": [case_told(case) for case in life.cases.values()],
        "standing": standing_of(life),
        "last_look": {"entry": life.last_look.id, "day": life.last_look.day.isoformat()},
        "last_count": {"entry": life.last_count.id} if life.last_count else None,
        "last_entry": {"entry": life.last_entry().id},
        "look_on": look_on(life),
    }


def known_as(life: Life, today: dt.date) -> str:
    if not life.finished and (today - life.last_entry().day).days >= life.silence():
        return "presumed"
    fresh = life.last_count is not None and (today - life.last_count.day).days <= 14
    return "counted" if fresh and life.counted_well else "worked_out"


def shown_amount(life: Life, today: dt.date, known: str) -> list[Fraction | None]:
    last = life.last_entry().day
    lately = [amount for day, amount in life.takes if 0 <= (last - day).days < 56]
    shown: list[Fraction | None] = []
    for i, there in enumerate(life.there):
        rate = Fraction(0)
        if known == "presumed" and len(lately) >= 2:
            rate = sum((amount[i] or Fraction(0) for amount in lately), Fraction(0)) / 56
        shown.append(None if there is None else max(there - rate * (today - last).days, Fraction(0)))
    return shown


def held_by_suspects(life: Life) -> list[Fraction | None]:
    held: list[Fraction | None] = [Fraction(0), Fraction(0)]
    for case in life.cases.values():
        if case.state() in ("open", "to_do"):
            amount = life.both((case.pieces, case.grams))
            held = [None if a is None or b is None else a + b for a, b in zip(held, amount, strict=True)]
    return held


def refuse_of(life: Life, today: dt.date) -> Fraction | None:
    """F14, as a walk along the points."""
    fresh, stored = life.figures.get("refuse_pct"), life.figures.get("refuse_stored", [])
    if fresh is None and not stored:
        return Fraction(0) if life.crop in ("frozen", "dried", "jar", "ferment") else None
    first = [
        Fraction(str(value)) for value in (fresh, *[each["pct"] for each in stored[:1]]) if value is not None
    ]
    points = [(Fraction(0), min(first))] if fresh is not None else [(Fraction(0), first[0])]
    points += [
        (Fraction(str(each["months"])) * Fraction("30.4"), Fraction(str(each["pct"]))) for each in stored
    ]
    age = Fraction(max((today - life.put_away_day).days, 0))
    before = [point for point in points if point[0] <= age][-1]
    after = [point for point in points if point[0] > age][:1]
    if not after:
        return before[1] / 100
    part = (age - before[0]) / (after[0][0] - before[0])
    return (before[1] + part * (after[0][1] - before[1])) / 100


def tallies_of(postings: list[Posting]) -> Json:
    weighed = [each for each in postings if each.grams is not None]
    sums: Json = {
        bucket: number(
            sum((each.grams or Fraction(0) for each in weighed if each.bucket == bucket), Fraction(0))
        )
        for bucket in BUCKETS
    }
    sums["steps"] = _sums([(each.way, each.grams) for each in weighed if each.way in STEPS])
    sums["unwritten"] = _sums([(each.bucket, each.grams) for each in weighed if each.by_count])
    sums["unweighed"] = _sums([(each.bucket, each.pieces) for each in postings if each.grams is None])
    return sums


def _sums(told: list[tuple[str, Fraction | None]]) -> Json:
    names = {name for name, amount in told if amount}
    return {
        name: number(sum((a or Fraction(0) for n, a in told if n == name), Fraction(0)))
        for name in sorted(names)
    }


def whole(life: Life) -> Json:
    """The balance, exactly: nothing comes from nowhere."""
    if life.always_weighed:
        gone = sum(
            (each.grams or Fraction(0) for each in life.postings if each.bucket != "found"), Fraction(0)
        )
        found = sum(
            (each.grams or Fraction(0) for each in life.postings if each.bucket == "found"), Fraction(0)
        )
        left_out = (life.start[1] or Fraction(0)) + found - (life.there[1] or Fraction(0)) - gone
        if abs(left_out) > Fraction(1, 20):
            raise AssertionError(f"the oracle's balance of {life.birth.id} is out by {float(left_out)}")
    return {"whole": life.always_weighed, "put_away": number(life.start[1]), "there": number(life.there[1])}


def case_told(case: Case) -> Json:
    standing = case.standing()
    return {
        "id": case.told.id,
        "state": case.state(),
        "decisions": [
            {"id": each.id, "stands": each is standing, "done": each.id == case.done_by}
            for each in case.decisions
        ],
    }


def standing_of(life: Life) -> list[Json]:
    standing = [
        _standing(finding, entry, pieces, looked, False) for finding, pieces, looked, entry in life.findings
    ]
    looked = life.last_look.body.get("looked")
    among = life.there[0] if looked is None else Fraction(looked)
    for case in life.cases.values():
        if case.state() == "open":
            standing += [
                _standing(finding, case.told.id, case.pieces, among, True)
                for finding in case.told.body["findings"]
            ]
    return standing


def _standing(
    finding: str, entry: str, pieces: Fraction | None, looked: Fraction | None, suspect: bool
) -> Json:
    share = None if pieces is None or looked is None or looked <= 0 else min(pieces / looked, Fraction(1))
    return {"finding": finding, "entry": entry, "share": number(share), "suspect": suspect}


def look_on(life: Life) -> str | None:
    days = [
        standing.body["look_on"]
        for case in life.cases.values()
        if case.state() in ("kept", "to_do") and (standing := case.standing()) and "look_on" in standing.body
    ]
    return min((day for day in days if dt.date.fromisoformat(day) > life.last_look.day), default=None)
