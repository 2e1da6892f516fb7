"""Bodies of the entries byproducts own: scraps, eggs, looks into a pail, work on a heap."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from homestead.ledger.kinds import AnimalsId, Body, HeapId, LotId, Maybe
from homestead.store.amounts import (
    CropId,
    Day,
    Findings,
    Grams,
    Listed,
    Measured,
    Number,
    Text,
    WeighedWent,
    plainly,
    wrong,
)

HeapC = Annotated[
    float,
    Field(ge=-30, le=95, allow_inf_nan=False, description="warmth inside a heap [°C], in tenths"),
    plainly("temp_c", "A heap's warmth runs from -30 to 95 °C, in tenths. Write it so.", decimals=1),
]
MaterialId = Annotated[
    str,
    Field(max_length=64, pattern=r"^[a-z][a-z0-9_]*$", description="what was put on a heap, see reference"),
    plainly("material", "What goes on a heap is named by its id."),
]
Did = Literal["added", "turned", "warmth", "spread"]


class Scrap(Body):
    """Scraps and where they went. Never changes stock: `lot` is for the story only."""

    crop: Maybe[CropId] = None
    lot: Maybe[LotId] = None
    findings: Findings
    went: Listed[WeighedWent]
    measured: Maybe[Measured] = Field(
        default=None, description="how the weights are known; weighed if absent"
    )


class Lay(Body):
    """Eggs of one animal group on one day."""

    animals: AnimalsId
    day: Day
    eggs: Number
    broken: Maybe[Number] = Field(default=None, description="of the eggs: laid, but no food")
    hens: Maybe[Number] = Field(default=None, description="hens that day, where the record is not right")

    @model_validator(mode="after")
    def _broken_are_of_the_eggs(self) -> Self:
        if self.broken is not None and self.broken > self.eggs:
            raise wrong("broken_more_than_laid", "More eggs broken than laid: write one of the two anew.")
        return self


class Pail(Body):
    """An adult has looked into these animals' pail: all of it may be fed, or it is mixed, and compost."""

    animals: AnimalsId
    mixed: bool


class HeapWork(Body):
    """Something done to a compost heap: added to it beside scraps, turned, measured, spread on a bed."""

    heap: HeapId
    did: Did
    material: Maybe[MaterialId] = None
    grams: Maybe[Grams] = None
    measured: Maybe[Measured] = None
    temp_c: Maybe[HeapC] = None
    bed: Maybe[Text] = None
    grows: Maybe[CropId] = Field(default=None, description="what is to grow on the bed it was spread on")
    accident: Maybe[bool] = Field(
        default=None, description="it was spread on kin of a disease it took in: it tells what happened"
    )

    @model_validator(mode="after")
    def _tells_what_was_done(self) -> Self:
        if self.did == "added" and (self.material is None or self.grams is None):
            raise wrong("amount_missing", "Something was added: write what, and how much.")
        if self.did == "warmth" and self.temp_c is None:
            raise wrong("temp_c", "The heap was measured: write how warm it is inside.")
        return self
