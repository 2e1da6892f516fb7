"""Records: begun by an entry or changed by an edit, settled in their room, kept in the ledger's tables."""

from __future__ import annotations

import datetime as dt
import re
import uuid
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from homestead.ledger.books import Books
from homestead.ledger.entries import Told
from homestead.ledger.envelope import Envelope, when_of
from homestead.ledger.feed import stamp
from homestead.ledger.kinds import Beginning
from homestead.ledger.merge import Conflict, Edit, Merged, merge
from homestead.ledger.models import Record, RecordChange
from homestead.ledger.reading import EditContent, read_fields
from homestead.ledger.records import RecordState, RecordType, record_type_named

#: a code beyond the next number is believed so far; a higher one is somebody's own scheme
CODES_AHEAD = 10_000


@dataclass(frozen=True)
class Described:
    """A record as it will stand, not yet taken into the books: what settling it may still undo."""

    record: Record
    merged: Merged
    state: RecordState[Any]
    type: RecordType[Any]
    changes: tuple[RecordChange, ...]
    given: Mapping[str, Any] = field(default_factory=dict)

    @property
    def outcome(self) -> dict[str, Any]:
        """What other phones apply: the values now standing, `rev`, and which `rev` last set each field."""
        told: dict[str, Any] = {
            "type": self.type.name,
            "record": str(self.record.uuid),
            "values": self.merged.values,
            "rev": self.merged.rev,
            "field_revs": {name: stand["rev"] for name, stand in self.merged.fields.items()},
        }
        if self.merged.conflicts:
            told["conflicts"] = [dict(conflict) for conflict in self.merged.conflicts]
        return told

    def take(self) -> None:
        self.record.rev = self.merged.rev
        self.record.values = self.merged.values
        self.record.fields = self.merged.fields


def begin(books: Books, told: Told, beginning: Beginning, given: Mapping[str, Any]) -> Described:
    """The record an entry makes. `given` are values the server gave before, at replay."""
    record_type = record_type_named(beginning.type)
    assert record_type, f"no record type {beginning.type}"
    given = dict(given) or _give_code(books, record_type, beginning.values)
    values = {name: value for name, value in {**beginning.values, **given}.items() if value is not None}
    entry = told.entry
    edit = Edit(
        base_rev=0,
        set=values,
        when_ms=_ms(entry.when),
        device=str(entry.device),
        no=entry.device_no,
        person=str(entry.person),
        line=str(entry.id),
        at=stamp(entry.when),
    )
    return _describe(books, record_type, beginning.record, edit, given)


def change(books: Books, envelope: Envelope, content: EditContent, clock_skew_ms: int) -> Described:
    """The record after an edit."""
    when = when_of(envelope.happened_at, envelope.dated, clock_skew_ms)
    edit = Edit(
        base_rev=content.base_rev,
        set=content.set,
        when_ms=_ms(when),
        device=str(envelope.device),
        no=envelope.device_no,
        person=str(envelope.person),
        line=str(envelope.id),
        at=stamp(when),
    )
    return _describe(books, content.type, content.record, edit, {})


def _describe(
    books: Books, record_type: RecordType[Any], key: uuid.UUID, edit: Edit, given: Mapping[str, Any]
) -> Described:
    record = books.record(record_type.name, key)
    merged = merge(record.rev, record.values, record.fields, edit)
    fields, _ = read_fields(record_type, merged.values, {})
    state = RecordState(
        household=books.household.pk,
        type=record_type.name,
        id=key,
        rev=merged.rev,
        values=merged.values,
        fields=fields,
    )
    changes = tuple(
        RecordChange(
            household_id=books.household.pk,
            type=record_type.name,
            uuid=key,
            rev=merged.rev,
            field=name,
            value=value,
            stood=name not in merged.passed_over,
            line=uuid.UUID(edit.line),
            person=uuid.UUID(edit.person),
            at=dt.datetime.fromtimestamp(edit.when_ms / 1000, dt.UTC),
        )
        for name, value in edit.set.items()
    )
    return Described(record, merged, state, record_type, changes, given)


def conflicts_of(described: Described) -> tuple[Conflict, ...]:
    return described.merged.conflicts


def _give_code(books: Books, record_type: RecordType[Any], values: Mapping[str, Any]) -> dict[str, Any]:
    """A number of the household's own where the phone had none left; a told one is counted as used."""
    name = record_type.code_field
    if name is None or name not in values:
        return {}
    household = books.household
    if values[name] is None:
        given = {name: f"{household.code_prefix}{household.next_code}"}
        household.next_code += 1
        return given
    number = number_in(str(values[name]))
    if number is not None and number < household.next_code + CODES_AHEAD:
        household.next_code = max(household.next_code, number + 1)
    return {}


def number_in(code: str) -> int | None:
    """The number a code ends with."""
    found = re.search(r"(\d{1,9})$", code)
    return int(found[1]) if found else None


def _ms(moment: dt.datetime) -> int:
    return round(moment.timestamp() * 1000)
