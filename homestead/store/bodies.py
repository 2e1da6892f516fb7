"""Bodies of the entries the store owns: how a lot begins, what leaves it, where it stands, what is there."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import Field, model_validator

from homestead.ledger.kinds import Body, LotId, Maybe, RoundId, SpaceId
from homestead.store.amounts import (
    Amount,
    Code,
    CropId,
    Cut,
    Day,
    Findings,
    Grams,
    Listed,
    MaybeAmount,
    Out,
    PackId,
    Pieces,
    RhPct,
    TempC,
    Text,
    TrimmedOff,
    wrong,
)


class PutAway(Amount):
    """A lot begins: one variety, put away together, in one space, packed one way or still curing."""

    crop: CropId
    variety: Maybe[Text] = None
    space: SpaceId
    pack: Maybe[PackId] = None
    cures_until: Maybe[Day] = None
    spot: Maybe[Text] = None
    code: Maybe[Code] = None

    @model_validator(mode="after")
    def _packed_or_curing(self) -> Self:
        if self.pack and self.cures_until:
            raise wrong("packed_and_curing", "A lot is packed or is curing: leave out the pack, or the day.")
        return self


class Take(Amount):
    """Taken to eat, to give away or for seed."""

    lot: LotId
    for_: Literal["eat", "give", "seed"] = Field(alias="for")
    turning: Maybe[bool] = Field(default=None, description="taken from what is on the turn")
    tossed: Maybe[Pieces] = Field(default=None, description="of the pieces taken, thrown on the compost")
    trimmed: Maybe[TrimmedOff] = None
    last: Maybe[bool] = Field(default=None, description="nothing is left of the lot")

    @model_validator(mode="after")
    def _tossed_is_of_what_was_taken(self) -> Self:
        if self.tossed and self.pieces is not None and self.tossed > self.pieces:
            raise wrong("tossed_more_than_taken", "More pieces tossed than taken: write one of the two anew.")
        return self


class Cull(Out):
    """Pieces lost."""

    lot: LotId
    last: Maybe[bool] = Field(default=None, description="nothing is left of the lot")


class Trim(Cut):
    """Part of some pieces cut off, the rest is good."""

    lot: LotId


class Move(MaybeAmount):
    """All of a lot, or a part, which is a new lot with the same past and this entry's id."""

    lot: LotId
    all: bool
    space: SpaceId
    pack: Maybe[PackId] = None
    spot: Maybe[Text] = None
    code: Maybe[Code] = Field(default=None, description="of the new lot, when a part is moved")

    @model_validator(mode="after")
    def _a_part_says_how_much(self) -> Self:
        if not self.all and self.pieces is None and self.grams is None:
            raise wrong("amount_missing", "How much was moved is missing: write pieces, grams or all.")
        if self.all and self.code:
            raise wrong("code_without_new_lot", "A lot moved whole keeps its code: leave the code out.")
        return self


class Count(Amount):
    """What is really there now."""

    lot: LotId
    gone: Maybe[Literal["eaten", "given", "lost", "dried", "unknown"]] = Field(
        default=None, description="what became of the difference; absent: unknown"
    )


class SetAside(Amount):
    """What is now kept for seed; 0 frees it."""

    lot: LotId
    treated: Maybe[bool] = Field(default=None, description="dressed, and so no food any more")


class PutByFrom(Amount):
    """A lot something was put by from, how much, and what was on these pieces: `sound` where nothing was."""

    lot: LotId
    findings: Maybe[Findings] = None


class PutBy(Body):
    """Frozen, dried, fermented or jarred: leaves its lots and begins a new one with this entry's id."""

    from_: Listed[PutByFrom] = Field(alias="from")
    method: Literal["freeze", "dry", "ferment", "jar"]
    crop: Literal["frozen", "dried", "ferment", "jar"]
    label: Text
    space: SpaceId
    pack: PackId
    pieces: Pieces = Field(description="containers filled")
    grams: Maybe[Grams] = Field(default=None, description="what is in them all together [g]")
    trimmed: Maybe[TrimmedOff] = None
    keeps_until: Maybe[Day] = None
    code: Maybe[Code] = None


class Reading(Body):
    """The air of a space, as read; a value nobody touched is not written."""

    space: SpaceId
    round: Maybe[RoundId] = None
    temp_c: Maybe[TempC] = None
    rh_pct: Maybe[RhPct] = None
    low_c: Maybe[TempC] = Field(default=None, description="lowest since `since` [°C]")
    high_c: Maybe[TempC] = Field(default=None, description="highest since `since` [°C]")
    since: Maybe[Day] = None

    @model_validator(mode="after")
    def _something_was_read(self) -> Self:
        if all(value is None for value in (self.temp_c, self.rh_pct, self.low_c, self.high_c)):
            raise wrong("reading_empty", "Nothing was read: write warmth, humidity, low or high.")
        if self.low_c is not None and self.high_c is not None and self.low_c > self.high_c:
            raise wrong("low_above_high", "The low stands above the high: they may be swapped.")
        return self
