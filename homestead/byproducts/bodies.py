"""Bodies of the entries byproducts own: scraps that no lot's entry told of, and what the hens laid."""

from __future__ import annotations

from typing import Self

from pydantic import Field, model_validator

from homestead.ledger.kinds import AnimalsId, Body, LotId, Maybe
from homestead.store.amounts import CropId, Day, Findings, Listed, Number, WeighedWent, wrong


class Scrap(Body):
    """Scraps and where they went. Never changes stock: `lot` is for the story only."""

    crop: Maybe[CropId] = None
    lot: Maybe[LotId] = None
    findings: Findings
    went: Listed[WeighedWent]


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
