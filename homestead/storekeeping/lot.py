"""A lot while its entries are gone through: what is there, what left, what was seen. Twin: `lot.ts`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from homestead.storekeeping.amounts import NEAR, Maybe, ratio_of
from homestead.storekeeping.order import Event
from homestead.storekeeping.state import Bucket, Flag, Measure, Way

BUCKETS: dict[Way, Bucket] = {
    "raw": "eaten",
    "cook": "eaten",
    "pot": "eaten",
    "animals": "shrink",
    "compost": "shrink",
    "bin": "shrink",
    "lost": "shrink",
    "dried": "shrink",
    "eaten": "eaten",
    "given": "given",
    "seed": "seed",
    "cured": "cured",
    "moved": "moved",
    "put_by": "put_by",
    "unknown": "unknown",
    "found": "found",
}


class Row(NamedTuple):
    """One row of what went where, before it is written out for people. `went`: the W it came from, if any."""

    event: Event
    way: Way
    pieces: Maybe
    grams: Maybe
    went: Mapping[str, Any] = {}
    findings: Sequence[str] = ()
    unwritten: bool = False


class Seen:
    """A finding that stands on a lot. pieces None: not numbered."""

    __slots__ = ("event", "finding", "looked", "pieces")

    def __init__(self, event: Event, finding: str, pieces: Maybe, looked: Maybe) -> None:
        self.event = event
        self.finding = finding
        self.pieces = pieces
        self.looked = looked


class Decided:
    __slots__ = ("done", "event")

    def __init__(self, event: Event) -> None:
        self.event = event
        self.done = False


class Doubt:
    """A suspect and what was decided about it."""

    __slots__ = ("closed", "decisions", "event", "gone", "grams", "pieces")

    def __init__(self, event: Event) -> None:
        self.event = event
        self.pieces: float = event.body.get("pieces", 1)
        self.grams: Maybe = event.body.get("grams")
        self.decisions: list[Decided] = []
        self.gone = False
        self.closed = False


class Origin(NamedTuple):
    """What a lot is born with (F4, F5, F15)."""

    birth: Event
    parent: str | None
    crop: str
    variety: str | None
    label: str | None
    code: str | None
    method: str | None
    space: str
    spot: str | None
    pack: str | None
    put_away_day: int
    cures_until: str | None
    curing: bool
    keeps_until: str | None
    pieces: Maybe
    grams: Maybe
    ratio: Maybe
    own_measure: Measure
    counted: bool
    count_measure: Measure
    standing: tuple[tuple[Event, str, Maybe, Maybe], ...] = ()


class Lot:
    """The running state. Below nought stays in the sums (F12); None is not known."""

    __slots__ = (
        "asks_count", "counted_well", "curing", "finished", "flags", "grams", "last_count", "last_entry",
        "last_key", "last_look", "origin", "own_measure", "pack", "parts", "pieces", "placed", "ratio",
        "rows", "seed", "seed_treated", "shown_only", "space", "spot", "standing", "suspects", "takes",
        "whole",
    )  # fmt: skip

    def __init__(self, origin: Origin) -> None:
        birth = origin.birth
        self.origin = origin
        self.space, self.spot, self.pack = origin.space, origin.spot, origin.pack
        self.curing = origin.curing
        self.pieces, self.grams, self.ratio = origin.pieces, origin.grams, origin.ratio
        self.own_measure = origin.own_measure
        self.whole = origin.grams is not None
        self.asks_count = False
        self.finished = False
        self.counted_well = True
        self.seed: tuple[Maybe, Maybe] = (0.0, 0.0)
        self.seed_treated = False
        self.rows: list[Row] = []
        self.takes: list[tuple[int, Maybe, Maybe]] = []
        self.suspects: dict[str, Doubt] = {}
        self.standing = [Seen(*each) for each in origin.standing]
        self.parts: dict[str, Origin] = {}
        self.flags: dict[str, list[Flag]] = {}
        self.shown_only: set[str] = set()
        self.last_look = self.last_entry = birth
        self.last_count = birth if origin.counted else None
        self.last_key = birth.key
        self.placed = {birth.id}

    def flag(self, event: Event, flag: Flag) -> None:
        flags = self.flags.setdefault(event.id, [])
        if flag not in flags:
            flags.append(flag)

    def only_show(self, event: Event, flag: Flag) -> None:
        """The entry changes nothing here and stays readable."""
        self.shown_only.add(event.id)
        self.flag(event, flag)

    def lower(self, pieces: Maybe, grams: Maybe, *, known: bool = True) -> None:
        """F6: take an amount out. A measure that is there and cannot be moved asks for a count.

        known: the grams are all of what left.
        """
        if self.pieces is not None:
            if pieces is None:
                self.asks_count = True
            else:
                self.pieces -= pieces
        if self.grams is not None:
            if grams is None or not known:
                self.asks_count = True
            if grams is not None:
                self.grams -= grams
        self.ratio = ratio_of(self.pieces, self.grams, self.ratio)

    def empty(self, event: Event, pieces: Maybe, grams: Maybe) -> tuple[Maybe, Maybe]:
        """F12, `last`: what left in all, the rest with it; what was short is found. The lot is finished."""
        pieces_left, pieces_found = _all_of(self.pieces, pieces)
        grams_left, grams_found = _all_of(self.grams, grams)
        self.find(event, pieces_found, grams_found)
        self.pieces = self.grams = 0.0
        self.finish()
        return pieces_left, grams_left

    def find(self, event: Event, pieces: Maybe, grams: Maybe) -> None:
        if (pieces or 0) > NEAR or (grams or 0) > NEAR:
            self.rows.append(Row(event, "found", pieces, grams))

    def finish(self) -> None:
        """Nothing is left: no count is asked for, suspects are closed."""
        self.finished = True
        self.asks_count = False
        for suspect in self.suspects.values():
            suspect.closed = suspect.closed or not suspect.gone

    def written_in(self, body: Mapping[str, Any]) -> None:
        """F16: a change not written in the lot's own measure ends "counted"."""
        if body.get(self.own_measure) is None:
            self.counted_well = False


def _all_of(there: Maybe, written: Maybe) -> tuple[Maybe, Maybe]:
    """(what left, what was found) of one measure when nothing is left after it."""
    if there is None:
        return written, None
    leaving = written or 0.0
    return max(there, leaving), max(leaving - there, 0.0)
