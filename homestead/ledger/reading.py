"""Reads what a line tells: the body of its kind, brought up to today's schema, or the edit of a record.

Asks no database; what is wrong is kept beside the line, since a line known already is no longer judged.
"""

from __future__ import annotations

import json
import logging
import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Any, cast

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from homestead.ledger.envelope import EDIT, STRIKE, Pushed, ReadLine, read_pushed
from homestead.ledger.kinds import Body, EntryKind, Id, Refused, kind_named
from homestead.ledger.misfits import refusal_of
from homestead.ledger.records import Fields, RecordType, record_type_named
from homestead.ledger.references import Reference, references_in

logger = logging.getLogger(__name__)

NOT_READ = Refused(
    "not_settled",
    "The server could not read this line. That is a fault of the program. It waits on the phone.",
    permanent=False,
)


class EditBody(BaseModel):
    """The body of an edit: which record, the revision its writer had before them, and the fields set."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)

    type: Annotated[str, Field(max_length=40)]
    record: Id
    base_rev: Annotated[int, Field(ge=0, lt=1_000_000_000)]
    set: Annotated[dict[str, Any], Field(min_length=1)]


@dataclass(frozen=True)
class EntryContent:
    kind: EntryKind[Any]
    body: Body
    references: tuple[Reference, ...]


@dataclass(frozen=True)
class EditContent:
    type: RecordType[Any]
    record: uuid.UUID
    base_rev: int
    set: Mapping[str, Any]


Content = EntryContent | EditContent


@dataclass(frozen=True)
class Candidate:
    """One pushed item, read; `content` is there unless `problem` says what is wrong."""

    pushed: Pushed
    content: Content | None = None
    problem: Refused | None = None


def read_batch(items: Sequence[object]) -> list[Candidate]:
    """Read each by itself: what is wrong with one says nothing of the others."""
    return [_read(read_pushed(item)) for item in items]


def _read(pushed: Pushed) -> Candidate:
    if pushed.line is None:
        return Candidate(pushed, problem=pushed.problem)
    try:
        return Candidate(pushed, read_content(pushed.line))
    except Refused as problem:
        return Candidate(pushed, problem=problem)
    except Exception:
        logger.exception("A line of the kind %s could not be read.", pushed.line.envelope.kind)
        return Candidate(pushed, problem=NOT_READ)


def read_content(line: ReadLine) -> Content:
    """Raise `Refused` for an unknown kind or type, a body that does not fit, a strike that names nothing."""
    envelope = line.envelope
    if envelope.kind == EDIT:
        return _read_edit(line)
    if (envelope.strikes is None) == (envelope.kind == STRIKE):
        sentence = "A strike, and only a strike, names the entry it strikes out."
        raise Refused("shape", sentence, where="strikes")
    kind = kind_named(envelope.kind)
    if kind is None:
        raise Refused("unknown_kind", f"Entries of the kind {envelope.kind} are not known here.")
    body = read_body(kind, envelope.schema_, envelope.body)
    return EntryContent(kind, body, tuple(references_in(body, "body")))


def read_body(kind: EntryKind[Any], schema: int, body: dict[str, Any]) -> Body:
    """The body as today's schema has it. A schema newer than ours is not for ever refused."""
    if schema > kind.schema:
        sentence = f"This entry was written by a newer version (schema {schema}). It is kept on the phone."
        raise Refused("schema_newer", sentence, permanent=False, schema=schema, newest=kind.schema)
    for older in range(schema, kind.schema):
        body = kind.upcasters[older](dict(body))
    try:
        return cast(Body, kind.body.model_validate_json(json.dumps(body)))
    except ValidationError as misfit:
        raise refusal_of(misfit, "body") from misfit


def _read_edit(line: ReadLine) -> EditContent:
    if line.envelope.strikes is not None:
        raise Refused("shape", "An edit strikes nothing out.", where="strikes")
    try:
        edit = EditBody.model_validate_json(json.dumps(line.envelope.body))
    except ValidationError as misfit:
        raise refusal_of(misfit, "body") from misfit
    record_type = record_type_named(edit.type)
    if record_type is None:
        raise Refused("unknown_type", f"Records of the type {edit.type} are not known here.", type=edit.type)
    return EditContent(record_type, edit.record, edit.base_rev, edit.set)


def read_fields(
    record_type: RecordType[Any], values: Mapping[str, Any], edit: Mapping[str, Any]
) -> tuple[Fields, tuple[Reference, ...]]:
    """The record with the edit laid over it, and what the edit's fields refer to.

    Misfits of fields the edit does not set are older than it and do not hold it up; they are taken unread.
    """
    try:
        fields: Fields = record_type.fields.model_validate_json(json.dumps({**values, **edit}))
    except ValidationError as misfit:
        concerns = [one for one in misfit.errors() if not one["loc"] or one["loc"][0] in edit]
        if concerns or not values:
            raise refusal_of(misfit, "body.set") from misfit
        return record_type.fields.model_construct(None, **{**values, **edit}), ()
    named = {record_type.fields.model_fields[name].alias or name for name in fields.model_fields_set}
    found = references_in(fields, "body.set")
    return fields, tuple(one for one in found if one.where.split(".")[2] in named & edit.keys())
