"""Who may push which line, and whether what it names is here. Raises `Refused`; writes nothing."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterable
from dataclasses import dataclass
from typing import NoReturn

from homestead.household.minding import ended_before
from homestead.household.models import Person
from homestead.household.roles import MINDER_GRACE, needs_switch, strikes_anyones
from homestead.ledger.books import Books
from homestead.ledger.envelope import EDIT, ReadLine
from homestead.ledger.kinds import Refused
from homestead.ledger.reading import EditContent, EntryContent, read_fields
from homestead.ledger.records import Change
from homestead.ledger.references import Reference


@dataclass(frozen=True)
class Author:
    """Who brings the lines: a phone with the people listed on it; without one, the server itself."""

    device: uuid.UUID | None = None
    people: frozenset[uuid.UUID] = frozenset()


class Gate:
    """The checks of one push. `refused` are ids whose line this push did not take, with whether for ever."""

    def __init__(self, books: Books, author: Author, now: dt.datetime) -> None:
        self.books = books
        self.author = author
        self.now = now
        self.refused: dict[uuid.UUID, bool] = {}

    def check_entry(self, line: ReadLine, content: EntryContent, when: dt.datetime, recovered: bool) -> None:
        person = self._check_writer(line, recovered)
        if person and person.role not in content.kind.roles:
            sentence = f"{person.name} may not write entries of the kind {content.kind.name}."
            raise Refused("role", sentence, role=person.role, kind=content.kind.name)
        if person:
            self._check_minder(person, when)
            self._check_switch(person, content)
        if line.envelope.strikes:
            self._check_strike(line.envelope.id, line.envelope.strikes, person)
        self._check_references(content.references)

    def check_edit(self, line: ReadLine, content: EditContent, recovered: bool) -> None:
        person = self._check_writer(line, recovered)
        record = self.books.record(content.type.name, content.record)
        if person:
            self._check_may_edit(person, content)
        if record.rev == 0 and not content.type.made_by_edit:
            self._refuse_unknown(content.type.name, content.record, "body.record")
        _, references = read_fields(content.type, record.values, content.set)
        self.books.load_things(references)
        self._check_references(references)
        content.type.check(
            Change(
                household=self.books.household.pk,
                record=content.record,
                person=line.envelope.person,
                role=person.role if person else "keeper",
                set=content.set,
                new=record.rev == 0,
            )
        )

    def _check_writer(self, line: ReadLine, recovered: bool) -> Person | None:
        """The person whose role decides; None where the server itself writes."""
        envelope = line.envelope
        if envelope.household != self.books.household.pk:
            raise Refused("other_household", "This line belongs to another household than this phone does.")
        for place, named in enumerate(envelope.with_ or ()):
            self._check_references([Reference("person", named, f"with.{place}")])
        if self.author.device is None:
            return None
        if envelope.person not in self.author.people and not self._may_recover(recovered):
            sentence = "Its writer is not listed on this phone. Sign in with them on it, then it is sent."
            raise Refused("person_not_here", sentence, permanent=False, person=str(envelope.person))
        person = self.books.people.get(envelope.person)
        if person is None:
            self._refuse_unknown("person", envelope.person, "person")
        return person

    def _may_recover(self, recovered: bool) -> bool:
        """After a reset any phone of the family brings back what it holds, by whomever."""
        return recovered and self.books.household.epoch > 1

    def _check_minder(self, person: Person, when: dt.datetime) -> None:
        if person.role != "minder" or person.until is None:
            return
        zone = self.books.zone
        if when.astimezone(zone).date() > person.until:
            raise Refused("minder_ended", f"{person.name} minded the place until {person.until}.")
        if ended_before(self.books.household.pk, person.uuid, when):
            raise Refused("minder_ended", f"The link of {person.name} was ended before that.")
        if self.now.astimezone(zone).date() > person.until + MINDER_GRACE:
            sentence = f"{person.name}'s lines were taken until 30 days after {person.until}."
            raise Refused("minder_ended", sentence)

    def _check_switch(self, person: Person, content: EntryContent) -> None:
        if needs_switch(person.role) and not person.may_decide and content.kind.asks_switch(content.body):
            sentence = f"{person.name} may not decide this or send it to animals. An adult writes it."
            raise Refused("needs_switch", sentence, kind=content.kind.name)

    def _check_may_edit(self, person: Person, content: EditContent) -> None:
        own = content.type.keeper_fields & content.set.keys()
        if person.role not in content.type.roles or (own and person.role != "keeper"):
            fields = sorted(own) if person.role in content.type.roles else sorted(content.set)
            sentence = f"{person.name} may not change {', '.join(fields)} of a {content.type.name}."
            raise Refused("role", sentence, role=person.role, type=content.type.name, fields=fields)

    def _check_strike(self, strike: uuid.UUID, struck: uuid.UUID, person: Person | None) -> None:
        known = self.books.lines.get(struck)
        if known and known.kind == EDIT:
            raise Refused("strike_of_edit", "An edit is not struck out: edit the field again.")
        if person and not strikes_anyones(person.role):
            if known is None:
                self._refuse_unknown("entry", struck, "strikes")
            elif known.person != person.uuid:
                raise Refused("role", f"{person.name} may strike out own entries only.", role=person.role)
        self.books.strikes.check(strike, struck)

    def _check_references(self, references: Iterable[Reference]) -> None:
        for reference in references:
            known = (
                reference.id in self.books.people
                if reference.thing == "person"
                else self.books.knows(reference.thing, reference.id)
            )
            if not known:
                self._refuse_unknown(reference.thing, reference.id, reference.where)

    def _refuse_unknown(self, thing: str, named: uuid.UUID, where: str) -> NoReturn:
        facts = {"thing": thing, "id": str(named), "where": where}
        if named in self.refused:
            sentence = f"It needs a {thing} whose own line was refused. Mend that one first."
            permanent = self.refused[named]
            raise Refused("parent_refused", sentence, permanent=permanent, **facts)
        sentence = f"The {thing} it names is not known here yet. It waits on the phone and is sent again."
        raise Refused("unknown_reference", sentence, permanent=False, **facts)
