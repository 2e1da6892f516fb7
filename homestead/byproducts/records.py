"""Groups of animals, and whether they may have scraps now; compost heaps."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Field

from homestead.byproducts.models import AnimalGroup, Heap
from homestead.ledger.records import Fields, RecordState, RecordType
from homestead.store.amounts import Day, Grams, Number, Text
from homestead.store.records import keep_row


class AnimalsFields(Fields):
    name: Text
    kind: Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$", max_length=32)] = Field(
        description="as in the feeding tables; a kind they do not know is offered nothing"
    )
    number: Number | None = None
    feed_g_a_day: Grams | None = Field(
        default=None, description="bought feed a day, all of them together [g]"
    )
    withheld: bool = Field(default=False, description="ill or under treatment: gets no scraps")
    withheld_until: Day | None = Field(default=None, description="as its label or vet gave it")
    eggs_held_until: Day | None = Field(
        default=None, description="last day their eggs are no food, as the label or the vet gave it"
    )
    meat_held_until: Day | None = Field(default=None, description="last day their meat is no food")
    housed: bool = Field(default=False, description="kept in and fed under cover")
    note: Text | None = None
    archived: bool = False


class AnimalsRecord(RecordType[AnimalsFields]):
    name = "animals"
    fields = AnimalsFields

    def settle(self, record: RecordState[AnimalsFields]) -> None:
        keep_row(AnimalGroup, record, **record.fields.model_dump())


class HeapFields(Fields):
    name: Text
    fills_from: Day = Field(description="first day on which what goes to compost goes on this heap")
    fills_until: Day | None = Field(default=None, description="the last such day; it rests and ripens after")
    note: Text | None = None
    archived: bool = False


class HeapRecord(RecordType[HeapFields]):
    name = "heap"
    fields = HeapFields

    def settle(self, record: RecordState[HeapFields]) -> None:
        keep_row(Heap, record, **record.fields.model_dump())


RECORDS: tuple[RecordType[Any], ...] = (AnimalsRecord(), HeapRecord())
