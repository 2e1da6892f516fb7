"""What became of a lot, in grams, and the rows of what went where (F9, F15, F20). Twin: `tallies.ts`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from homestead.storekeeping.days import day_text
from homestead.storekeeping.lot import BUCKETS, Lot, Row
from homestead.storekeeping.order import Event
from homestead.storekeeping.state import Tallies, Went

_BUCKETS = ("found", "eaten", "given", "seed", "shrink", "cured", "moved", "put_by", "unknown")
_STEPS = frozenset({"raw", "cook", "pot", "animals", "compost", "bin"})


def tallies_of(lot: Lot) -> Tallies:
    sums = dict.fromkeys(_BUCKETS, 0.0)
    steps: dict[str, float] = {}
    unwritten: dict[str, float] = {}
    unweighed: dict[str, float] = {}
    for row in lot.rows:
        bucket = BUCKETS[row.way]
        if row.grams is None:
            _add(unweighed, bucket, row.pieces or 0.0)
            continue
        sums[bucket] += row.grams
        if row.way in _STEPS:
            _add(steps, row.way, row.grams)
        if row.unwritten:
            _add(unwritten, bucket, row.grams)
    return Tallies(
        whole=lot.whole,
        put_away=lot.origin.grams,
        there=lot.grams,
        found=sums["found"],
        eaten=sums["eaten"],
        given=sums["given"],
        seed=sums["seed"],
        shrink=sums["shrink"],
        cured=sums["cured"],
        moved=sums["moved"],
        put_by=sums["put_by"],
        unknown=sums["unknown"],
        steps=steps,
        unwritten=unwritten,
        unweighed=unweighed,
    )


def _add(sums: dict[str, float], name: str, amount: float) -> None:
    if amount:
        sums[name] = sums.get(name, 0.0) + amount


def row_of_lot(lot: Lot, row: Row) -> Went:
    return _told(row, lot.origin.birth.id, lot.origin.crop)


def scrap_rows(event: Event, lot_crop: str | None) -> list[Went]:
    """Scraps change no stock; the lot they name lends its crop."""
    body = event.body
    crop = body.get("crop", lot_crop)
    return [
        _told(Row(event, went["step"], None, went["grams"], went, body["findings"]), body.get("lot"), crop)
        for went in body["went"]
    ]


def _told(row: Row, lot: str | None, crop: str | None) -> Went:
    event, went = row.event, row.went
    return Went(
        entry=event.id,
        kind=event.kind,
        lot=lot,
        crop=crop,
        day=day_text(event.day),
        when_ms=event.when_ms,
        person=event.written["person"],
        way=row.way,
        bucket=BUCKETS[row.way],
        pieces=row.pieces,
        grams=row.grams,
        findings=list(row.findings),
        part=_word(went, "part"),
        cut_in=_word(went, "cut_in"),
        animals=_word(went, "animals"),
        accident=went.get("accident", False),
        unwritten=row.unwritten,
    )


def _word(went: Mapping[str, Any], name: str) -> str | None:
    word: str | None = went.get(name)
    return word
