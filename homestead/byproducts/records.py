"""Groups of animals: what they are, how many, and whether they may have scraps now."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Field

from homestead.byproducts.models import AnimalGroup
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
    note: Text | None = None
    archived: bool = False


class AnimalsRecord(RecordType[AnimalsFields]):
    name = "animals"
    fields = AnimalsFields

    def settle(self, record: RecordState[AnimalsFields]) -> None:
        keep_row(AnimalGroup, record, **record.fields.model_dump())


RECORDS: tuple[RecordType[Any], ...] = (AnimalsRecord(),)
