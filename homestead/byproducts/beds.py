"""Asks, before a heap's compost is written as spread, whether what is to grow there is kin of a disease that
it took in (docs/ladder.md, L15)."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterator

from homestead.byproducts.bodies import HeapWork
from homestead.byproducts.models import Heap
from homestead.household.roles import GROWN
from homestead.ledger.kinds import Entry, Refused
from homestead.reference import rules
from homestead.store.feeding import role_of, table_crop
from homestead.store.models import Went
from homestead.storekeeping.soil import OnHeap, Taken, kin_of_bed, taken_in


def taken_by_heap(household: uuid.UUID, heap: uuid.UUID, until: dt.date) -> list[Taken]:
    """Diseases that live on in soil that went on this heap up to that day; of heaps that fill at once the one
    begun last takes what comes."""
    return taken_in(rules(), _on_heap(household, heap, until))


def _on_heap(household: uuid.UUID, heap: uuid.UUID, until: dt.date) -> Iterator[OnHeap]:
    heaps = list(Heap.rows.of(household).filter(archived=False).order_by("-fills_from"))
    rows = Went.rows.of(household).filter(way="compost", unwritten=False, day__lte=until)
    for day, crop, findings in rows.values_list("day", "crop", "findings"):
        takes = next((one.uuid for one in heaps if _fills(one, day)), None)
        if takes == heap:
            judged = table_crop(household, crop) if crop else None
            yield OnHeap(crop=judged, findings=findings, day=day.isoformat())


def _fills(heap: Heap, day: dt.date) -> bool:
    return heap.fills_from <= day and (heap.fills_until is None or day <= heap.fills_until)


def check_bed(entry: Entry[HeapWork]) -> None:
    """Raise `Refused` `kin_of_bed` or `bed_crop_missing` where a disease is sure; an accident is written by
    grown people only."""
    body = entry.body
    if body.did != "spread":
        return
    if body.accident:
        if role_of(entry) not in GROWN:
            raise Refused("accident_by_grown", "An accident is written by an adult: show it to one.")
        return
    sure = [one for one in taken_by_heap(entry.household, body.heap, entry.day) if one["sure"]]
    if sure and body.grows is None:
        sentence = "This heap took in what lives on in soil: say what is to grow on the bed it was spread on."
        raise Refused("bed_crop_missing", sentence, where="grows", rows=_rows(sure))
    if body.grows and (barred := kin_of_bed(sure, table_crop(entry.household, body.grows))):
        sentence = "This heap took in a disease of that crop's kin: it was not taken as spread there."
        raise Refused("kin_of_bed", sentence, disease=barred["disease"], rows=_rows([barred]))


def _rows(taken: list[Taken]) -> list[str]:
    return list(dict.fromkeys(row for one in taken for row in one["rows"]))
