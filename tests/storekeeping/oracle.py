"""The fold once more, slowly, from docs/fold.md alone: exact fractions, no shortcuts.

It shares no code with `homestead.storekeeping`. Generated vectors expect what it says, so the twins are held
against a second reading of the rules and not against themselves. A lot's life is a list of postings, each
(way, pieces, grams); what is there is what came in less what was posted.
"""

from __future__ import annotations

import datetime as dt
from fractions import Fraction
from itertools import pairwise
from typing import Any
from zoneinfo import ZoneInfo

from tests.storekeeping.oracle_lot import Life
from tests.storekeeping.oracle_words import Posting

Json = dict[str, Any]
UTC = dt.UTC
TOUCHES_A_LOT = ("take", "cull", "trim", "move", "count", "set_aside", "inspection", "suspect")


class Told:
    """One entry with what section 2 says of it."""

    def __init__(self, line: Json, zone: ZoneInfo) -> None:
        self.line, self.written = line, line["written"]
        self.id, self.kind, self.body = self.written["id"], self.written["kind"], self.written["body"]
        self.when = self._when(zone)
        self.day = self.when.astimezone(zone).date()
        self.key = (self.when, self.written["device"], self.written["device_no"], self.id)
        self.counts = True
        self.struck_by: str | None = None

    def _when(self, zone: ZoneInfo) -> dt.datetime:
        """F1."""
        said = self.written["happened_at"]
        if self.written["dated"] == "person":
            day = dt.date.fromisoformat(said[:10])
            return dt.datetime(day.year, day.month, day.day, 12, tzinfo=zone).astimezone(UTC)
        skew = dt.timedelta(milliseconds=self.line.get("clock_skew_ms", 0))
        when = dt.datetime.fromisoformat(said).astimezone(UTC)
        return when + skew if abs(skew) > dt.timedelta(minutes=2) else when


class Oracle:
    def __init__(self, vector: Json) -> None:
        self.setting = vector["setting"]
        self.zone = ZoneInfo(self.setting["zone"])
        self.today = dt.date.fromisoformat(vector["today"])
        best: dict[str, Json] = {}
        for line in vector["lines"]:
            if line.get("standing") == "refused":
                continue
            best[line["written"]["id"]] = max(
                line,
                best.get(line["written"]["id"], line),
                key=lambda each: ("seq" in each, each["written"]["device_no"]),
            )
        self.told = {id_: Told(line, self.zone) for id_, line in best.items()}
        self._strike()
        self.lives = self._lives()

    # -- F3

    def _strike(self) -> None:
        """Says in, out or not yet of each strike, until nothing changes any more."""
        strikes = [told for told in self.told.values() if told.kind == "strike"]
        label: dict[str, str] = {}
        while True:
            new = dict(label)
            for strike in strikes:
                by = [other.id for other in strikes if other.written["strikes"] == strike.id]
                if all(label.get(id_) == "out" for id_ in by):
                    new[strike.id] = "in"
                if any(label.get(id_) == "in" for id_ in by):
                    new[strike.id] = "out"
            if new == label:
                break
            label = new
        for told in self.told.values():
            by = sorted(
                (s for s in strikes if s.written["strikes"] == told.id and label.get(s.id) == "in"),
                key=lambda each: each.key,
            )
            told.struck_by = by[0].id if by else None
            told.counts = label.get(told.id) == "in" if told.kind == "strike" else not by

    # -- F4

    def lots_of(self, told: Told) -> list[str]:
        if told.kind in TOUCHES_A_LOT:
            return [told.body["lot"]]
        if told.kind == "put_by":
            return sorted({each["lot"] for each in told.body["from"]})
        ground = self.ground_of(told)
        return self.lots_of(ground) if ground else []

    def ground_of(self, told: Told) -> Told | None:
        named = {"decision": ("suspect", "suspect"), "chore_done": ("chore", "decision")}.get(told.kind)
        found = self.told.get(told.body[named[0]]) if named else None
        return found if found and named and found.kind == named[1] else None

    def _lives(self) -> dict[str, Life]:
        lives: dict[str, Life] = {}
        births = [each for each in self.told.values() if each.counts and each.kind in ("put_away", "put_by")]
        todo = [(birth, Life.begun(birth, self.setting["figures"])) for birth in births]
        while todo:
            birth, life = todo.pop()
            for told in self._turns(birth):
                for part in life.go_on(told):
                    todo.append((told, part))
            lives[birth.id] = life
        return lives

    def _turns(self, birth: Told) -> list[Told]:
        named = [
            told
            for told in self.told.values()
            if told.counts and told is not birth and birth.id in self.lots_of(told)
        ]
        places = [(self._place(told, birth), told) for told in named]
        return [told for place, told in sorted(places, key=lambda each: each[0] or ()) if place]

    def _place(self, told: Told, birth: Told) -> tuple[Any, ...] | None:
        """Where an entry comes in a lot's life; None where what it rests on is not here."""
        own = (told.key,) if told.key > birth.key else (birth.key, told.key)
        if told.kind not in ("decision", "chore_done"):
            return own
        ground = self.ground_of(told)
        if ground is None or not ground.counts:
            return None
        after = self._place(ground, birth)
        if after is None:
            return None
        return own if own > after else (*after, told.key)

    # -- what is told

    def expectation(self) -> Json:
        lives = dict(sorted(self.lives.items(), key=lambda each: self.told[each[0]].key))
        flags = self._clock_flags()
        return {
            "lots": {id_: self._shown(life) for id_, life in lives.items()},
            "chores": [chore for life in lives.values() for chore in life.open_chores()],
            "went": [self._row(posting) for posting in self._postings()],
            "past": {
                id_: {
                    "counts": self._counts(told),
                    "struck_by": told.struck_by,
                    "day": told.day.isoformat(),
                    "flags": self._flags(told, flags),
                }
                for id_, told in self.told.items()
            },
        }

    def _shown(self, life: Life) -> Json:
        """With what records say in place of the birth: one's own, else the parent's, but for the code."""
        shown, records, said_of = life.shown(self.today, self.setting), self.setting.get("lots", {}), life
        fields = ["code", "winter"]
        while fields:
            record = records.get(said_of.birth.id, {})
            shown |= {name: record[name] for name in fields if record.get(name)}
            fields = [name for name in fields if not record.get(name) and name != "code"]
            if said_of.parent is None:
                break
            said_of = self.lives[said_of.parent]
        return shown

    def _postings(self) -> list[Posting]:
        rows = [posting for life in self.lives.values() for posting in life.postings]
        for told in self.told.values():
            if told.kind == "scrap" and told.counts:
                rows += [
                    Posting(told, told.body.get("lot"), way["step"], None, Fraction(way["grams"]), way)
                    for way in told.body["went"]
                ]
        return sorted(rows, key=lambda row: (row.told.key, row.lot or ""))

    def _row(self, posting: Posting) -> Json:
        return {
            "entry": posting.told.id,
            "lot": posting.lot,
            "way": posting.way,
            "pieces": number(posting.pieces),
            "grams": number(posting.grams),
            "accident": posting.went.get("accident", False),
            "animals": posting.went.get("animals"),
        }

    def _lives_told_in(self, told: Told) -> list[Life]:
        return [
            self.lives[lot]
            for lot in self.lots_of(told)
            if lot in self.lives and told in self.lives[lot].turns
        ]

    def _counts(self, told: Told) -> bool:
        needs = told.kind in TOUCHES_A_LOT or told.kind in ("decision", "chore_done")
        if not told.counts or not needs:
            return told.counts
        if told.kind == "chore_done" and "/" in told.body["chore"]:
            return self._first_done(told.body["chore"]) is told
        lives = self._lives_told_in(told)
        return bool(lives) and not any(told.id in life.only_shown for life in lives)

    def _first_done(self, key: str) -> Told:
        done = [
            t for t in self.told.values() if t.kind == "chore_done" and t.counts and t.body["chore"] == key
        ]
        return min(done, key=lambda each: each.key)

    def _flags(self, told: Told, doubted: set[str]) -> list[str]:
        flags = ["clock"] if told.id in doubted else []
        if not told.counts:
            return flags
        if told.kind == "chore_done" and "/" in told.body["chore"]:
            return [*flags, *([] if self._counts(told) else ["second"])]
        lives = self._lives_told_in(told)
        if len(lives) < len(self.lots_of(told)) or (told.kind == "decision" and not lives):
            flags.append("nothing_there")
        for life in lives:
            flags += [flag for flag in life.flags.get(told.id, []) if flag not in flags]
        return flags

    def _clock_flags(self) -> set[str]:
        """F2."""
        clocked = [t for t in self.told.values() if t.counts and t.written["dated"] == "clock"]
        doubted = {t.id for t in clocked if abs(t.line.get("clock_skew_ms", 0)) > 3_600_000}
        for device in {t.written["device"] for t in clocked}:
            of_it = [t for t in clocked if t.written["device"] == device]
            of_it.sort(key=lambda t: (t.written["device_no"], t.id))
            for one, other in pairwise(of_it):
                if one.when - other.when > dt.timedelta(minutes=10):
                    doubted |= {one.id, other.id}
        return doubted


def number(amount: Fraction | None) -> float | None:
    return None if amount is None else round(float(amount), 6)


def expectation_of(vector: Json) -> Json:
    return Oracle(vector).expectation()
