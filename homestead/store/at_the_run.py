"""Asked before somebody was at the run: a small child in an outbreak, a pail for animals that get nothing."""

from __future__ import annotations

import re
import uuid
from typing import Any

from homestead.household.models import Person
from homestead.ledger.kinds import Entry, Refused
from homestead.ledger.reads import entries_of, records_of
from homestead.store.feeding import groups_of, law_of
from homestead.storekeeping.law import BIRDS, kept_in

OUTBREAK = "kitchen_safety:bird_outbreak"
#: chores at the run (fold F19): a pail carried there, what is left lying taken up
_AT_THE_RUN = re.compile(
    r"(pail|take_up)/([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})/\d{4}-\d\d-\d\d",
)


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
        raise Refused("outbreak", sentence, rows=[OUTBREAK])


def check_chore_at_the_run(entry: Entry[Any], chore: str) -> None:
    """The same for a chore there; and `pail_barred` where a pail was carried to animals that got nothing that
    day. Any other chore, and a look into a pail nobody knows, pass."""
    found = _AT_THE_RUN.fullmatch(chore)
    look = found and entries_of(entry.household, [uuid.UUID(found[2])]).get(uuid.UUID(found[2]))
    group = look and getattr(look.body, "animals", None)
    if not found or not group:
        return
    check_kept_away(entry, group)
    if found[1] == "pail":
        _check_may_be_carried(entry, group)


def _check_may_be_carried(entry: Entry[Any], group: uuid.UUID) -> None:
    told = groups_of(entry.household, entry.day.isoformat()).get(str(group))
    if told is None:
        return
    ordered = kept_in(law_of(entry.household), told)
    if told.get("withheld") or ordered:
        sentence = "These animals get no scraps now: what was in the pail is compost, or was an accident."
        row = "housing_order" if ordered else "treated_birds"
        raise Refused("pail_barred", sentence, rows=[f"kitchen_safety:{row}"])


def _outbreak(household: uuid.UUID) -> bool:
    return any(bool(one["values"].get("outbreak")) for one in records_of(household, "household"))


def _kind(household: uuid.UUID, group: uuid.UUID) -> str | None:
    told = (one["values"] for one in records_of(household, "animals") if one["record"] == str(group))
    return next((str(values["kind"]) for values in told), None)
