"""What a person is asked for, from the sheets of the roster and the chores."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from homestead.household.models import Household
from homestead.ledger.reads import sheets_of
from homestead.reminders.words import Words, words_in
from homestead.rounds.planning import CHORES
from homestead.rounds.reads import chores_done
from homestead.store.models import Space


@dataclass(frozen=True)
class Due:
    """A walk or a chore of somebody's. `at` is a time of the day in the household's zone, '' none."""

    key: str
    title: str
    day: dt.date
    minutes: int
    at: str = ""
    tonight: bool = False


def due_for(household: Household, person: uuid.UUID) -> list[Due]:
    """All of the next 14 days, soonest first; what is done is left out."""
    words = words_in(household.language)
    spaces = {str(key): name for key, name in Space.rows.of(household).values_list("uuid", "name")}
    found = [
        *_walks(household.pk, str(person), spaces, words),
        *_chores(household.pk, str(person), spaces, words),
    ]
    done = chores_done(household.pk, (one.key for one in found))
    return sorted((one for one in found if one.key not in done), key=lambda one: (one.day, one.at, one.key))


def _walks(household: uuid.UUID, person: str, spaces: Mapping[str, str], words: Words) -> Iterator[Due]:
    for sheet in sheets_of(household, "roster"):
        space = sheet["content"]["space"]
        for walk in sheet["content"]["walks"]:
            if walk["who"] == person:
                key = f"{sheet['key']}/{walk['day']}"
                title = words.walk.format(space=spaces.get(space, ""))
                yield Due(key, title, dt.date.fromisoformat(walk["day"]), walk["minutes"])


def _chores(household: uuid.UUID, person: str, spaces: Mapping[str, str], words: Words) -> Iterator[Due]:
    for sheet in sheets_of(household, CHORES):
        for chore in sheet["content"]["chores"]:
            if chore["who"] == person:
                yield Due(
                    chore["key"],
                    _title(chore, spaces, words),
                    dt.date.fromisoformat(chore["day"]),
                    chore["minutes"],
                    chore["at"],
                    chore["tonight"],
                )


def _title(chore: Mapping[str, Any], spaces: Mapping[str, str], words: Words) -> str:
    if chore["what"] == "standing":
        return str(chore["name"])
    told = words.chores.get(chore["what"], words.a_chore)
    return told.format(space=spaces.get(chore.get("space", ""), "")).removesuffix(": ")
