"""Small entry kinds and a record type, so that the ledger is tested without the rooms that use it.

`settled` tells what was settled and undone, in order.
"""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import Annotated, Any
from unittest import mock

from pydantic import Field

from homestead.household.models import Person
from homestead.household.roles import EVERYONE, GROWN, WALKERS
from homestead.ledger import derived, followers, kinds, models, records
from homestead.ledger.kinds import (
    AnimalsId,
    Beginning,
    Body,
    Entry,
    EntryKind,
    LotId,
    Maybe,
    PersonId,
    Refused,
    RoundId,
    Sentence,
    SpaceId,
    SuspectId,
    Thing,
)
from homestead.ledger.own_records import HouseholdRecord, PersonRecord
from homestead.ledger.records import Fields, RecordState, RecordType
from homestead.ledger.strikes import StrikeKind

settled: list[tuple[str, str]] = []
touched: list[followers.Touched] = []


class Small(EntryKind[Any]):
    def settle(self, entry: Entry[Any]) -> None:
        settled.append(("settle", str(entry.id)))

    def undo(self, entry: Entry[Any]) -> None:
        settled.append(("undo", str(entry.id)))

    def say(self, entry: Entry[Any]) -> Sentence:
        return Sentence(self.name, f"{self.name} happened", {"id": str(entry.id)})


class Bed(Body):
    space: SpaceId
    grams: Annotated[int, Field(ge=0, le=5_000_000)] = 0
    code: Maybe[str] = None
    grower: Maybe[PersonId] = None


class Begun(Small):
    """Begins a lot, like a put-away."""

    name = "begun"
    body = Bed
    roles = WALKERS
    changes_stock = True

    def births(self, entry: Entry[Bed]) -> Iterable[tuple[Thing, uuid.UUID]]:
        return (("lot", entry.id),)

    def begins(self, entry: Entry[Bed]) -> Beginning:
        return Beginning("lot", entry.id, {"code": entry.body.code})

    def lots(self, entry: Entry[Bed]) -> Iterable[uuid.UUID]:
        return (entry.id,)


class Piece(Body):
    lot: LotId
    animals: Maybe[AnimalsId] = None


class Look(Body):
    lot: LotId
    round: Maybe[RoundId] = None
    pieces: Annotated[float, Field(ge=0, le=100_000, multiple_of=0.25)] = 1
    out: tuple[Piece, ...] = ()


class Looked(Small):
    """Looks at a lot, like an inspection. Its body has moved from schema 1 (`count`) to 2 (`pieces`)."""

    name = "looked"
    schema = 2
    body = Look
    roles = EVERYONE
    upcasters = {1: lambda body: {("pieces" if name == "count" else name): v for name, v in body.items()}}

    def check(self, entry: Entry[Look]) -> None:
        if entry.body.pieces == 13:
            raise Refused("never", "Thirteen pieces are never looked at.", pieces=13)

    def settle(self, entry: Entry[Look]) -> None:
        if entry.body.pieces == 66:
            raise RuntimeError("a fault of ours")
        super().settle(entry)

    def lots(self, entry: Entry[Look]) -> Iterable[uuid.UUID]:
        return (entry.body.lot,)


class Doubt(Body):
    lot: LotId


class Doubted(Small):
    name = "doubted"
    body = Doubt
    roles = EVERYONE

    def births(self, entry: Entry[Doubt]) -> Iterable[tuple[Thing, uuid.UUID]]:
        return (("suspect", entry.id),)

    def lots(self, entry: Entry[Doubt]) -> Iterable[uuid.UUID]:
        return (entry.body.lot,)


class Verdict(Body):
    suspect: SuspectId


class Decided(Small):
    name = "decided"
    body = Verdict
    roles = WALKERS

    def asks_switch(self, body: Verdict) -> bool:
        return True


class SpaceFields(Fields):
    name: Annotated[str, Field(min_length=1, max_length=100)]
    note: str | None = None
    order: int = 0
    keeper: PersonId | None = None
    archived: bool = False


class SpaceRecord(RecordType[SpaceFields]):
    name = "space"
    fields = SpaceFields
    roles = GROWN

    def settle(self, record: RecordState[SpaceFields]) -> None:
        settled.append(("space", record.fields.name))


class LotFields(Fields):
    code: str | None = None
    label: str | None = None


class LotRecord(RecordType[LotFields]):
    name = "lot"
    fields = LotFields
    roles = WALKERS
    made_by_edit = False
    code_field = "code"

    def lots(self, record: RecordState[LotFields]) -> Iterable[uuid.UUID]:
        return (record.id,)


SMALL_KINDS: tuple[EntryKind[Any], ...] = (Begun(), Looked(), Doubted(), Decided(), StrikeKind())
SMALL_RECORDS: tuple[RecordType[Any], ...] = (SpaceRecord(), LotRecord(), HouseholdRecord(), PersonRecord())


@contextmanager
def small_house() -> Iterator[None]:
    """Only these kinds, records and followers, for as long as it lasts."""
    settled.clear()
    touched.clear()
    tables = dict.fromkeys(
        (Person, models.Birth, models.Touch, models.Record, models.RecordChange), frozenset[str]()
    )
    with (
        mock.patch.dict(kinds._kinds, {kind.name: kind for kind in SMALL_KINDS}, clear=True),
        mock.patch.dict(records._types, {one.name: one for one in SMALL_RECORDS}, clear=True),
        mock.patch.dict(derived._tables, tables, clear=True),
        mock.patch.object(followers, "_in_transaction", [touched.append]),
        mock.patch.object(followers, "_after_commit", []),
    ):
        yield
