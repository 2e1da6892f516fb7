"""What changes the ledger. Every number of a household is given here, under that household's lock."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.db import transaction

from homestead.household.errors import CannotDo
from homestead.household.models import Device
from homestead.household.phones import LetIn, Numbers, renew, top_up
from homestead.ledger import models
from homestead.ledger.descriptions import number_in
from homestead.ledger.gate import Author
from homestead.ledger.models import Erased, Feed, Leaving, Line
from homestead.ledger.page import Item
from homestead.ledger.posting import Posting, Receipt, lock
from homestead.ledger.reading import read_batch
from homestead.ledger.sheets import SheetText as Sheet
from homestead.ledger.sheets import keep_sheet

__all__ = [
    "Codes",
    "Push",
    "Receipt",
    "Sheet",
    "append_lines",
    "write_down",
    "write_sheet",
    "write_sheets",
]

MOST_LINES = 200


@dataclass(frozen=True)
class Codes:
    """The phone's newest block of lot numbers, told in every reply; one that has it already does nothing."""

    first: int
    last: int


@dataclass(frozen=True)
class Push:
    """The reply to a push. `renewed`: this phone's store is a copy, and goes on as the device told here."""

    receipts: Sequence[Receipt]
    codes: Codes
    clock_skew_ms: int
    renewed: LetIn | None = None


def append_lines(
    device: Device,
    lines: Sequence[object],
    *,
    sent_at: dt.datetime,
    now: dt.datetime,
    numbers: Numbers | None = None,
) -> Push:
    """A phone's push: `lines` are `{"written": {...}, "recovered"?: {...}}` as parsed from JSON.
    `numbers` are the lot numbers it says it has.

    One transaction; one receipt a line, in order; one bad line never fails the rest.
    Raises `CannotDo("too_many_lines")` for more than 200.
    """
    if len(lines) > MOST_LINES:
        sentence = f"{len(lines)} lines in one push. Send at most {MOST_LINES}."
        raise CannotDo("too_many_lines", sentence, most=MOST_LINES)
    skew = round((now - sent_at).total_seconds() * 1000)
    batch = read_batch(lines)
    with transaction.atomic():
        household = lock(device.household_id)
        device = Device.rows.of(household).get(pk=device.pk)
        people = frozenset(uuid.UUID(one) for one in device.people)
        posting = Posting(household, batch, Author(device.pk, people), now)
        receipts = posting.post(skew)
        _note_push(device, posting, skew, now)
        top_up(household, device, _codes_told(device, posting), numbers)
        device.save()
        renewed = renew(household, device, now) if posting.copied_store() else None
    goes_on_as = renewed.device if renewed else device
    return Push(receipts, Codes(goes_on_as.code_from, goes_on_as.code_to), skew, renewed)


def _note_push(device: Device, posting: Posting, skew: int, now: dt.datetime) -> None:
    numbers = [item.line.envelope.device_no for item in _own(device, posting)]
    device.highest_no = max([device.highest_no, *numbers])
    device.clock_skew_ms, device.last_seen = skew, now


def _own(device: Device, posting: Posting) -> list[Item]:
    return [item for item in posting.page.written if item.line.envelope.device == device.pk]


def _codes_told(device: Device, posting: Posting) -> list[int]:
    return [code for item in _own(device, posting) if (code := _code_of(item)) is not None]


def _code_of(item: Item) -> int | None:
    """The number of the code the phone told in a birth."""
    described = item.described
    name = described.type.code_field if described else None
    if described is None or name is None or name in described.given:
        return None
    return number_in(str(described.merged.values.get(name, "")))


def write_down(
    household: uuid.UUID, written: Sequence[Mapping[str, object]], *, now: dt.datetime
) -> Sequence[Receipt]:
    """Lines the server itself brings (the invented household, an import): roles and sizes are not asked.

    `received_at` is `now`, the skew 0. All in one transaction; read the receipts, a line may be refused.
    """
    batch = read_batch([{"written": line} for line in written])
    with transaction.atomic():
        return Posting(lock(household), batch, Author(), now).post(0)


def write_sheets(household: uuid.UUID, sheets: Sequence[Sheet], *, now: dt.datetime) -> Sequence[int | None]:
    """Put sheets into the feed, each under its key; the older row of the key leaves it at the same time.

    An unchanged sheet is written anew once a day at most. Returns each seq, None where nothing changed.
    """
    with transaction.atomic():
        locked = lock(household)
        numbers = [keep_sheet(locked, sheet, now) for sheet in sheets]
        locked.save(update_fields=["next_seq"])
    return numbers


def write_sheet(household: uuid.UUID, sheet: Sheet, *, now: dt.datetime) -> int | None:
    """One sheet, see `write_sheets`."""
    return write_sheets(household, [sheet], now=now)[0]


def drop_sheets(household: uuid.UUID, keys: Sequence[str]) -> None:
    """Sheets whose subject is gone leave the feed."""
    with transaction.atomic():
        locked = lock(household)
        gone = models.Sheet.rows.of(locked).filter(key__in=keys)
        Feed.rows.of(locked).filter(seq__in=gone.values("seq")).delete()
        gone.delete()


def begin_epoch(household: uuid.UUID) -> int:
    """After a restore or an erasure: every cursor is void, sheets are dropped. Returns the new epoch."""
    with transaction.atomic():
        locked = lock(household)
        Feed.rows.of(locked).filter(seq__in=models.Sheet.rows.of(locked).values("seq")).delete()
        models.Sheet.rows.of(locked).delete()
        locked.epoch += 1
        locked.save(update_fields=["epoch"])
    return locked.epoch


def note_erased(household: uuid.UUID, ids: Sequence[uuid.UUID], *, now: dt.datetime) -> None:
    """From now on lines with these ids are never taken again."""
    Erased.everywhere.bulk_create(
        [Erased(household_id=household, uuid=one, erased_at=now) for one in ids], ignore_conflicts=True
    )


def open_for_clearing() -> None:
    """Let every household's lines be deleted: the teardown of tests, and nothing else, calls this."""
    Leaving.objects.bulk_create(
        [Leaving(household=one) for one in Line.everywhere.values_list("household_id", flat=True).distinct()],
        ignore_conflicts=True,
    )
