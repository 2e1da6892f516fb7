"""The entry kinds of the store. Each writes one row a lot it names; amounts are the fold's to work out."""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Sequence
from functools import partial
from typing import Any, TypeVar

from homestead.household.roles import GROWN, WALKERS, WALKERS_AND_MINDER
from homestead.household.rows import key_of
from homestead.ledger.kinds import Beginning, Body, Entry, EntryKind, Sentence, Thing
from homestead.store import bodies, telling
from homestead.store.amounts import MaybeAmount
from homestead.store.feeding import (
    ToldWent,
    check_eggs_held,
    check_feeding,
    crop_of_lot,
    of_out,
    of_trimmed,
    to_animals,
)
from homestead.store.known import check_crop, check_findings, check_pack
from homestead.store.models import Happening, Lot, Reading
from homestead.store.putting_by import check_put_by

B = TypeVar("B", bound=Body)


class HappeningKind(EntryKind[B]):
    """Base of the kinds that happen to lots: what differs is which lots, and what is told of each."""

    roles = WALKERS
    changes_stock = True

    def told(self, body: B) -> list[ToldWent]:
        """All that went somewhere, for the feeding rules."""
        return []

    def rows(self, entry: Entry[B]) -> list[Happening]:
        raise NotImplementedError

    def asks_switch(self, body: B) -> bool:
        return to_animals(self.told(body))

    def settle(self, entry: Entry[B]) -> None:
        self.settle_all([entry])

    def settle_all(self, entries: Sequence[Entry[B]]) -> None:
        Happening.everywhere.bulk_create([row for entry in entries for row in self.rows(entry)])

    def undo(self, entry: Entry[B]) -> None:
        Happening.rows.of(entry.household).filter(entry=entry.id).delete()


def happening(
    entry: Entry[Any],
    lot: uuid.UUID,
    *,
    born: uuid.UUID | None = None,
    space: uuid.UUID | None = None,
    **told: Any,
) -> Happening:
    """One row, not yet kept: what the entry tells of one lot."""
    return Happening(
        household_id=entry.household,
        entry=entry.id,
        kind=entry.kind,
        lot_id=key_of(entry.household, lot),
        born_id=born and key_of(entry.household, born),
        space_id=space and key_of(entry.household, space),
        person_id=key_of(entry.household, entry.person),
        when=entry.when,
        day=entry.day,
        **told,
    )


def amount(told: MaybeAmount) -> dict[str, Any]:
    return {"pieces": told.pieces, "grams": told.grams, "measured": told.measured or ""}


class PutAwayKind(HappeningKind[bodies.PutAway]):
    name = "put_away"
    body = bodies.PutAway

    def lots(self, entry: Entry[bodies.PutAway]) -> Iterable[uuid.UUID]:
        return (entry.id,)

    def births(self, entry: Entry[bodies.PutAway]) -> Iterable[tuple[Thing, uuid.UUID]]:
        return (("lot", entry.id),)

    def begins(self, entry: Entry[bodies.PutAway]) -> Beginning:
        variety = {"variety": entry.body.variety} if entry.body.variety else {}
        return Beginning("lot", entry.id, {"code": entry.body.code} | variety)

    def check(self, entry: Entry[bodies.PutAway]) -> None:
        check_crop(entry.household, entry.body.crop)
        check_pack(entry.body.pack)
        check_eggs_held(entry, entry.body.crop)

    def settle_all(self, entries: Sequence[Entry[bodies.PutAway]]) -> None:
        born = [
            Lot(
                household_id=entry.household,
                uuid=entry.id,
                crop=entry.body.crop,
                born_by=self.name,
                cures_until=entry.body.cures_until,
            )
            for entry in entries
        ]
        Lot.everywhere.bulk_create(born, ignore_conflicts=True)
        super().settle_all(entries)

    def rows(self, entry: Entry[bodies.PutAway]) -> list[Happening]:
        space = entry.body.space
        return [happening(entry, entry.id, **amount(entry.body), born=entry.id, space=space)]

    def say(self, entry: Entry[bodies.PutAway]) -> Sentence:
        what = " ".join(part for part in (entry.body.crop, entry.body.variety) if part)
        return Sentence(
            "put_away", f"Put away {telling.how_much(entry.body)} of {what}.", telling.facts(entry.body)
        )


class OfOneLot(HappeningKind[B]):
    """Base of the kinds whose body names one lot, `lot`."""

    def lots(self, entry: Entry[B]) -> Iterable[uuid.UUID]:
        return (self.lot(entry),)

    def lot(self, entry: Entry[B]) -> uuid.UUID:
        named: uuid.UUID = getattr(entry.body, "lot")  # noqa: B009
        return named

    def check(self, entry: Entry[B]) -> None:
        told = self.told(entry.body)
        check_findings(finding for one in told for finding in one.findings)
        check_feeding(entry, told, partial(crop_of_lot, entry.household, self.lot(entry)))


class TakeKind(OfOneLot[bodies.Take]):
    name = "take"
    body = bodies.Take

    def told(self, body: bodies.Take) -> list[ToldWent]:
        return of_trimmed(body.trimmed)

    def rows(self, entry: Entry[bodies.Take]) -> list[Happening]:
        body = entry.body
        return [happening(entry, body.lot, **amount(body), purpose=body.for_, whole=bool(body.last))]

    def say(self, entry: Entry[bodies.Take]) -> Sentence:
        purpose = {"eat": "to eat", "give": "to give away", "seed": "for seed"}[entry.body.for_]
        english = f"Took {telling.how_much(entry.body)} {purpose}."
        return Sentence("take", english, telling.facts(entry.body, "lot"))


class CullKind(OfOneLot[bodies.Cull]):
    name = "cull"
    body = bodies.Cull

    def told(self, body: bodies.Cull) -> list[ToldWent]:
        return of_out(body)

    def rows(self, entry: Entry[bodies.Cull]) -> list[Happening]:
        return [happening(entry, entry.body.lot, **amount(entry.body), whole=bool(entry.body.last))]

    def say(self, entry: Entry[bodies.Cull]) -> Sentence:
        seen = ", ".join(entry.body.findings)
        english = f"Took out {telling.how_much(entry.body)}: {seen}."
        return Sentence("cull", english, telling.facts(entry.body, "lot"))


class TrimKind(OfOneLot[bodies.Trim]):
    name = "trim"
    body = bodies.Trim

    def told(self, body: bodies.Trim) -> list[ToldWent]:
        return [ToldWent(body.cut, body.findings, whole=False)]

    def rows(self, entry: Entry[bodies.Trim]) -> list[Happening]:
        body = entry.body
        return [happening(entry, body.lot, pieces=body.pieces, grams=body.cut.grams)]

    def say(self, entry: Entry[bodies.Trim]) -> Sentence:
        much = telling.weight(entry.body.cut.grams) if entry.body.cut.grams is not None else "some"
        return Sentence("trim", f"Trimmed off {much}.", telling.facts(entry.body, "lot"))


class MoveKind(OfOneLot[bodies.Move]):
    name = "move"
    body = bodies.Move

    def lots(self, entry: Entry[bodies.Move]) -> Iterable[uuid.UUID]:
        return (entry.body.lot,) if entry.body.all else (entry.body.lot, entry.id)

    def births(self, entry: Entry[bodies.Move]) -> Iterable[tuple[Thing, uuid.UUID]]:
        return () if entry.body.all else (("lot", entry.id),)

    def begins(self, entry: Entry[bodies.Move]) -> Beginning | None:
        return None if entry.body.all else Beginning("lot", entry.id, {"code": entry.body.code})

    def check(self, entry: Entry[bodies.Move]) -> None:
        check_pack(entry.body.pack)

    def settle_all(self, entries: Sequence[Entry[bodies.Move]]) -> None:
        for entry in entries:
            if not entry.body.all:
                self._part(entry)
        super().settle_all(entries)

    def _part(self, entry: Entry[bodies.Move]) -> None:
        """The new lot has its parent's past; a part of a part in one push finds its parent kept already."""
        parent = Lot.rows.of(entry.household).get(uuid=entry.body.lot)
        part = Lot(
            household_id=entry.household,
            uuid=entry.id,
            crop=parent.crop,
            born_by=self.name,
            method=parent.method,
            parent=parent,
            keeps_until=parent.keeps_until,
        )
        Lot.everywhere.bulk_create([part], ignore_conflicts=True)

    def rows(self, entry: Entry[bodies.Move]) -> list[Happening]:
        body = entry.body
        born = None if body.all else entry.id
        return [happening(entry, body.lot, **amount(body), born=born, space=body.space, whole=body.all)]

    def say(self, entry: Entry[bodies.Move]) -> Sentence:
        much = "all of it" if entry.body.all else telling.how_much(entry.body)
        return Sentence("move", f"Moved {much}.", telling.facts(entry.body, "lot"))


class CountKind(OfOneLot[bodies.Count]):
    name = "count"
    body = bodies.Count

    def rows(self, entry: Entry[bodies.Count]) -> list[Happening]:
        return [happening(entry, entry.body.lot, **amount(entry.body), gone=entry.body.gone or "")]

    def say(self, entry: Entry[bodies.Count]) -> Sentence:
        english = f"Counted {telling.how_much(entry.body)}."
        return Sentence("count", english, telling.facts(entry.body, "lot"))


class SetAsideKind(OfOneLot[bodies.SetAside]):
    name = "set_aside"
    body = bodies.SetAside

    def rows(self, entry: Entry[bodies.SetAside]) -> list[Happening]:
        return [happening(entry, entry.body.lot, **amount(entry.body))]

    def say(self, entry: Entry[bodies.SetAside]) -> Sentence:
        english = f"Kept {telling.how_much(entry.body)} for seed."
        return Sentence("set_aside", english, telling.facts(entry.body, "lot"))


class PutByKind(HappeningKind[bodies.PutBy]):
    name = "put_by"
    body = bodies.PutBy
    roles = GROWN

    def lots(self, entry: Entry[bodies.PutBy]) -> Iterable[uuid.UUID]:
        return (entry.id, *(one.lot for one in entry.body.from_))

    def births(self, entry: Entry[bodies.PutBy]) -> Iterable[tuple[Thing, uuid.UUID]]:
        return (("lot", entry.id),)

    def begins(self, entry: Entry[bodies.PutBy]) -> Beginning:
        return Beginning("lot", entry.id, {"code": entry.body.code, "label": entry.body.label})

    def told(self, body: bodies.PutBy) -> list[ToldWent]:
        return of_trimmed(body.trimmed)

    def check(self, entry: Entry[bodies.PutBy]) -> None:
        """What was trimmed off lots of several crops is judged by each of them."""
        check_pack(entry.body.pack)
        told = self.told(entry.body)
        check_findings(finding for one in told for finding in one.findings)
        for one in entry.body.from_:
            check_findings(one.findings or ())
            check_feeding(entry, told, partial(crop_of_lot, entry.household, one.lot))
        check_put_by(entry)

    def settle_all(self, entries: Sequence[Entry[bodies.PutBy]]) -> None:
        born = [
            Lot(
                household_id=entry.household,
                uuid=entry.id,
                crop=entry.body.crop,
                born_by=self.name,
                method=entry.body.method,
                keeps_until=entry.body.keeps_until,
            )
            for entry in entries
        ]
        Lot.everywhere.bulk_create(born, ignore_conflicts=True)
        super().settle_all(entries)

    def rows(self, entry: Entry[bodies.PutBy]) -> list[Happening]:
        """One row a lot it came from; a lot named twice has its amounts in one row."""
        by_lot: dict[uuid.UUID, Happening] = {}
        for one in entry.body.from_:
            row = happening(entry, one.lot, **amount(one), born=entry.id, space=entry.body.space)
            by_lot[one.lot] = _joined(by_lot[one.lot], row) if one.lot in by_lot else row
        return list(by_lot.values())

    def say(self, entry: Entry[bodies.PutBy]) -> Sentence:
        body = entry.body
        word = {"freeze": "Froze", "dry": "Dried", "ferment": "Fermented", "jar": "Jarred"}[body.method]
        english = f"{word} {body.label}: {telling.number(body.pieces)}."
        return Sentence("put_by", english, telling.facts(body, "from_"))


def _joined(one: Happening, more: Happening) -> Happening:
    for field in ("pieces", "grams"):
        told = [value for row in (one, more) if (value := getattr(row, field)) is not None]
        setattr(one, field, sum(told) if told else None)
    return one


class ReadingKind(EntryKind[bodies.Reading]):
    name = "reading"
    body = bodies.Reading
    roles = WALKERS_AND_MINDER

    def settle(self, entry: Entry[bodies.Reading]) -> None:
        self.settle_all([entry])

    def settle_all(self, entries: Sequence[Entry[bodies.Reading]]) -> None:
        Reading.everywhere.bulk_create(self._row(entry) for entry in entries)

    def _row(self, entry: Entry[bodies.Reading]) -> Reading:
        return Reading(
            household_id=entry.household,
            uuid=entry.id,
            space_id=key_of(entry.household, entry.body.space),
            person_id=key_of(entry.household, entry.person),
            when=entry.when,
            day=entry.day,
            **entry.body.model_dump(exclude={"space"}),
        )

    def undo(self, entry: Entry[bodies.Reading]) -> None:
        Reading.rows.of(entry.household).filter(uuid=entry.id).delete()

    def say(self, entry: Entry[bodies.Reading]) -> Sentence:
        body = entry.body
        told = [f"{body.temp_c:g} °C"] if body.temp_c is not None else []
        if body.rh_pct is not None:
            told.append(f"{body.rh_pct} %")
        if body.low_c is not None:
            told.append(f"low {body.low_c:g} °C")
        if body.high_c is not None:
            told.append(f"high {body.high_c:g} °C")
        return Sentence("reading", f"Read {', '.join(told)}.", telling.facts(body))


KINDS: tuple[EntryKind[Any], ...] = (
    PutAwayKind(),
    TakeKind(),
    CullKind(),
    TrimKind(),
    MoveKind(),
    CountKind(),
    SetAsideKind(),
    PutByKind(),
    ReadingKind(),
)
