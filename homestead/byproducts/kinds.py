"""The entry kinds of the byproducts: scraps, eggs, looks into a pail, work on a heap."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any

from homestead.byproducts import bodies
from homestead.byproducts.beds import check_bed
from homestead.byproducts.models import HeapWork, Lay, PailLook, Scrap
from homestead.household.roles import EVERYONE, GROWN, WALKERS
from homestead.household.rows import key_of
from homestead.ledger.kinds import Entry, EntryKind, Refused, Sentence
from homestead.reference import heap_materials, in_hand_ids
from homestead.store import telling
from homestead.store.actions import take_back_went, write_scrap_went
from homestead.store.at_the_run import check_kept_away
from homestead.store.feeding import ToldWent, check_feeding, crop_of_lot, to_animals
from homestead.store.known import check_crop, check_findings
from homestead.storekeeping.state import Bucket
from homestead.storekeeping.state import Went as FoldedWent

#: eaten by people; everything else that leaves is shrink (fold F9)
EATEN = ("raw", "cook", "pot")


class ScrapKind(EntryKind[bodies.Scrap]):
    name = "scrap"
    body = bodies.Scrap
    roles = WALKERS

    def told(self, body: bodies.Scrap) -> list[ToldWent]:
        return [ToldWent(went, body.findings, whole=False) for went in body.went]

    def asks_switch(self, body: bodies.Scrap) -> bool:
        return to_animals(self.told(body))

    def check(self, entry: Entry[bodies.Scrap]) -> None:
        body = entry.body
        if body.crop:
            check_crop(entry.household, body.crop, among=in_hand_ids())
        check_findings(body.findings)
        check_feeding(entry, self.told(body), partial(self._crop, entry))

    def _crop(self, entry: Entry[bodies.Scrap]) -> str | None:
        """What the scraps are of; mixed ones are of no crop."""
        body = entry.body
        return body.crop or (crop_of_lot(entry.household, body.lot) if body.lot else None)

    def settle(self, entry: Entry[bodies.Scrap]) -> None:
        body = entry.body
        Scrap.everywhere.create(
            household_id=entry.household,
            uuid=entry.id,
            crop=body.crop or "",
            lot_id=body.lot and key_of(entry.household, body.lot),
            person_id=key_of(entry.household, entry.person),
            when=entry.when,
            day=entry.day,
            findings=list(body.findings),
            measured=body.measured or "",
        )
        write_scrap_went(entry.household, went_of_scrap(entry, self._crop(entry)))

    def undo(self, entry: Entry[bodies.Scrap]) -> None:
        Scrap.rows.of(entry.household).filter(uuid=entry.id).delete()
        take_back_went(entry.household, entry.id)

    def say(self, entry: Entry[bodies.Scrap]) -> Sentence:
        went = ", ".join(f"{telling.weight(one.grams)} to {_word(one.step)}" for one in entry.body.went)
        of = entry.body.crop or "mixed"
        return Sentence("scrap", f"Scraps, {of}: {went}.", telling.facts(entry.body))


def _word(step: str) -> str:
    return {"raw": "eat raw", "cook": "cook", "pot": "the pot", "bin": "the bin"}.get(step, step)


def went_of_scrap(entry: Entry[bodies.Scrap], crop: str | None) -> Sequence[FoldedWent]:
    """Rows of what went where, as the fold makes them of a scrap."""
    return [
        FoldedWent(
            entry=str(entry.id),
            kind=entry.kind,
            lot=None,
            crop=crop,
            day=entry.day.isoformat(),
            when_ms=round(entry.when.timestamp() * 1000),
            person=str(entry.person),
            way=went.step,
            bucket=_bucket(went.step),
            pieces=None,
            grams=float(went.grams),
            findings=list(entry.body.findings),
            part=went.part,
            cut_in=went.cut_in,
            animals=str(went.animals) if went.animals else None,
            accident=bool(went.accident),
            unwritten=False,
        )
        for went in entry.body.went
    ]


def _bucket(step: str) -> Bucket:
    return "eaten" if step in EATEN else "shrink"


class LayKind(EntryKind[bodies.Lay]):
    name = "lay"
    body = bodies.Lay
    roles = EVERYONE

    def check(self, entry: Entry[bodies.Lay]) -> None:
        check_kept_away(entry, entry.body.animals)

    def settle(self, entry: Entry[bodies.Lay]) -> None:
        body = entry.body
        Lay.everywhere.create(
            household_id=entry.household,
            uuid=entry.id,
            animals_id=key_of(entry.household, body.animals),
            person_id=key_of(entry.household, entry.person),
            when=entry.when,
            day=body.day,
            eggs=body.eggs,
            broken=body.broken or 0,
            hens=body.hens,
        )

    def undo(self, entry: Entry[bodies.Lay]) -> None:
        Lay.rows.of(entry.household).filter(uuid=entry.id).delete()

    def say(self, entry: Entry[bodies.Lay]) -> Sentence:
        eggs = "1 egg" if entry.body.eggs == 1 else f"{entry.body.eggs} eggs"
        broken = f", {entry.body.broken} broken" if entry.body.broken else ""
        return Sentence("lay", f"{eggs} laid{broken}.", telling.facts(entry.body))


class PailKind(EntryKind[bodies.Pail]):
    """Only a grown person judges a pail; after that whoever likes may carry it."""

    name = "pail"
    body = bodies.Pail
    roles = GROWN

    def settle(self, entry: Entry[bodies.Pail]) -> None:
        PailLook.everywhere.create(
            household_id=entry.household,
            uuid=entry.id,
            animals_id=key_of(entry.household, entry.body.animals),
            person_id=key_of(entry.household, entry.person),
            when=entry.when,
            day=entry.day,
            mixed=entry.body.mixed,
        )

    def undo(self, entry: Entry[bodies.Pail]) -> None:
        PailLook.rows.of(entry.household).filter(uuid=entry.id).delete()

    def say(self, entry: Entry[bodies.Pail]) -> Sentence:
        found = "mixed, so it is compost" if entry.body.mixed else "it may be fed"
        return Sentence("pail", f"Looked into the pail: {found}.", telling.facts(entry.body))


class HeapKind(EntryKind[bodies.HeapWork]):
    name = "heap"
    body = bodies.HeapWork
    roles = WALKERS

    def check(self, entry: Entry[bodies.HeapWork]) -> None:
        check_bed(entry)
        if entry.body.grows:
            check_crop(entry.household, entry.body.grows, among=in_hand_ids())
        material = entry.body.material
        if material and material not in heap_materials():
            raise Refused("material_unknown", f"Nothing is known of {material} on a heap.", where="material")

    def settle(self, entry: Entry[bodies.HeapWork]) -> None:
        body = entry.body
        HeapWork.everywhere.create(
            household_id=entry.household,
            uuid=entry.id,
            heap_id=key_of(entry.household, body.heap),
            person_id=key_of(entry.household, entry.person),
            when=entry.when,
            day=entry.day,
            did=body.did,
            material=body.material or "",
            grams=body.grams,
            temp_c=body.temp_c,
            bed=body.bed or "",
            grows=body.grows or "",
            accident=bool(body.accident),
        )

    def undo(self, entry: Entry[bodies.HeapWork]) -> None:
        HeapWork.rows.of(entry.household).filter(uuid=entry.id).delete()

    def say(self, entry: Entry[bodies.HeapWork]) -> Sentence:
        return Sentence("heap", f"The heap: {_done_to_heap(entry.body)}.", telling.facts(entry.body, "heap"))


def _done_to_heap(body: bodies.HeapWork) -> str:
    match body.did:
        case "added":
            return f"{telling.weight(body.grams or 0)} of {str(body.material).replace('_', ' ')} added"
        case "warmth":
            return f"{body.temp_c:g} °C inside"
        case "turned":
            return "turned"
        case "spread":
            return f"spread on {body.bed}" if body.bed else "spread"


KINDS: tuple[EntryKind[Any], ...] = (ScrapKind(), LayKind(), PailKind(), HeapKind())
