"""Is what a chore's key names of this household? The key is text, so the ledger does not look inside it."""

from __future__ import annotations

import uuid

from homestead.household.rows import Thing
from homestead.ledger.kinds import Refused
from homestead.ledger.reads import entries_of
from homestead.rounds.chores import ChoreOf, Named, named_in
from homestead.rounds.models import Chore, Decision, Inspection, Suspect
from homestead.store.models import Space

_TABLES: dict[ChoreOf, type[Thing]] = {
    "decision": Decision,
    "chore": Chore,
    "space": Space,
    "inspection": Inspection,
}


def check_chore(household: uuid.UUID, key: str) -> None:
    """Raise `Refused`, not for ever: what it names may still come with another phone."""
    named = named_in(key)
    if named and not _is_here(household, named):
        sentence = (
            f"The {named.thing} it names is not known here yet. It waits on the phone and is sent again."
        )
        facts = {"thing": named.thing, "id": str(named.id), "where": "chore"}
        raise Refused("unknown_reference", sentence, permanent=False, **facts)


def _is_here(household: uuid.UUID, named: Named) -> bool:
    """A struck inspection has no row any more; it is known all the same."""
    if _TABLES[named.thing].rows.of(household).filter(uuid=named.id).exists():
        return True
    if named.thing == "decision" and Suspect.rows.of(household).filter(uuid=named.id).exists():
        return True  # to decide on it is a chore too
    return named.thing == "inspection" and named.id in entries_of(household, [named.id])
