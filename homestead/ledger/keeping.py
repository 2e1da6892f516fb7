"""Writes what a page holds into the ledger's own tables, each in bulk."""

from __future__ import annotations

from collections.abc import Sequence

from homestead.household.models import Household
from homestead.ledger.envelope import EDIT
from homestead.ledger.feed import as_text, render_line
from homestead.ledger.models import Birth, Feed, Line, RecordChange, Touch
from homestead.ledger.page import Item, Page


def keep_lines(household: Household, items: Sequence[Item]) -> None:
    """The truth itself: never done at replay."""
    Line.everywhere.bulk_create([_line(household, item) for item in items])


def keep_derived(household: Household, page: Page) -> None:
    """The feed, births, touches and the history of records; the records themselves were kept at once."""
    items = page.written
    Feed.everywhere.bulk_create(
        [Feed(household=household, seq=item.seq, payload=_payload(item)) for item in items]
    )
    Birth.everywhere.bulk_create(
        [
            Birth(household=household, thing=thing, uuid=born, seq=item.seq)
            for item in items
            for thing, born in item.births
        ]
    )
    Touch.everywhere.bulk_create(
        [
            Touch(household=household, thing="lot", uuid=lot, seq=item.seq)
            for item in items
            for lot in sorted(item.lots)
            if item.line.envelope.kind != EDIT
        ]
    )
    RecordChange.everywhere.bulk_create(page.changes)


def _line(household: Household, item: Item) -> Line:
    envelope = item.line.envelope
    return Line(
        household=household,
        seq=item.seq,
        uuid=envelope.id,
        kind=envelope.kind,
        schema=envelope.schema_,
        device=envelope.device,
        device_no=envelope.device_no,
        person=envelope.person,
        happened_at=envelope.happened_at,
        received_at=item.received_at,
        clock_skew_ms=item.clock_skew_ms,
        strikes=envelope.strikes,
        written=item.line.text,
        body_hash=item.line.hash,
        given=as_text(item.given) if item.given else "",
        recovered_by=item.recovered_by,
    )


def _payload(item: Item) -> str:
    return render_line(
        item.seq,
        EDIT if item.line.envelope.kind == EDIT else "entry",
        item.line.text,
        item.line.hash,
        item.received_at,
        item.clock_skew_ms,
        item.described.outcome if item.described else None,
    )
