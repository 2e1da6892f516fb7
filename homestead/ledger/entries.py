"""Lines as their kinds see them: `Entry` with its body read and its time corrected."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any
from zoneinfo import ZoneInfo

from homestead.household.models import Household
from homestead.ledger.envelope import Envelope, ReadLine, when_of
from homestead.ledger.kinds import Entry, EntryKind
from homestead.ledger.models import Line
from homestead.ledger.reading import EntryContent, read_content


@dataclass(frozen=True)
class Told:
    """An entry and its kind."""

    kind: EntryKind[Any]
    entry: Entry[Any]


def entry_from(
    envelope: Envelope, content: EntryContent, seq: int, clock_skew_ms: int, zone: ZoneInfo
) -> Entry[Any]:
    when = when_of(envelope.happened_at, envelope.dated, clock_skew_ms)
    return Entry(
        household=envelope.household,
        id=envelope.id,
        seq=seq,
        device=envelope.device,
        device_no=envelope.device_no,
        person=envelope.person,
        kind=envelope.kind,
        schema=envelope.schema_,
        happened_at=envelope.happened_at,
        when=when.astimezone(dt.UTC),
        day=when.astimezone(zone).date(),
        body=content.body,
        with_people=envelope.with_ or (),
        strikes=envelope.strikes,
        photos=envelope.photos or (),
    )


def read_stored(line: Line) -> ReadLine:
    """A line of the ledger, read again; it was judged when it came."""
    return ReadLine(Envelope.model_validate_json(line.written), line.written, line.body_hash)


def told_by(lines: Iterable[Line], zone: ZoneInfo) -> Iterator[Told]:
    """The entries among the lines; edits are left out."""
    for line in lines:
        read = read_stored(line)
        content = read_content(read)
        if isinstance(content, EntryContent):
            entry = entry_from(read.envelope, content, line.seq, line.clock_skew_ms, zone)
            yield Told(content.kind, entry)


def stored_entries(household: Household, ids: Iterable[uuid.UUID]) -> dict[uuid.UUID, Told]:
    """Entries of the household by id, struck or not; what is unknown, or an edit, is missing."""
    lines = Line.rows.of(household).filter(uuid__in=set(ids))
    return {told.entry.id: told for told in told_by(lines, ZoneInfo(household.zone))}
