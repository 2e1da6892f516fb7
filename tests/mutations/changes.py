"""Twenty deliberate mistakes, one a rule of docs/fold.md, each made in both twins.

Each must turn at least one vector red in each twin: vectors that let a rule be broken test nothing.
`before` stands exactly once in its file.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Patch:
    file: str
    before: str
    after: str


@dataclass(frozen=True)
class Change:
    rule: str
    mistake: str
    python: Patch
    typescript: Patch


CHANGES = [
    Change(
        "F1",
        "the skew is taken off instead of put on",
        Patch("order.py", "when_ms += skew_ms", "when_ms -= skew_ms"),
        Patch("order.ts", "when_ms += skew_ms", "when_ms -= skew_ms"),
    ),
    Change(
        "F2",
        "at one moment the phone's own numbers do not decide",
        Patch(
            "order.py",
            '(when_ms, written["device"], written["device_no"],',
            '(when_ms, written["device"], 0,',
        ),
        Patch("order.ts", "    one.written.device_no - other.written.device_no ||\n", ""),
    ),
    Change(
        "F3",
        "a struck strike strikes on",
        Patch(
            "order.py", "ready.append((events[target], not counts))", "ready.append((events[target], True))"
        ),
        Patch(
            "order.ts",
            "ready.push({ event: struck, counts: !counts })",
            "ready.push({ event: struck, counts: true })",
        ),
    ),
    Change(
        "F4",
        "what sorts before its suspect or decision is lost",
        Patch("order.py", "waiting.setdefault(ground, []).append(event)", "waiting.setdefault(ground, [])"),
        Patch("order.ts", "waiting.set(ground, [event])", "waiting.set(ground, [])"),
    ),
    Change(
        "F5",
        "the figure goes before what was weighed and counted",
        Patch("moving.py", "ratio=ratio_of(pieces, grams, piece_g),", "ratio=piece_g,"),
        Patch("moving.ts", "ratio: ratio_of(pieces, grams, piece_g),", "ratio: piece_g,"),
    ),
    Change(
        "F6",
        "the other measure is multiplied where it is divided",
        Patch("amounts.py", "else grams / ratio), grams", "else grams * ratio), grams"),
        Patch("amounts.ts", "null : grams / ratio, grams", "null : grams * ratio, grams"),
    ),
    Change(
        "F7",
        "the ratio stays as it was",
        Patch("amounts.py", "        return grams / pieces\n", "        return before\n"),
        Patch("amounts.ts", "grams > NEAR ? grams / pieces : before", "grams > NEAR ? before : before"),
    ),
    Change(
        "F8",
        "a trim takes a piece with it",
        Patch("leaving.py", "lot.lower(0.0, grams)", "lot.lower(1.0, grams)"),
        Patch("leaving.ts", "lot.lower(0, grams)", "lot.lower(1, grams)"),
    ),
    Change(
        "F9",
        "the way without a weight has all that left",
        Patch("amounts.py", "rest = (left - total) / open_ones", "rest = left / open_ones"),
        Patch("amounts.ts", "const rest = (left - total) / open_ones", "const rest = left / open_ones"),
    ),
    Change(
        "F10",
        "water lost in curing is not known",
        Patch("moving.py", '"cured" if lot.curing else "unknown"', '"unknown"'),
        Patch("moving.ts", "lot.curing ? 'cured' : 'unknown'", "'unknown'"),
    ),
    Change(
        "F11",
        "one tap on all sound is a count",
        Patch("counting.py", 'if body["counted"] and looked is not None:', "if looked is not None:"),
        Patch("counting.ts", "if (body.counted && looked !== null)", "if (looked !== null)"),
    ),
    Change(
        "F12",
        "what is short at the last is not found",
        Patch(
            "lot.py",
            "return max(there, leaving), max(leaving - there, 0.0)",
            "return max(there, leaving), 0.0",
        ),
        Patch("lot.ts", "found: Math.max(leaving - there, 0)", "found: 0"),
    ),
    Change(
        "F13",
        "suspects are food",
        Patch("showing.py", "max(there - seed - doubted, 0.0)", "max(there - seed, 0.0)"),
        Patch("showing.ts", "Math.max(there - seed - doubted, 0)", "Math.max(there - seed, 0)"),
    ),
    Change(
        "F14",
        "the fresh figure may be more than the next",
        Patch("edible.py", "min(fresh, stored[0][1])", "fresh"),
        Patch("edible.ts", "Math.min(fresh, first.pct)", "fresh"),
    ),
    Change(
        "F15",
        "a part does not take the pack it lay in",
        Patch("moving.py", "pack=lot.pack if pack is None else pack,", "pack=pack,"),
        Patch("moving.ts", "pack: body.pack ?? lot.pack,", "pack: body.pack ?? null,"),
    ),
    Change(
        "F16",
        "counted a day too long",
        Patch("known.py", "COUNTED_DAYS = 14", "COUNTED_DAYS = 15"),
        Patch("known.ts", "COUNTED_DAYS = 14", "COUNTED_DAYS = 15"),
    ),
    Change(
        "F17",
        "not looked at is a look",
        Patch(
            "counting.py",
            '    if body["way"] == "none":\n',
            '    lot.last_look = event\n    if body["way"] == "none":\n',
        ),
        Patch(
            "counting.ts",
            "if (body.way === 'none') return;",
            "lot.last_look = event; if (body.way === 'none') return;",
        ),
    ),
    Change(
        "F18",
        "what went out still stands",
        Patch("leaving.py", "else seen.pieces - pieces", "else seen.pieces"),
        Patch("leaving.ts", "? 0 : seen.pieces - pieces", "? 0 : seen.pieces"),
    ),
    Change(
        "F19",
        "the highest decision stands",
        Patch("suspects.py", "return max(doubt.decisions,", "return min(doubt.decisions,"),
        Patch("suspects.ts", "rank(decided) > rank(lowest)", "rank(decided) < rank(lowest)"),
    ),
    Change(
        "F20",
        "an accident is written like anything else",
        Patch("tallies.py", 'accident=went.get("accident", False)', "accident=False"),
        Patch("tallies.ts", "accident: went.accident ?? false", "accident: false"),
    ),
]
