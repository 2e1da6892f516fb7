"""What a chore asks of whoever does it, by its key, and whom that excludes: no swap goes round it.

The roster gives a chore to nobody it excludes (`sharing`); here a claim is asked the same.
"""

from __future__ import annotations

import datetime as dt
import re
import uuid
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from homestead.household.models import Person
from homestead.household.roles import FAMILY, GROWN, WALKERS
from homestead.ledger.kinds import Entry, Refused
from homestead.rounds import bodies
from homestead.rounds.chores import named_in
from homestead.rounds.models import Chore, Claim, Decision, Offer, Suspect
from homestead.rounds.sharing import DOORS_NOT_ALONE, Walker, Work
from homestead.store.models import Lot, Space

#: what carrying a decision out asks for
NEEDS_OF_DECISION: Mapping[str, frozenset[str]] = {"trim": frozenset({"knife"})}
NOT_ALONE = frozenset({"not_alone"})
_UUID = re.compile(r"[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}")
_WORDS = {
    "ladder": "a ladder",
    "knife": "a knife",
    "lifting": "lifting",
    "not_alone": "someone grown beside them",
}


@dataclass(frozen=True)
class Demands:
    """Who may do it: by role, by what it needs, from which age on."""

    roles: frozenset[str] = WALKERS
    needs: frozenset[str] = frozenset()
    least_age: int = 0


#: of chores other rooms bring, by the first part of their key
_of_source: dict[str, Demands] = {}


def demand(what: str, demands: Demands) -> None:
    """Called from `AppConfig.ready` of the room whose chores have keys that begin with `<what>/`."""
    _of_source[what] = demands


def needs_of_door(space: Space | None) -> frozenset[str]:
    """A door marked for its air is nobody's alone."""
    return NOT_ALONE if space and frozenset(space.cautions) & DOORS_NOT_ALONE else frozenset()


def of_standing(chore: Chore) -> Demands:
    """A chore that says from which age is for children too."""
    roles = WALKERS if chore.least_age is None else FAMILY
    return Demands(roles, frozenset(chore.needs) | needs_of_door(chore.space), chore.least_age or 0)


def of_decision(decision: Decision) -> Demands:
    needs = NEEDS_OF_DECISION.get(decision.do, frozenset())
    return Demands(needs=needs | needs_of_door(decision.suspect.lot.space))


def demands_of(household: uuid.UUID, key: str) -> Demands | None:
    """None where nothing is known to be asked: a pail to be carried, a chore of a newer build."""
    named = named_in(key)
    if named is None:
        return _of_source_chore(household, key)
    if named.thing == "chore":
        chore = Chore.rows.of(household).filter(uuid=named.id).select_related("space").first()
        return of_standing(chore) if chore else None
    if named.thing == "decision":
        return _of_suspects_chore(household, named.id)
    spaces = Space.rows.of(household)
    if named.thing == "inspection":
        lots = Lot.rows.of(household).filter(inspections__uuid=named.id)
        return Demands(needs=needs_of_door(spaces.filter(lots__in=lots).first()))
    return Demands(needs=needs_of_door(spaces.filter(uuid=named.id).first()))


def _of_source_chore(household: uuid.UUID, key: str) -> Demands | None:
    """What other rooms said of it, and the door of the space it names if it does: `air/<space>/<day>`."""
    what, *rest = key.split("/")
    asked, named = _of_source.get(what), rest[0] if rest else ""
    if asked is None or not _UUID.fullmatch(named):
        return asked
    space = Space.rows.of(household).filter(uuid=named).first()
    return replace(asked, needs=asked.needs | needs_of_door(space))


def _of_suspects_chore(household: uuid.UUID, named: uuid.UUID) -> Demands | None:
    """To carry a decision out, or to decide: that is a grown person's."""
    rows = Decision.rows.of(household).filter(uuid=named).select_related("suspect__lot__space")
    if decision := rows.first():
        return of_decision(decision)
    return Demands(GROWN) if Suspect.rows.of(household).filter(uuid=named).exists() else None


def check_claim(entry: Entry[bodies.Claim]) -> None:
    """Raise `Refused` for one whom age, role or needs exclude.

    With someone grown beside them nobody is alone. The first claim of a lot to be picked over only says
    that it must be: whoever saw it may.
    """
    key, person = entry.body.chore, Person.rows.of(entry.household).filter(uuid=entry.person).first()
    asked = demands_of(entry.household, key)
    if person is None or asked is None or _begins_pick_over(entry.household, key):
        return
    if _is_grown_beside(entry.household, entry.with_people):
        asked = replace(asked, needs=asked.needs - NOT_ALONE)
    if person.role == "rounds" and person.may_decide and asked.roles == GROWN:
        asked = replace(asked, roles=WALKERS)
    _check(person, asked, key, entry.day)


def _begins_pick_over(household: uuid.UUID, key: str) -> bool:
    if not key.startswith("pick_over/"):
        return False
    return not any(rows.of(household).filter(chore=key).exists() for rows in (Claim.rows, Offer.rows))


def _is_grown_beside(household: uuid.UUID, people: Iterable[uuid.UUID]) -> bool:
    return Person.rows.of(household).filter(uuid__in=list(people), role__in=GROWN).exists()


def _check(person: Person, asked: Demands, key: str, day: dt.date) -> None:
    walker = Walker(person.uuid, person.role, born=person.born, cannot=frozenset(person.cannot))
    work = Work(key, day, 0, asked.roles, asked.needs, asked.least_age)
    why = walker.why_not(work)
    if why is None:
        return
    barred = sorted(work.needs & walker.barred())
    sentence = {
        "role": f"{person.name} is not asked for this: it is for others of the family.",
        "age": f"{person.name} is too young for this: it is from {asked.least_age} years on.",
        "needs": f"This needs {' and '.join(_WORDS[one] for one in barred)}: that is not for {person.name}.",
    }[why]
    raise Refused("not_for_them", sentence, why=why, needs=barred, least_age=asked.least_age, where="chore")
