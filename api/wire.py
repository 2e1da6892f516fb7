"""Shapes of lines and feed rows, one named schema for each entry kind and record type there is.

Made from the registries when the schema is asked for, so that a new kind needs no other edit.
"""

from __future__ import annotations

import uuid
from collections.abc import Sequence
from functools import reduce
from operator import or_
from typing import Annotated, Any, Literal

from pydantic import AwareDatetime, BaseModel, Field, RootModel, create_model

from api.reading import Asked
from api.shapes import NumbersLeft, PushConflict, Told
from homestead.ledger.actions import MOST_LINES
from homestead.ledger.envelope import STRIKE, Moment, Recovered, Said, Sha256
from homestead.ledger.kinds import EntryKind, Id, Maybe, all_kinds
from homestead.ledger.records import RecordType, all_record_types


def camel(name: str) -> str:
    return "".join(part.title() for part in name.split("_"))


def _written(kind: EntryKind[Any]) -> type[BaseModel]:
    """The line of one kind: `WrittenInspection`, its body `BodyInspection`."""
    body = type(
        f"Body{camel(kind.name)}", (kind.body,), {"__doc__": kind.body.__doc__, "__module__": __name__}
    )
    fields: dict[str, Any] = {"kind": (Literal[kind.name], ...), "body": (body, ...)}
    if kind.name == STRIKE:
        fields["strikes"] = (Annotated[Id, Field(description="the entry struck out")], ...)
    return create_model(f"Written{camel(kind.name)}", __base__=Said, **fields)


def _some_fields(schema: dict[str, Any]) -> None:
    """An edit sets one field or more; none must be there, unless it makes the record."""
    schema.pop("required", None)
    schema["minProperties"] = 1
    for shape in schema.get("properties", {}).values():
        shape.pop("default", None)


def _edit(record_type: RecordType[Any]) -> type[BaseModel]:
    """The body of an edit of one record type: `EditSpace`, its fields `SetSpace`."""
    name = camel(record_type.name)
    fields = type(
        f"Set{name}",
        (record_type.fields,),
        {
            "__doc__": f"Fields of a {record_type.name} that an edit sets.",
            "__module__": __name__,
            "model_config": {"json_schema_extra": _some_fields},
        },
    )
    told: dict[str, Any] = {
        "type": (Literal[record_type.name], ...),
        "record": (Id, ...),
        "base_rev": (Annotated[int, Field(ge=0, description="the revision its writer had before them")], ...),
        "set": (fields, ...),
    }
    return create_model(f"Edit{name}", __base__=Asked, **told)


def _named(name: str, doc: str, shapes: Sequence[type[BaseModel]], by: str) -> type[BaseModel]:
    """One of the shapes, told apart by a field, as a schema with a name of its own."""
    union: Any = Annotated[reduce(or_, shapes), Field(discriminator=by)] if len(shapes) > 1 else shapes[0]
    root: Any = RootModel.__class_getitem__(union)
    return create_model(name, __base__=root, __doc__=doc)


BodyEdit: Any = _named(
    "BodyEdit",
    "Which record, the revision its writer had before them, and the fields set.",
    [_edit(one) for one in all_record_types().values()],
    "type",
)
_EDIT: dict[str, Any] = {"kind": (Literal["edit"], ...), "body": (BodyEdit, ...)}
WrittenEdit = create_model("WrittenEdit", __base__=Said, **_EDIT)
WrittenLine: Any = _named(
    "WrittenLine",
    "A line as a phone wrote it; nothing ever alters it.",
    [*(_written(kind) for kind in all_kinds().values()), WrittenEdit],
    "kind",
)


class PushLine(Asked):
    written: WrittenLine
    recovered: Maybe[Recovered] = None


class PushLines(Asked):
    """Lines in the order they were written; at most 200 of them, 512 kB together."""

    device: Id
    sent_at: Moment = Field(description="the phone's clock, from which its skew is measured")
    build: Annotated[str, Field(max_length=40)]
    codes: Maybe[NumbersLeft] = None
    lines: Annotated[list[PushLine], Field(max_length=MOST_LINES)]


class Outcome(Told):
    """What an edit came to, or the record an entry began: values now standing, which is what phones apply."""

    type: str
    record: uuid.UUID
    values: dict[str, Any]
    rev: int
    field_revs: dict[str, int]
    conflicts: Maybe[list[PushConflict]] = None


class EntryRow(Told):
    """An entry; `outcome` where it began a record."""

    seq: int
    type: Literal["entry"]
    written: WrittenLine
    body_hash: Sha256
    received_at: AwareDatetime
    clock_skew_ms: int = Field(description="server less phone, at the push that first brought it [ms]")
    outcome: Maybe[Outcome] = None


class EditRow(Told):
    seq: int
    type: Literal["edit"]
    written: WrittenLine
    body_hash: Sha256
    received_at: AwareDatetime
    clock_skew_ms: int = Field(description="server less phone, at the push that first brought it [ms]")
    outcome: Outcome


class Sheet(Told):
    """What a job worked out, at the seq `as_of`."""

    key: str
    kind: str
    as_of: int
    made_at: AwareDatetime
    inputs: dict[str, Any]
    content: dict[str, Any]


class SheetRow(Told):
    seq: int
    type: Literal["sheet"]
    sheet: Sheet


FeedRow: Any = _named("FeedRow", "A row of the feed, by its type.", [EntryRow, EditRow, SheetRow], "type")
Cursor = Annotated[str, Field(pattern=r"^\d+\.\d+$", description="`<epoch>.<seq>`")]


class PullPage(Told):
    """Rows behind the cursor asked with; `next` is the cursor after them, `head` that of the newest row."""

    rows: list[FeedRow]
    next: Cursor
    more: bool
    head: Cursor
    now: AwareDatetime
