"""What the ledger tells: the feed, lines of a lot for the fold, records. Plain data of one household."""

from __future__ import annotations

import datetime as dt
import json
import uuid
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar
from zoneinfo import ZoneInfo

from django.db.models import QuerySet

from homestead.household.errors import CannotDo
from homestead.household.models import Household
from homestead.ledger.entries import stored_entries, told_by
from homestead.ledger.feed import stamp
from homestead.ledger.kinds import Entry
from homestead.ledger.models import Erased, Feed, Line, Record, RecordChange, Sheet, Touch
from homestead.ledger.sheets import told
from homestead.ledger.strikes import load_strikes

T = TypeVar("T")

MOST_ROWS = 500
#: a database takes only so many values in one query
CHUNK = 500


@dataclass(frozen=True)
class FeedPage:
    """Ready texts in the order of seq; `last` is the cursor after them, `head` the highest seq given."""

    rows: Sequence[str]
    last: int
    head: int
    more: bool


def pull(household: Household, epoch: int, after: int, limit: int = MOST_ROWS) -> FeedPage:
    """The rows behind a cursor: one index range scan.

    Numbers are given under the household's lock, held to the commit, so that what is seen has no gap and no
    row can appear behind the cursor later. Raises `CannotDo("reset")` for a cursor of another epoch or
    beyond the head.
    """
    rows = list(
        Feed.rows.of(household)
        .filter(seq__gt=after)
        .order_by("seq")
        .values_list("seq", "payload")[: limit + 1]
    )
    # read after the rows: it can only be higher than what they show
    now = Household.objects.only("epoch", "next_seq").get(pk=household.pk)
    head = now.next_seq - 1
    if epoch != now.epoch or after > head:
        sentence = "The ledger was set anew. Keep all, ask what is missing, then pull from the start."
        raise CannotDo("reset", sentence, epoch=now.epoch, head=head)
    page, more = rows[:limit], len(rows) > limit
    last = page[-1][0] if page else after
    return FeedPage([payload for _, payload in page], last, head, more)


def lacking(household: uuid.UUID, ids: Sequence[uuid.UUID]) -> tuple[list[uuid.UUID], list[uuid.UUID]]:
    """Of these lines: which the ledger lacks, and which of those it has erased."""
    here: set[uuid.UUID] = set()
    erased: set[uuid.UUID] = set()
    for chunk in _chunks(ids):
        here.update(Line.rows.of(household).filter(uuid__in=chunk).values_list("uuid", flat=True))
        erased.update(Erased.rows.of(household).filter(uuid__in=chunk).values_list("uuid", flat=True))
    return (
        [one for one in ids if one not in here and one not in erased],
        [one for one in ids if one in erased],
    )


def _chunks(ids: Sequence[T]) -> Iterator[Sequence[T]]:
    return (ids[start : start + CHUNK] for start in range(0, len(ids), CHUNK))


#: a line as it is told, as `_Told`
_TOLD = ("seq", "written", "clock_skew_ms", "received_at")
_Told = tuple[int, str, int, dt.datetime]
ToFold = tuple[dict[str, Any], int, int]


def lines_of_lots(household: uuid.UUID, lots: Iterable[uuid.UUID]) -> list[dict[str, Any]]:
    """All entries that touch any of the lots, and all strikes that bear on them, in seq order.

    Each is the written line, parsed, with `seq`, `received_at` and `clock_skew_ms` added.
    """
    seqs = [seq for _, seq, _ in lines_to_fold(household, lots)]
    found = [
        told
        for chunk in _chunks(seqs)
        for told in Line.rows.of(household).filter(seq__in=chunk).values_list(*_TOLD)
    ]
    return [_as_line(told) for told in sorted(found)]


def lines_to_fold(household: uuid.UUID, lots: Iterable[uuid.UUID]) -> list[ToFold]:
    """The same lines as the fold is told of them, and no more is read: `(written, seq, clock_skew_ms)`."""
    found: dict[int, ToFold] = {}
    wanted = ("written", "seq", "clock_skew_ms")
    for chunk in _chunks(list(set(lots))):
        seqs = Touch.rows.of(household).filter(thing="lot", uuid__in=chunk).values("seq")
        rows = Line.rows.of(household).filter(seq__in=seqs).values_list(*wanted)
        found.update({seq: (json.loads(text), seq, skew_ms) for text, seq, skew_ms in rows.iterator()})
    strikes = _strikes_on(household, {written["id"] for written, _, _ in found.values()})
    rows = Line.rows.of(household).filter(seq__in=strikes - found.keys()).values_list(*wanted)
    found.update({seq: (json.loads(text), seq, skew_ms) for text, seq, skew_ms in rows})
    return [found[seq] for seq in sorted(found)]


def _strikes_on(household: uuid.UUID, touched: set[str]) -> set[int]:
    """Numbers of the strikes that name the lines, or name one that does. A household has few strikes."""
    strikes = Line.rows.of(household).filter(strikes__isnull=False).values_list("uuid", "strikes", "seq")
    naming: defaultdict[str, list[tuple[str, int]]] = defaultdict(list)
    for strike, struck, seq in strikes:
        naming[str(struck)].append((str(strike), seq))
    found: set[int] = set()
    frontier = [one for one in naming if one in touched]
    while frontier:
        fresh = [
            (strike, seq) for struck in frontier for strike, seq in naming.get(struck, ()) if seq not in found
        ]
        found.update(seq for _, seq in fresh)
        frontier = [strike for strike, _ in fresh]
    return found


def all_lines(household: uuid.UUID, *, after: int = 0) -> Iterator[dict[str, Any]]:
    """Every line with seq over `after`, in seq order, as `lines_of_lots`; edits too."""
    lines = Line.rows.of(household).filter(seq__gt=after).order_by("seq").values_list(*_TOLD)
    return (_as_line(told) for told in lines.iterator(chunk_size=2000))


def _as_line(told: _Told) -> dict[str, Any]:
    seq, text, clock_skew_ms, received_at = told
    written: dict[str, Any] = json.loads(text)
    return written | {"seq": seq, "clock_skew_ms": clock_skew_ms, "received_at": stamp(received_at)}


def records_of(household: uuid.UUID, *types: str) -> list[dict[str, Any]]:
    """Records of the types (all, if none named): `{type, record, values, rev, field_revs}`."""
    records: QuerySet[Record] = Record.rows.of(household)
    if types:
        records = records.filter(type__in=types)
    return [
        {
            "type": record.type,
            "record": str(record.uuid),
            "values": record.values,
            "rev": record.rev,
            "field_revs": {name: stand["rev"] for name, stand in record.fields.items()},
        }
        for record in records.order_by("type", "uuid")
    ]


def history_of(household: uuid.UUID, record_type: str, record: uuid.UUID) -> list[dict[str, Any]]:
    """Every value a field had or might have had, oldest first; `stood` is false where a later one stands."""
    changes = RecordChange.rows.of(household).filter(type=record_type, uuid=record).order_by("rev", "id")
    return [
        {
            "rev": change.rev,
            "field": change.field,
            "value": change.value,
            "stood": change.stood,
            "line": str(change.line),
            "person": str(change.person),
            "at": stamp(change.at),
        }
        for change in changes
    ]


def entries_of(household: uuid.UUID, ids: Iterable[uuid.UUID]) -> dict[uuid.UUID, Entry[Any]]:
    """Entries as their kinds see them, struck or not; what is unknown, or an edit, is missing."""
    found = stored_entries(Household.objects.get(pk=household), ids)
    return {key: one.entry for key, one in found.items()}


def struck_of(household: uuid.UUID, ids: Sequence[uuid.UUID]) -> set[uuid.UUID]:
    """Which of the entries do not count: a counting strike names them."""
    strikes = load_strikes(household, (), ids)
    return {one for one in ids if not strikes.counts(one)}


def head_of(household: uuid.UUID) -> int:
    """The highest seq given so far; 0 for none."""
    return Household.objects.values_list("next_seq", flat=True).get(pk=household) - 1


def sheets_of(household: uuid.UUID, *kinds: str) -> list[dict[str, Any]]:
    """The newest sheets, of these kinds if named: `{key, kind, as_of, made_at, inputs, content}`."""
    sheets: QuerySet[Sheet] = Sheet.rows.of(household)
    if kinds:
        sheets = sheets.filter(kind__in=kinds)
    return [told(sheet) for sheet in sheets.order_by("key")]


def life_of_lot(household: uuid.UUID, lot: uuid.UUID) -> list[dict[str, Any]]:
    """The lot's entries in order of time: `{id, kind, when, person, struck, say, photos}`.

    `say` is what happened, for people: `{key, english, facts}`.
    """
    zone = ZoneInfo(Household.objects.values_list("zone", flat=True).get(pk=household))
    seqs = [line["seq"] for line in lines_of_lots(household, [lot])]
    found = list(told_by(Line.rows.of(household).filter(seq__in=seqs), zone))
    struck = struck_of(household, [one.entry.id for one in found])
    life = []
    for one in sorted(found, key=lambda one: (one.entry.when, one.entry.device, one.entry.device_no)):
        sentence = one.kind.say(one.entry)
        life.append(
            {
                "id": str(one.entry.id),
                "kind": one.entry.kind,
                "when": stamp(one.entry.when),
                "person": str(one.entry.person),
                "struck": one.entry.id in struck,
                "say": {"key": sentence.key, "english": sentence.english, "facts": dict(sentence.facts)},
                "photos": list(one.entry.photos),
            }
        )
    return life
