"""Dishes of the household's own, beside those of the tables. What may go into one, the ladder says."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field

from homestead.ledger.records import Change, Fields, RecordType
from homestead.store.amounts import CropId, Text
from homestead.store.known import check_crop


class DishUse(Fields):
    """A crop that goes into it, as it is stored."""

    crop: CropId
    grams: Annotated[int, Field(ge=1, le=5_000_000, description="weight [g]")]


class DishFields(Fields):
    name: Text
    step: Literal["raw", "cook", "pot"] = Field(description="how it is eaten: the use step it needs")
    people: Annotated[int, Field(ge=1, le=500, description="how many the weights are for")]
    uses: Annotated[tuple[DishUse, ...], Field(min_length=1, max_length=12)]
    archived: bool = False


class DishRecord(RecordType[DishFields]):
    """Read by phones only, which rank dishes with their own fold: the record is all that is kept of it."""

    name = "dish"
    fields = DishFields

    def check(self, change: Change) -> None:
        for use in change.set.get("uses") or ():
            check_crop(change.household, use["crop"])


RECORDS: tuple[RecordType[Any], ...] = (DishRecord(),)
