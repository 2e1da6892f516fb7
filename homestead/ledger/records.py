"""What a record type is: one class, in the room that owns it, registered once; like an entry kind.

A record is a description, changed field by field by edits. The ledger keeps its values and merges edits; the
type says which fields there are, who may set them, and writes the room's own row. Fields that may be cleared
are `X | None`; a field without default must be in the edit that makes the record.
"""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, ClassVar, Generic, TypeVar

from pydantic import BaseModel, ConfigDict

from homestead.household.roles import GROWN
from homestead.ledger.kinds import leave_out_defaults


class Fields(BaseModel):
    """The fields of a record as written: nothing unknown, nothing coerced. May hold `RefersTo`."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, json_schema_extra=leave_out_defaults)


F = TypeVar("F", bound=Fields)


@dataclass(frozen=True)
class RecordState(Generic[F]):
    """A record as it stands after an edit (or its beginning): all values set so far, read into the fields."""

    household: uuid.UUID
    type: str
    id: uuid.UUID
    rev: int
    values: Mapping[str, Any]  # as on the wire
    fields: F


@dataclass(frozen=True)
class Change:
    """An edit about to be merged, for `check`."""

    household: uuid.UUID
    record: uuid.UUID
    person: uuid.UUID
    role: str
    set: Mapping[str, Any]
    new: bool


class RecordType(Generic[F]):
    """Base of every type: subclass, set the class fields, override the rest, and `register_record`."""

    name: ClassVar[str]
    fields: type[F]
    #: roles that may edit it, see `household.roles`
    roles: ClassVar[frozenset[str]] = GROWN
    #: fields that only a keeper may set
    keeper_fields: ClassVar[frozenset[str]] = frozenset()
    #: made by an edit with an id of the phone; false for a lot, which an entry makes
    made_by_edit: ClassVar[bool] = True
    #: the field that holds the household's own numbers (a lot's code); the ledger gives one where it is None
    code_field: ClassVar[str | None] = None

    def check(self, change: Change) -> None:
        """Raise `Refused` for what the fields cannot tell."""

    def settle(self, record: RecordState[F]) -> None:
        """Write the room's row for the record, new or changed. Called in the ledger's transaction."""

    def lots(self, record: RecordState[F]) -> Iterable[uuid.UUID]:
        """Lots to be folded again after this change."""
        return ()


_types: dict[str, RecordType[Any]] = {}


def register_record(record_type: RecordType[Any]) -> None:
    """Called once a type, from the owning room's `AppConfig.ready`."""
    if record_type.name in _types:
        raise ValueError(f"The record type {record_type.name!r} is registered twice.")
    _types[record_type.name] = record_type


def record_type_named(name: str) -> RecordType[Any] | None:
    return _types.get(name)


def all_record_types() -> Mapping[str, RecordType[Any]]:
    return dict(sorted(_types.items()))
