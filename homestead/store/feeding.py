"""Asks the feeding rules before something is written as gone to animals (fold F20)."""

from __future__ import annotations

import uuid
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from homestead.household.models import Person
from homestead.household.roles import GROWN
from homestead.ledger.kinds import Entry, Refused
from homestead.ledger.reads import records_of
from homestead.reference import rules
from homestead.store.amounts import Out, TrimmedOff, Went
from homestead.store.models import Lot, OwnCrop
from homestead.storekeeping.feeding import check_went
from homestead.storekeeping.law import BIRDS
from homestead.storekeeping.rules import Group, Law, Refusal


@dataclass(frozen=True)
class ToldWent:
    """One `went` with what its line says of it. `whole`: the piece left uncut, so it saw no kitchen."""

    went: Went
    findings: Sequence[str]
    whole: bool


def of_out(out: Out) -> list[ToldWent]:
    return [ToldWent(went, out.findings, whole=True) for went in out.went]


def of_trimmed(trimmed: TrimmedOff | None) -> list[ToldWent]:
    return [ToldWent(trimmed, trimmed.findings or (), whole=False)] if trimmed else []


def to_animals(told: Iterable[ToldWent]) -> bool:
    return any(one.went.step == "animals" for one in told)


def role_of(entry: Entry[Any]) -> str:
    """The role of who wrote it; empty for somebody unknown."""
    return (
        Person.rows.of(entry.household).filter(uuid=entry.person).values_list("role", flat=True).first() or ""
    )


def table_crop(household: uuid.UUID, crop: str) -> str:
    """The crop whose rules hold: of an own crop the one it is like, if any."""
    if "-" not in crop:
        return crop
    own = OwnCrop.rows.of(household).filter(uuid=crop).values_list("like", flat=True).first()
    return own or crop


def crop_of_lot(household: uuid.UUID, lot: uuid.UUID) -> str | None:
    return Lot.rows.of(household).filter(uuid=lot).values_list("crop", flat=True).first()


def groups_of(household: uuid.UUID, on: str) -> dict[str, Group]:
    """Groups of animals by id; `on` is the day fed. A group under treatment is withheld to its last day."""
    found = {}
    for record in records_of(household, "animals"):
        told = record["values"]
        until = told.get("withheld_until")
        withheld = bool(told.get("withheld")) or (until is not None and on <= until)
        found[str(record["record"])] = Group(
            kind=told["kind"], withheld=withheld, housed=bool(told.get("housed"))
        )
    return found


def law_of(household: uuid.UUID) -> Law:
    """What the household has set about feeding; nothing set is the strict start."""
    for record in records_of(household, "household"):
        told = record["values"]
        return Law(
            country=told.get("country"),
            confirmed=bool(told.get("law_confirmed")),
            kitchen_to=told.get("kitchen_to") or (),
            housing_order=bool(told.get("housing_order")),
        )
    return Law()


def check_eggs_held(entry: Entry[Any], crop: str) -> None:
    """Raise `Refused` where eggs are put away as food while those of every bird kept are held back.

    The days are those the label or the vet gave (kitchen_safety `treated_birds`).
    """
    if table_crop(entry.household, crop) != "egg":
        return
    told = [record["values"] for record in records_of(entry.household, "animals")]
    kept = [one for one in told if one["kind"] in BIRDS and not one.get("archived")]
    held = [until for one in kept if (until := one.get("eggs_held_until"))]
    day = entry.day.isoformat()
    if kept and len(held) == len(kept) and day <= min(held):
        raise Refused(
            "eggs_held",
            f"Their eggs are held back until {min(held)}, so these were not taken as food. Throw them out.",
            until=min(held),
            rows=["kitchen_safety:treated_birds"],
        )


def check_feeding(entry: Entry[Any], told: Sequence[ToldWent], crop_of: Callable[[], str | None]) -> None:
    """Raise `Refused` `never` where the rules or the law say so; an accident only grown people write.

    `crop_of` is asked only where something went to animals; None for mixed scraps.
    """
    if any(one.went.accident for one in told) and role_of(entry) not in GROWN:
        raise Refused("accident_by_grown", "An accident is written by an adult: show it to one.")
    if not to_animals(told):
        return
    groups, law = groups_of(entry.household, entry.day.isoformat()), law_of(entry.household)
    crop = crop_of()
    judged = table_crop(entry.household, crop) if crop else None
    for one in told:
        went = one.went.model_dump(mode="json", exclude_none=True)
        never = check_went(
            rules(), went, crop=judged, findings=one.findings, whole=one.whole, groups=groups, law=law
        )
        if never:
            raise refusal(never)


_REASONS = {
    "findings_needed": "What was seen of it is not told",
    "unsure": "It was marked unsure",
    "rot_or_mould": "It was marked mouldy or rotten, which goes to no animal",
    "withheld": "These animals get no scraps now",
    "housing_order": "Birds are kept in by order, and nothing goes outside to them",
    "salted": "It was salted",
    "spent": "It was boiled out for stock",
    "treated": "It was dressed or treated",
    "country_not_set": "What was cut in a kitchen goes to no animal until the country is set",
    "law_not_confirmed": "What is restricted where you are was not confirmed yet",
    "law_not_known": "The rule of your country is not known here",
    "law_prohibited": "The rule of your country forbids it",
    "law_not_allowed": "The rule of your country does not allow it",
    "animal_matter": "It holds meat, fish or the like",
}


def refusal(never: Refusal) -> Refused:
    """The rules' answer as a refusal of the line, with the rows it rests on."""
    plainly = f"{never['crop'] or 'This'} in this state is never for {never['kind']}"
    reason = _REASONS.get(never["code"], plainly)
    return Refused(
        "never",
        f"{reason}, so it was not taken as fed. Write what really happened to it.",
        reason=never["code"],
        animals_kind=never["kind"],
        crop=never["crop"],
        rows=list(never["rows"]),
    )
