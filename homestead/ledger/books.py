"""What a push must know of the household: looked up in bulk under its lock, kept up as lines are added."""

from __future__ import annotations

import uuid
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from homestead.household.models import Household, Person
from homestead.ledger.models import Birth, Erased, Line, Record
from homestead.ledger.reading import Candidate, EditContent, EntryContent
from homestead.ledger.references import Reference
from homestead.ledger.strikes import Strikes, load_strikes

#: things that a line brings into being; all others are records
BORN = frozenset({"lot", "suspect", "decision"})


@dataclass(frozen=True)
class KnownLine:
    seq: int
    hash: str
    kind: str
    person: uuid.UUID


class Books:
    """Lines, people, things, records and strikes, as far as the batch names them."""

    def __init__(self, household: Household) -> None:
        self.household = household
        self.zone = ZoneInfo(household.zone)
        self.lines: dict[uuid.UUID, KnownLine] = {}
        self.erased: set[uuid.UUID] = set()
        self.people: dict[uuid.UUID, Person] = {}
        self.things: set[tuple[str, uuid.UUID]] = set()
        self.records: dict[tuple[str, uuid.UUID], Record] = {}
        #: lines by phone and number, those found in the ledger with their seq
        self.numbers: defaultdict[tuple[uuid.UUID, int], dict[uuid.UUID, int]] = defaultdict(dict)
        self.strikes = Strikes()

    def load_people(self) -> None:
        self.people = {person.uuid: person for person in Person.rows.of(self.household)}

    def load_lines(self, ids: Iterable[uuid.UUID]) -> None:
        found = Line.rows.of(self.household).filter(uuid__in=set(ids) - self.lines.keys())
        for line, seq, text_hash, kind, person in found.values_list(
            "uuid", "seq", "body_hash", "kind", "person"
        ):
            self.lines[line] = KnownLine(seq, text_hash, kind, person)

    def load_things(self, references: Iterable[Reference]) -> None:
        wanted: defaultdict[str, set[uuid.UUID]] = defaultdict(set)
        for reference in references:
            wanted[reference.thing].add(reference.id)
        for thing, ids in wanted.items():
            self.things.update((thing, one) for one in self._known_of(thing, ids))

    def _known_of(self, thing: str, ids: set[uuid.UUID]) -> Iterable[uuid.UUID]:
        if thing == "person":
            return ids & self.people.keys()
        if thing in BORN:
            born = Birth.rows.of(self.household).filter(thing=thing, uuid__in=ids)
            return born.values_list("uuid", flat=True)
        records = Record.rows.of(self.household).filter(type=thing, uuid__in=ids)
        return records.values_list("uuid", flat=True)

    def load_records(self, keys: Iterable[tuple[str, uuid.UUID]]) -> None:
        wanted = set(keys) - self.records.keys()
        if not wanted:
            return
        found = Record.rows.of(self.household).filter(uuid__in={record for _, record in wanted})
        self.records.update({(one.type, one.uuid): one for one in found if (one.type, one.uuid) in wanted})

    def record(self, record_type: str, record: uuid.UUID) -> Record:
        """The record as it stands, or a new one with rev 0, not yet kept."""
        key = (record_type, record)
        if key not in self.records:
            self.records[key] = Record(household=self.household, type=record_type, uuid=record, rev=0)
        return self.records[key]

    def reread(self, record_type: str) -> None:
        """After a record of this type was settled: people and the zone decide about the lines that follow."""
        if record_type == "person":
            self.load_people()
        elif record_type == "household":
            fresh = Household.objects.only("zone", "code_prefix").get(pk=self.household.pk)
            self.household.zone, self.household.code_prefix = fresh.zone, fresh.code_prefix
            self.zone = ZoneInfo(fresh.zone)

    def knows(self, thing: str, one: uuid.UUID) -> bool:
        return (thing, one) in self.things

    def number_was_taken(self, device: uuid.UUID, number: int, line: uuid.UUID) -> bool:
        """Did another line bear this number of this phone before? Then a phone's store was copied.

        The first to come keeps the number and the name; only the later one is a copy.
        """
        mine = self.lines[line].seq
        bearing = self.numbers[(device, number)].items()
        return any((seq or self.lines[one].seq) < mine for one, seq in bearing if one != line)


def open_books(household: Household, batch: Sequence[Candidate]) -> Books:
    """Look up all the batch names, in a handful of queries whatever its length."""
    books = Books(household)
    ids = {candidate.pushed.id for candidate in batch if candidate.pushed.id}
    envelopes = [candidate.pushed.line.envelope for candidate in batch if candidate.pushed.line]
    struck = {envelope.strikes for envelope in envelopes if envelope.strikes}
    books.load_people()
    books.load_lines(ids | struck)
    books.erased = set(Erased.rows.of(household).filter(uuid__in=ids).values_list("uuid", flat=True))
    books.load_things(
        reference
        for candidate in batch
        if isinstance(candidate.content, EntryContent)
        for reference in candidate.content.references
    )
    books.load_records(
        (candidate.content.type.name, candidate.content.record)
        for candidate in batch
        if isinstance(candidate.content, EditContent)
    )
    _load_numbers(books, {(one.device, one.device_no) for one in envelopes})
    books.strikes = load_strikes(household.pk, ids - struck, struck)
    return books


def _load_numbers(books: Books, numbers: set[tuple[uuid.UUID, int]]) -> None:
    by_device: defaultdict[uuid.UUID, set[int]] = defaultdict(set)
    for device, number in numbers:
        by_device[device].add(number)
    for device, found in by_device.items():
        lines = Line.rows.of(books.household).filter(device=device, device_no__in=found)
        for number, line, seq in lines.values_list("device_no", "uuid", "seq"):
            books.numbers[(device, number)][line] = seq
