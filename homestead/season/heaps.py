"""Heaps that want turning, as chores to be shared out: what the clock of a heap asks for."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterator

from homestead.byproducts.models import Heap, HeapWork
from homestead.rounds.asked import Asked
from homestead.storekeeping.heap import WAIT_COLD, turn_on

#: a pile of some hundred litres forked over. Common practice, no source [min]
MINUTES = 20
#: days it may wait. Ours
LATEST = dt.timedelta(days=7)
LIFTING = frozenset({"lifting"})


def heaps_to_turn(household: uuid.UUID, today: dt.date) -> Iterator[Asked]:
    """One chore a heap, two weeks after it was turned last or begun; none once it is ripe.

    Key `turn_heap/<heap>/<day>`. Work `turned` on the heap moves the day on, so nobody says twice that it was
    done.
    """
    for heap in Heap.rows.of(household).filter(archived=False):
        if heap.fills_until and today >= heap.fills_until + dt.timedelta(days=WAIT_COLD):
            continue
        turned = HeapWork.rows.of(household).filter(heap=heap, did="turned").order_by("-day")
        last = turned.values_list("day", flat=True).first() or heap.fills_from
        day = dt.date.fromisoformat(turn_on(last.isoformat()))
        yield Asked(
            key=f"turn_heap/{heap.uuid}/{day}",
            what="turn_heap",
            day=day,
            latest=day + LATEST,
            minutes=MINUTES,
            needs=LIFTING,
            about={"heap": str(heap.uuid), "name": heap.name},
        )
