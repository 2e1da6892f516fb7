"""The entry kinds of the rounds: walks, looks, doubts, decisions, chores."""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Sequence
from functools import partial
from typing import Any

from homestead.household.roles import EVERYONE, FAMILY, WALKERS, WALKERS_AND_MINDER
from homestead.household.rows import key_of
from homestead.ledger.kinds import Entry, EntryKind, Refused, Sentence, Thing
from homestead.rounds import bodies
from homestead.rounds.chores import decision_key
from homestead.rounds.demands import check_claim
from homestead.rounds.known import check_chore
from homestead.rounds.models import ChoreDone, Claim, Decision, FindingSeen, Inspection, Offer, Round, Suspect
from homestead.store import telling
from homestead.store.amounts import Went
from homestead.store.at_the_run import check_chore_at_the_run
from homestead.store.feeding import (
    ToldWent,
    check_feeding,
    crop_of_lot,
    of_out,
    role_of,
    to_animals,
)
from homestead.store.known import check_findings


def written_by(entry: Entry[Any]) -> dict[str, Any]:
    """The columns that every row of an entry has."""
    return {
        "household_id": entry.household,
        "uuid": entry.id,
        "person_id": key_of(entry.household, entry.person),
    }


class RoundKind(EntryKind[bodies.Round]):
    name = "round"
    body = bodies.Round
    roles = WALKERS_AND_MINDER

    def births(self, entry: Entry[bodies.Round]) -> Iterable[tuple[Thing, uuid.UUID]]:
        return (("round", entry.id),)

    def settle(self, entry: Entry[bodies.Round]) -> None:
        Round.everywhere.create(
            **written_by(entry),
            space_id=key_of(entry.household, entry.body.space),
            with_people=[str(person) for person in entry.with_people],
            began_at=entry.body.began_at,
            ended_at=entry.body.ended_at,
            when=entry.when,
            day=entry.day,
        )

    def undo(self, entry: Entry[bodies.Round]) -> None:
        Round.rows.of(entry.household).filter(uuid=entry.id).delete()

    def say(self, entry: Entry[bodies.Round]) -> Sentence:
        minutes = round((entry.body.ended_at - entry.body.began_at).total_seconds() / 60)
        facts = telling.facts(entry.body) | {"minutes": minutes}
        return Sentence("round", f"Walked a round, {minutes} minutes.", facts)


class InspectionKind(EntryKind[bodies.Inspection]):
    name = "inspection"
    body = bodies.Inspection
    roles = WALKERS_AND_MINDER
    changes_stock = True

    def lots(self, entry: Entry[bodies.Inspection]) -> Iterable[uuid.UUID]:
        return (entry.body.lot,)

    def told(self, body: bodies.Inspection) -> list[ToldWent]:
        outs = [told for out in body.out for told in of_out(out)]
        return outs + [ToldWent(trim.cut, trim.findings, whole=False) for trim in body.trims]

    def asks_switch(self, body: bodies.Inspection) -> bool:
        return to_animals(self.told(body))

    def check(self, entry: Entry[bodies.Inspection]) -> None:
        told = self.told(entry.body)
        check_findings(seen.finding for seen in entry.body.seen)
        check_findings(finding for one in told for finding in one.findings)
        if to_animals(told) and role_of(entry) == "minder":
            raise not_theirs_to_judge()
        check_feeding(entry, told, partial(crop_of_lot, entry.household, entry.body.lot))

    def settle(self, entry: Entry[bodies.Inspection]) -> None:
        self.settle_all([entry])

    def settle_all(self, entries: Sequence[Entry[bodies.Inspection]]) -> None:
        rows = [self._row(entry) for entry in entries]
        Inspection.everywhere.bulk_create(rows)
        seen = [
            found for entry, row in zip(entries, rows, strict=True) for found in _findings(entry.body, row)
        ]
        FindingSeen.everywhere.bulk_create(seen)

    def _row(self, entry: Entry[bodies.Inspection]) -> Inspection:
        body = entry.body
        return Inspection(
            **written_by(entry),
            lot_id=key_of(entry.household, body.lot),
            space_id=key_of(entry.household, body.space),
            round=body.round,
            with_people=[str(person) for person in entry.with_people],
            when=entry.when,
            day=entry.day,
            way=body.way,
            why_not=body.why_not or "",
            looked=body.looked,
            counted=body.counted,
            photos=list(entry.photos),
        )

    def undo(self, entry: Entry[bodies.Inspection]) -> None:
        Inspection.rows.of(entry.household).filter(uuid=entry.id).delete()

    def say(self, entry: Entry[bodies.Inspection]) -> Sentence:
        body = entry.body
        facts = telling.facts(body, "lot")
        if body.way == "none":
            return Sentence("not_looked_at", "Not looked at.", facts)
        looked = telling.number(body.looked) if body.looked is not None else "the lot"
        seen = ", ".join(dict.fromkeys([one.finding for one in body.seen] + _out_findings(body)))
        return Sentence("inspection", f"Looked at {looked}: {seen or 'sound'}.", facts)


def not_theirs_to_judge() -> Refused:
    sentence = (
        "A child or a minder does not judge what animals may have: photograph it, and an adult decides."
    )
    return Refused("not_theirs_to_judge", sentence)


def _out_findings(body: bodies.Inspection) -> list[str]:
    return [finding for out in body.out for finding in out.findings]


def _findings(body: bodies.Inspection, row: Inspection) -> Iterable[FindingSeen]:
    def found(finding: str, told_in: str, place: int, **much: Any) -> FindingSeen:
        return FindingSeen(
            household_id=row.household_id,
            inspection=row,
            finding=finding,
            told_in=told_in,
            place=place,
            **much,
        )

    for place, seen in enumerate(body.seen):
        yield found(seen.finding, "seen", place, pieces=seen.pieces)
    for place, out in enumerate(body.out):
        for finding in dict.fromkeys(out.findings):
            yield found(finding, "out", place, pieces=out.pieces, grams=out.grams)
    for place, trim in enumerate(body.trims):
        for finding in dict.fromkeys(trim.findings):
            yield found(finding, "trims", place, pieces=trim.pieces, grams=trim.cut.grams)


class SuspectKind(EntryKind[bodies.Suspect]):
    name = "suspect"
    body = bodies.Suspect
    roles = EVERYONE
    changes_stock = True

    def lots(self, entry: Entry[bodies.Suspect]) -> Iterable[uuid.UUID]:
        return (entry.body.lot,)

    def births(self, entry: Entry[bodies.Suspect]) -> Iterable[tuple[Thing, uuid.UUID]]:
        return (("suspect", entry.id),)

    def check(self, entry: Entry[bodies.Suspect]) -> None:
        check_findings(entry.body.findings)

    def settle(self, entry: Entry[bodies.Suspect]) -> None:
        """The row is made once and stays; what it stands for is told by the fold."""
        self.settle_all([entry])

    def settle_all(self, entries: Sequence[Entry[bodies.Suspect]]) -> None:
        rows = [self._row(entry) for entry in entries]
        Suspect.everywhere.bulk_create(rows, ignore_conflicts=True)

    def _row(self, entry: Entry[bodies.Suspect]) -> Suspect:
        body = entry.body
        return Suspect(
            **written_by(entry),
            lot_id=key_of(entry.household, body.lot),
            round=body.round,
            when=entry.when,
            day=entry.day,
            findings=list(body.findings),
            lies=body.lies,
            pieces=1 if body.pieces is None else body.pieces,
            grams=body.grams,
            ring=body.ring and body.ring.model_dump(),
            photos=list(entry.photos),
        )

    def say(self, entry: Entry[bodies.Suspect]) -> Sentence:
        lies = {"held": "held where it lies", "set_apart": "set apart"}[entry.body.lies]
        seen = ", ".join(entry.body.findings)
        return Sentence("suspect", f"Unsure of a piece ({seen}), {lies}.", telling.facts(entry.body, "lot"))


class DecisionKind(EntryKind[bodies.Decision]):
    name = "decision"
    body = bodies.Decision
    roles = WALKERS
    changes_stock = True

    def asks_switch(self, body: bodies.Decision) -> bool:
        return True

    def lots(self, entry: Entry[bodies.Decision]) -> Iterable[uuid.UUID]:
        suspects = Suspect.rows.of(entry.household).filter(uuid=entry.body.suspect)
        return tuple(suspects.values_list("lot__uuid", flat=True))

    def births(self, entry: Entry[bodies.Decision]) -> Iterable[tuple[Thing, uuid.UUID]]:
        return (("decision", entry.id),)

    def check(self, entry: Entry[bodies.Decision]) -> None:
        """Sent to animals without saying anew what it is, it goes by what was seen of the suspect."""
        body = entry.body
        suspect = Suspect.rows.of(entry.household).select_related("lot").get(uuid=body.suspect)
        told = of_out(body.out) if body.out else []
        check_findings(finding for one in told for finding in one.findings)
        if body.do == "animals" and not body.out:
            to_group = Went(step="animals", animals=body.animals)
            told.append(ToldWent(to_group, suspect.findings, whole=True))
        check_feeding(entry, told, lambda: suspect.lot.crop)

    def settle(self, entry: Entry[bodies.Decision]) -> None:
        """The row is made once and stays; whether it stands is told by the fold."""
        body = entry.body
        row = Decision(
            **written_by(entry),
            suspect_id=key_of(entry.household, body.suspect),
            when=entry.when,
            day=entry.day,
            do=body.do,
            animals=body.animals,
            doer_id=body.doer and key_of(entry.household, body.doer),
            by=body.by,
            look_on=body.look_on,
            on_the_spot=body.out is not None,
        )
        Decision.everywhere.bulk_create([row], ignore_conflicts=True)

    def say(self, entry: Entry[bodies.Decision]) -> Sentence:
        words = entry.body.do.replace("_", " ")
        return Sentence("decision", f"Decided: {words}.", telling.facts(entry.body, "suspect"))


class ClaimKind(EntryKind[bodies.Claim]):
    name = "claim"
    body = bodies.Claim
    roles = FAMILY
    one_by_one = True

    def check(self, entry: Entry[bodies.Claim]) -> None:
        check_chore(entry.household, entry.body.chore)
        check_claim(entry)

    def settle(self, entry: Entry[bodies.Claim]) -> None:
        Claim.everywhere.create(**written_by(entry), chore=entry.body.chore, when=entry.when, seq=entry.seq)

    def undo(self, entry: Entry[bodies.Claim]) -> None:
        Claim.rows.of(entry.household).filter(uuid=entry.id).delete()

    def say(self, entry: Entry[bodies.Claim]) -> Sentence:
        return Sentence("claim", "Took a chore on.", telling.facts(entry.body))


class OfferKind(EntryKind[bodies.Offer]):
    name = "offer"
    body = bodies.Offer
    roles = FAMILY

    def check(self, entry: Entry[bodies.Offer]) -> None:
        check_chore(entry.household, entry.body.chore)

    def settle(self, entry: Entry[bodies.Offer]) -> None:
        Offer.everywhere.create(**written_by(entry), chore=entry.body.chore, when=entry.when, seq=entry.seq)

    def undo(self, entry: Entry[bodies.Offer]) -> None:
        Offer.rows.of(entry.household).filter(uuid=entry.id).delete()

    def say(self, entry: Entry[bodies.Offer]) -> Sentence:
        return Sentence("offer", "Gave a chore away.", telling.facts(entry.body))


class ChoreDoneKind(EntryKind[bodies.ChoreDone]):
    name = "chore_done"
    body = bodies.ChoreDone
    roles = EVERYONE
    changes_stock = True

    def lots(self, entry: Entry[bodies.ChoreDone]) -> Iterable[uuid.UUID]:
        decision = _decision_of(entry)
        return (decision.suspect.lot.uuid,) if decision else ()

    def check(self, entry: Entry[bodies.ChoreDone]) -> None:
        check_chore(entry.household, entry.body.chore)
        check_chore_at_the_run(entry, entry.body.chore)
        if not entry.body.out:
            return
        named = _decision_of(entry)
        if named is None:
            sentence = "Only a chore that a decision made says what left: take it out, or write a cull."
            raise Refused("out_without_decision", sentence, where="out")
        told = of_out(entry.body.out)
        check_findings(entry.body.out.findings)
        if to_animals(told) and named.do != "animals" and role_of(entry) in ("child", "minder"):
            raise not_theirs_to_judge()
        check_feeding(entry, told, lambda: named.suspect.lot.crop)

    def settle(self, entry: Entry[bodies.ChoreDone]) -> None:
        ChoreDone.everywhere.create(
            **written_by(entry),
            chore=entry.body.chore,
            decision=_decision_of(entry),
            when=entry.when,
            day=entry.day,
            minutes=entry.body.minutes,
            told_out=entry.body.out is not None,
        )

    def undo(self, entry: Entry[bodies.ChoreDone]) -> None:
        ChoreDone.rows.of(entry.household).filter(uuid=entry.id).delete()

    def say(self, entry: Entry[bodies.ChoreDone]) -> Sentence:
        minutes = f", {entry.body.minutes} minutes" if entry.body.minutes is not None else ""
        return Sentence("chore_done", f"Chore done{minutes}.", telling.facts(entry.body))


def _decision_of(entry: Entry[bodies.ChoreDone]) -> Decision | None:
    """The decision its chore comes from. To decide on a suspect is a chore with a key alike, and has none."""
    named = decision_key(entry.body.chore)
    if named is None:
        return None
    return Decision.rows.of(entry.household).filter(uuid=named).select_related("suspect__lot").first()


KINDS: tuple[EntryKind[Any], ...] = (
    RoundKind(),
    InspectionKind(),
    SuspectKind(),
    DecisionKind(),
    ClaimKind(),
    OfferKind(),
    ChoreDoneKind(),
)
