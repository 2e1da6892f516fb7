"""Keeps small children off the birds' run while the household has marked bird disease near."""

from __future__ import annotations

import re
import uuid
from typing import Any

from homestead.household.models import Person
from homestead.ledger.kinds import Entry, Refused
from homestead.ledger.reads import entries_of, records_of
from homestead.storekeeping.law import BIRDS

RULE = "kitchen_safety:bird_outbreak"
#: chores at the run (fold F19): a pail carried there, what is left lying taken up
_AT_THE_RUN = re.compile(r"(?:pail|take_up)/([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})/\d{4}-\d\d-\d\d")


def check_kept_away(entry: Entry[Any], group: uuid.UUID) -> None:
    """Raise `Refused` `outbreak` where a small child wrote it, or went along, and the group are birds.

    The mark bears no day, so what was done before it and is pushed after it comes back, too: to the tray,
    where a grown person reads it.
    """
    if not _outbreak(entry.household) or _kind(entry.household, group) not in BIRDS:
        return
    people = (entry.person, *entry.with_people)
    if Person.rows.of(entry.household).filter(uuid__in=people, role="child").exists():
        sentence = "Bird disease is near: small children stay away from the run. An adult does this."
        raise Refused("outbreak", sentence, rows=[RULE])


def check_chore_kept_away(entry: Entry[Any], chore: str) -> None:
    """The same for a chore at the run; any other chore, and a look into a pail nobody knows, pass."""
    if found := _AT_THE_RUN.fullmatch(chore):
        look = entries_of(entry.household, [uuid.UUID(found[1])]).get(uuid.UUID(found[1]))
        if look is not None and (group := getattr(look.body, "animals", None)):
            check_kept_away(entry, group)


def _outbreak(household: uuid.UUID) -> bool:
    return any(bool(one["values"].get("outbreak")) for one in records_of(household, "household"))


def _kind(household: uuid.UUID, group: uuid.UUID) -> str | None:
    told = (one["values"] for one in records_of(household, "animals") if one["record"] == str(group))
    return next((str(values["kind"]) for values in told), None)
