"""Who does what: each piece of work goes to whoever has least of what they can give. Plain, no database.

The rule is Webster's (Sainte-Laguë): the next piece goes to the one for whom (minutes given + half the
piece's minutes) / minutes they can give is least. Source: Balinski and Young, Fair Representation, 1982
(memory).
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

#: minutes a week someone can give who has not said; a child's own are few. Ours, no source.
USUAL_MINUTES: Mapping[str, int] = {"keeper": 60, "adult": 60, "rounds": 40, "child": 20}
#: years taken for someone whose year of birth is not known
USUAL_AGE: Mapping[str, int] = {"keeper": 18, "adult": 18, "rounds": 12, "child": 5}
#: what nobody of that role is asked for, whatever their age
NOT_ASKED: Mapping[str, frozenset[str]] = {
    "rounds": frozenset({"not_alone"}),
    "child": frozenset({"ladder", "knife", "lifting", "not_alone"}),
}
#: what a door asks of whoever goes through it
NEEDS_OF_DOOR: Mapping[str, str] = {
    "gas": "not_alone",
    "not_alone": "not_alone",
    "ladder": "ladder",
    "weight": "lifting",
}
#: through these doors an older child is not sent; a ladder or a weight is for the person's own list to say
DOORS_NOT_ALONE = frozenset({"gas", "not_alone"})
#: who had a piece of work in the last roster keeps it unless another has so much less of what they can give
KEEPS = 0.1
WINDOW = dt.timedelta(days=28)


@dataclass(frozen=True)
class Work:
    """A piece of work to be given to someone: a walk or a chore. `needs` as in a chore's record."""

    key: str
    day: dt.date
    minutes: float
    roles: frozenset[str]
    needs: frozenset[str] = frozenset()
    least_age: int = 0
    doer: uuid.UUID | None = None
    before: uuid.UUID | None = None
    not_by: uuid.UUID | None = None


@dataclass(frozen=True)
class Walker:
    """Someone of the family. `spent` minutes in the last four weeks."""

    person: uuid.UUID
    role: str
    minutes_a_week: int | None = None
    away: tuple[dt.date | None, dt.date | None] = (None, None)
    spent: float = 0
    born: int | None = None
    cannot: frozenset[str] = frozenset()
    weekdays: frozenset[int] = frozenset()
    off: frozenset[dt.date] = frozenset()

    def is_away(self, day: dt.date) -> bool:
        first, last = self.away
        if first is None and last is None:
            return False
        return (first is None or first <= day) and (last is None or day <= last)

    def is_there(self, day: dt.date) -> bool:
        return not self.is_away(day) and (not self.weekdays or day.isoweekday() in self.weekdays)

    def may(self, work: Work) -> bool:
        """Age, role and abilities; never whether they are there."""
        age = USUAL_AGE.get(self.role, 0) if self.born is None else work.day.year - self.born
        barred = NOT_ASKED.get(self.role, frozenset()) | self.cannot
        return self.role in work.roles and age >= work.least_age and not work.needs & barred

    def can_give(self, today: dt.date) -> float:
        """Minutes in the four weeks up to today, days away left out. [min]"""
        week = USUAL_MINUTES.get(self.role, 0) if self.minutes_a_week is None else self.minutes_a_week
        days = (today - dt.timedelta(days=back) for back in range(WINDOW.days))
        return week / 7 * sum(not self.is_away(day) and day not in self.off for day in days)


@dataclass
class Shares:
    """Who has how much of the work: the next piece goes to whoever has least of what they can give."""

    walkers: Sequence[Walker]
    today: dt.date
    given: Counter[uuid.UUID] = field(default_factory=Counter)

    def give(self, work: Work) -> uuid.UUID | None:
        """The one who does it; None where nobody can. A doer named beforehand has it while they are there."""
        able = [one for one in self.walkers if one.may(work) and one.is_there(work.day)]
        others = [one for one in able if one.person != work.not_by]
        chosen = self._named(able, work.doer) or self._fairest(others or able, work)
        if chosen is None:
            return None
        self.given[chosen.person] += round(work.minutes)
        return chosen.person

    def _named(self, able: Sequence[Walker], doer: uuid.UUID | None) -> Walker | None:
        return next((one for one in able if doer is not None and one.person == doer), None)

    def _fairest(self, able: Sequence[Walker], work: Work) -> Walker | None:
        if not able:
            return None
        loads = {one: self.load(one, work.minutes) for one in able}
        least = min(able, key=lambda one: (loads[one], str(one.person)))
        had = self._named(able, work.before)
        return had if had and loads[had] <= loads[least] + KEEPS else least

    def load(self, walker: Walker, minutes: float = 0) -> float:
        """What they gave, and half of the piece, in shares of what they can give."""
        can_give = walker.can_give(self.today)
        given = walker.spent + self.given[walker.person] + minutes / 2
        return given / can_give if can_give else float("inf")
