"""Writes admitted lines: typed tables, records, strikes, then the ledger's own tables in bulk.

Push and replay both write through a `Page`, so that what is worked out again is worked out the same way.
"""

from __future__ import annotations

import datetime as dt
import logging
import uuid
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from django.db import InterfaceError, OperationalError, transaction

from homestead.ledger.books import Books, KnownLine
from homestead.ledger.descriptions import Described, begin, change
from homestead.ledger.entries import Told, entry_from, stored_entries
from homestead.ledger.envelope import ReadLine
from homestead.ledger.followers import Touched
from homestead.ledger.kinds import EntryKind
from homestead.ledger.models import Record, RecordChange, Touch
from homestead.ledger.reading import EditContent, EntryContent

logger = logging.getLogger(__name__)


@dataclass
class Item:
    """One line on its way into the ledger, and what became of it."""

    line: ReadLine
    content: EntryContent | EditContent
    received_at: dt.datetime
    clock_skew_ms: int
    recovered_by: uuid.UUID | None = None
    given: dict[str, Any] = field(default_factory=dict)
    seq: int = 0
    told: Told | None = None
    described: Described | None = None
    lots: frozenset[uuid.UUID] = frozenset()
    births: tuple[tuple[str, uuid.UUID], ...] = ()
    failed: bool = False

    @property
    def id(self) -> uuid.UUID:
        return self.line.envelope.id


class Page:
    """Takes admitted lines in order. Entries of one kind that stand together are settled together.

    A line whose settling fails is marked `failed` and left out, the others stand: such a failure is a fault
    of ours, and it must not hold up a phone. `replaying` raises it, and knows no lines but those of the page.
    """

    def __init__(self, books: Books, *, replaying: bool = False) -> None:
        self.books = books
        self.written: list[Item] = []
        self.changes: list[RecordChange] = []
        self.more_lots: set[uuid.UUID] = set()
        self._replaying = replaying
        self._run: list[Item] = []
        self._fresh: dict[uuid.UUID, Item] = {}

    def tell(self, item: Item) -> Told:
        """The entry, under the number it most likely gets; entries of another kind are settled first."""
        assert isinstance(item.content, EntryContent)
        kind = item.content.kind
        if self._run and (kind.one_by_one or _kind_of(self._run[0]) is not kind):
            self.flush()
        seq = item.seq or self.books.household.next_seq + len(self._run)
        entry = entry_from(item.line.envelope, item.content, seq, item.clock_skew_ms, self.books.zone)
        item.told = Told(kind, entry)
        return item.told

    def take_entry(self, item: Item) -> None:
        """After `tell`: the entry was admitted."""
        assert item.told
        item.births = tuple(item.told.kind.births(item.told.entry))
        self.books.things.update(item.births)
        self._know(item)
        self._run.append(item)
        if item.told.entry.strikes:
            self.flush()

    def take_edit(self, item: Item) -> None:
        self.flush()
        self._know(item)
        self._settle_run([item])

    def flush(self) -> None:
        run, self._run = self._run, []
        self._settle_run(run)

    def touched(self) -> Touched:
        """What the page changed, once all is flushed."""
        described = [item.described for item in self.written if item.described]
        counting = (
            item.told.entry
            for item in self.written
            if item.told and self.books.strikes.counts(item.told.entry.id)
        )
        return Touched(
            household=self.books.household.pk,
            head=self.books.household.next_seq - 1,
            lots=frozenset(self.more_lots.union(*(item.lots for item in self.written))),
            entries=tuple(counting),
            records=frozenset((one.type.name, one.record.uuid) for one in described),
        )

    def _know(self, item: Item) -> None:
        envelope = item.line.envelope
        self.books.lines[item.id] = KnownLine(item.seq, item.line.hash, envelope.kind, envelope.person)
        self.books.numbers[(envelope.device, envelope.device_no)][item.id] = 0
        self._fresh[item.id] = item

    def _settle_run(self, run: Sequence[Item]) -> None:
        if not run:
            return
        first = self.books.household.next_seq
        try:
            with transaction.atomic():
                self._number(run)
                self._settle(run)
        except (OperationalError, InterfaceError):
            raise
        except Exception:
            if self._replaying:
                raise
            self.books.household.next_seq = first
            self._settle_apart(run)
        else:
            self.written += run

    def _settle_apart(self, run: Sequence[Item]) -> None:
        if len(run) > 1:
            for item in run:
                self._settle_run([item])
            return
        [item] = run
        logger.exception("An entry of the kind %s could not be settled.", item.line.envelope.kind)
        item.failed, item.seq = True, 0
        self.books.things.difference_update(item.births)
        self.books.strikes.drop(item.id)
        envelope = item.line.envelope
        del self.books.numbers[(envelope.device, envelope.device_no)][item.id]
        del self.books.lines[item.id], self._fresh[item.id]

    def _number(self, run: Sequence[Item]) -> None:
        household = self.books.household
        for item in run:
            item.seq = item.seq if self._replaying else household.next_seq
            household.next_seq = max(household.next_seq, item.seq + 1)
            if item.told and item.told.entry.seq != item.seq:
                item.told = Told(item.told.kind, replace(item.told.entry, seq=item.seq))

    def _settle(self, run: Sequence[Item]) -> None:
        if isinstance(run[0].content, EditContent):
            self._settle_edit(run[0], run[0].content)
        elif run[0].line.envelope.strikes:
            self._settle_strike(run[0], run[0].line.envelope.strikes)
        else:
            self._settle_entries(run)
        for item in run:
            self.books.lines[item.id] = replace(self.books.lines[item.id], seq=item.seq)

    def _settle_entries(self, run: Sequence[Item]) -> None:
        kind = _kind_of(run[0])
        told = [item.told.entry for item in run if item.told]
        kind.settle_all(told)
        for entry in told:
            # struck before it came: what others name of it, such as a lot, must be there all the same
            if not self.books.strikes.counts(entry.id):
                kind.undo(entry)
        for item, entry in zip(run, told, strict=True):
            item.lots = frozenset(kind.lots(entry))
            beginning = kind.begins(entry)
            if beginning:
                assert item.told
                item.described = begin(self.books, item.told, beginning, item.given)
                item.given = dict(item.described.given)
                item.described.type.settle(item.described.state)
        described = [item.described for item in run if item.described]
        self._take(described)
        Record.everywhere.bulk_create([one.record for one in described])

    def _settle_edit(self, item: Item, content: EditContent) -> None:
        item.described = change(self.books, item.line.envelope, content, item.clock_skew_ms)
        content.type.settle(item.described.state)
        item.lots = frozenset(content.type.lots(item.described.state))
        self._take([item.described])
        item.described.record.save()
        self.books.things.add((content.type.name, content.record))
        self.books.reread(content.type.name)

    def _take(self, described: Sequence[Described]) -> None:
        """Records are kept at once: checks of the lines that follow may ask for them."""
        for one in described:
            one.take()
            self.changes += one.changes

    def _settle_strike(self, item: Item, struck: uuid.UUID) -> None:
        """Undo or settle again the entry at the end of the chain, if whether it counts has changed."""
        strikes = self.books.strikes
        *_, end = strikes.chain(struck)
        counted = strikes.counts(end)
        strikes.add(item.id, struck)
        counts = strikes.counts(end)
        told = self._told(end)
        if told is None:
            return
        if counted and not counts:
            told.kind.undo(told.entry)
        elif counts and not counted:
            told.kind.settle(told.entry)
        self.more_lots |= self._lots_of(told)

    def _told(self, entry: uuid.UUID) -> Told | None:
        if entry in self._fresh or self._replaying:
            return self._fresh[entry].told if entry in self._fresh else None
        if entry not in self.books.lines:
            self.books.load_lines([entry])
        if entry not in self.books.lines:
            return None
        return stored_entries(self.books.household, [entry]).get(entry)

    def _lots_of(self, told: Told) -> set[uuid.UUID]:
        if told.entry.id in self._fresh:
            return set(self._fresh[told.entry.id].lots)
        touches = Touch.rows.of(self.books.household).filter(thing="lot", seq=told.entry.seq)
        return set(touches.values_list("uuid", flat=True))


def _kind_of(item: Item) -> EntryKind[Any]:
    assert item.told
    return item.told.kind
