"""Descriptions the store keeps: spaces, lots, expected use, guests, vessels, own crops and own figures."""

from __future__ import annotations

import uuid
from collections.abc import Iterable
from typing import Annotated, Any, Literal, TypeVar

from django.db import models
from pydantic import Field

from homestead.household.roles import GROWN, KEEPER, WALKERS
from homestead.household.rows import Thing
from homestead.ledger.kinds import Refused, VesselId
from homestead.ledger.records import Change, Fields, RecordState, RecordType
from homestead.reference import can_be_own, crop_ids
from homestead.store.amounts import Code, CropId, Day, Grams, Pieces, Text
from homestead.store.models import Guests, Lot, OwnCrop, OwnFigure, Space, Vessel, WeeklyUse

T = TypeVar("T", bound=Thing)

SpaceKind = Literal[
    "root_cellar", "cold_room", "loft", "clamp", "garage", "pantry", "freezer", "spare_room", "bed", "other"
]
#: what stands at a door: see the kitchen and keeping tables for the sentence of each
DoorCaution = Literal["ladder", "weight", "gas", "no_flame", "not_alone", "low_beam", "slippery"]
VesselKind = Literal["crate", "basket", "tray", "sack", "jar", "bucket", "other"]
Order = Annotated[int, Field(ge=0, le=10_000, description="place in the list, from 0")]


def keep_row(table: type[T], record: RecordState[Any], /, **values: Any) -> None:
    """Write the record's row, new or changed; a text that was cleared is kept empty."""
    told = {
        name: "" if value is None and isinstance(table._meta.get_field(name), models.CharField) else value
        for name, value in values.items()
    }
    table.everywhere.update_or_create(household_id=record.household, uuid=record.id, defaults=told)


class SpaceFields(Fields):
    name: Text
    kind: SpaceKind = "other"
    order: Order = 0
    cautions: tuple[DoorCaution, ...] = ()
    note: Text | None = None
    archived: bool = False


class SpaceRecord(RecordType[SpaceFields]):
    name = "space"
    fields = SpaceFields
    roles = GROWN

    def settle(self, record: RecordState[SpaceFields]) -> None:
        told = record.fields.model_dump()
        keep_row(Space, record, **told | {"cautions": list(told["cautions"])})


class LotFields(Fields):
    """A lot is made by the entry that begins it; these are what may be said of it anew."""

    code: Code | None = None
    variety: Text | None = None
    label: Text | None = None
    notes: Text | None = None
    vessel: VesselId | None = None
    winter: Annotated[int, Field(ge=1900, le=2200, description="the year it began in")] | None = None


class LotRecord(RecordType[LotFields]):
    name = "lot"
    fields = LotFields
    roles = WALKERS
    made_by_edit = False
    code_field = "code"

    def settle(self, record: RecordState[LotFields]) -> None:
        """Only notes lie outside the fold; the rest is written by it, told of the change by `lots`."""
        Lot.rows.of(record.household).filter(uuid=record.id).update(notes=record.fields.notes or "")

    def lots(self, record: RecordState[LotFields]) -> Iterable[uuid.UUID]:
        return (record.id,)


class WeeklyUseFields(Fields):
    crop: CropId
    grams: Grams | None = None
    pieces: Pieces | None = None
    archived: bool = False


class WeeklyUseRecord(RecordType[WeeklyUseFields]):
    name = "weekly_use"
    fields = WeeklyUseFields

    def settle(self, record: RecordState[WeeklyUseFields]) -> None:
        keep_row(WeeklyUse, record, **record.fields.model_dump())


class GuestsFields(Fields):
    number: Annotated[int, Field(ge=1, le=500)]
    from_: Day = Field(alias="from", description="first day at table")
    until: Day = Field(description="last day at table")
    archived: bool = False


class GuestsRecord(RecordType[GuestsFields]):
    name = "guests"
    fields = GuestsFields

    def settle(self, record: RecordState[GuestsFields]) -> None:
        told = record.fields
        keep_row(
            Guests,
            record,
            number=told.number,
            first_day=told.from_,
            last_day=told.until,
            archived=told.archived,
        )


class VesselFields(Fields):
    """A bucket is for scraps; those made before there were kinds have none and may be either."""

    name: Text
    kind: VesselKind | None = None
    grams: Annotated[Grams, Field(description="what it holds when full; 0: not known [g]")]
    empty_g: Annotated[Grams, Field(description="what it weighs empty [g]")] | None = None
    archived: bool = False


class VesselRecord(RecordType[VesselFields]):
    name = "vessel"
    fields = VesselFields

    def settle(self, record: RecordState[VesselFields]) -> None:
        keep_row(Vessel, record, **record.fields.model_dump())


class CropFields(Fields):
    name: Text
    like: CropId | None = Field(default=None, description="a crop of the table whose figures it borrows")
    count_unit: Literal["kg", "piece"] | None = None
    archived: bool = False


class CropRecord(RecordType[CropFields]):
    name = "crop"
    fields = CropFields

    def check(self, change: Change) -> None:
        like = change.set.get("like")
        if like is not None and like not in crop_ids():
            raise Refused("crop_unknown", f"There is no crop {like} in the table.", where="like", crop=like)

    def lots(self, record: RecordState[CropFields]) -> Iterable[uuid.UUID]:
        """What it is like decides the weight of its pieces."""
        return tuple(Lot.rows.of(record.household).filter(crop=str(record.id)).values_list("uuid", flat=True))

    def settle(self, record: RecordState[CropFields]) -> None:
        keep_row(OwnCrop, record, **record.fields.model_dump())


class FigureFields(Fields):
    """A figure of one's own; its id is the UUIDv5 of household, table, row and column."""

    table: Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$", max_length=64)]
    key: Annotated[str, Field(min_length=1, max_length=200, description="the row's key columns, joined by /")]
    column: Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$", max_length=64)]
    value: Annotated[float, Field(ge=-1_000_000, le=100_000_000, allow_inf_nan=False)] | None
    unit: Annotated[str, Field(max_length=16)] | None = None
    note: Text | None = None
    archived: bool = False


class FigureRecord(RecordType[FigureFields]):
    name = "figure"
    fields = FigureFields
    roles = KEEPER

    def check(self, change: Change) -> None:
        """Only a number the project reckons with: never a rule, so that nothing loosens a never."""
        table, column = change.set.get("table"), change.set.get("column")
        if (table or column) and not can_be_own(str(table), str(column)):
            sentence = f"The column {column} of {table} holds no figure of one's own."
            raise Refused("figure_fixed", sentence, where="column", table=table, column=column)

    def lots(self, record: RecordState[FigureFields]) -> Iterable[uuid.UUID]:
        """An own weighing changes what is known of every lot of its crop."""
        crop = record.fields.key.split("/")[0]
        return tuple(Lot.rows.of(record.household).filter(crop=crop).values_list("uuid", flat=True))

    def settle(self, record: RecordState[FigureFields]) -> None:
        told = record.fields.model_dump()
        keep_row(OwnFigure, record, **{"row" if name == "key" else name: told[name] for name in told})


RECORDS: tuple[RecordType[Any], ...] = (
    SpaceRecord(),
    LotRecord(),
    WeeklyUseRecord(),
    GuestsRecord(),
    VesselRecord(),
    CropRecord(),
    FigureRecord(),
)
