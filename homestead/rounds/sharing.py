"""Who does what: each piece of work goes to whoever has least of what they can give. Plain, no database.

The rule is Webster's (Sainte-Laguë): the next piece goes to the one for whom (minutes given + half the
piece's minutes) / minutes they can give is least. Source: Balinski and Young, Fair Representation, 1982
(memory). Both are of the four weeks up to the day of the piece, so what was done long ago is owed to nobody,
and nobody who comes back has more than those weeks to catch up with.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

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
    """A piece of work to be given to someone: a walk or a chore. `needs` as in a chore's record.

    `not_by` let its day pass, or `gave` it away. Where it is `pressing` another is asked as well.
    """

    key: str
    day: dt.date
    minutes: float
    roles: frozenset[str]
    needs: frozenset[str] = frozenset()
    least_age: int = 0
    doer: uuid.UUID | None = None
    before: uuid.UUID | None = None
    not_by: uuid.UUID | None = None
    gave: uuid.UUID | None = None
    pressing: bool = False


@dataclass(frozen=True)
class Walker:
    """Someone of the family. `gave`: minutes by day."""

    person: uuid.UUID
    role: str
    minutes_a_week: int | None = None
    away: tuple[dt.date | None, dt.date | None] = (None, None)
    gave: Mapping[dt.date, float] = field(default_factory=dict, hash=False)
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
        return self.why_not(work) is None

    def why_not(self, work: Work) -> Literal["role", "age", "needs"] | None:
        """What excludes them; None: nothing."""
        age = USUAL_AGE.get(self.role, 0) if self.born is None else work.day.year - self.born
        if self.role not in work.roles:
            return "role"
        if age < work.least_age:
            return "age"
        return "needs" if work.needs & self.barred() else None

    def barred(self) -> frozenset[str]:
        """Needs that exclude them: those of their role, and their own."""
        return NOT_ASKED.get(self.role, frozenset()) | self.cannot

    def can_give(self, day: dt.date) -> float:
        """Minutes in the four weeks up to that day, days away left out. [min]"""
        week = USUAL_MINUTES.get(self.role, 0) if self.minutes_a_week is None else self.minutes_a_week
        days = (day - dt.timedelta(days=back) for back in range(WINDOW.days))
        return week / 7 * sum(not self.is_away(one) and one not in self.off for one in days)

    def gave_until(self, day: dt.date) -> float:
        """Minutes given in the four weeks up to that day. [min]"""
        return sum(minutes for on, minutes in self.gave.items() if day - WINDOW < on <= day)


@dataclass
class Shares:
    """Who has how much of the work: the next piece goes to whoever has least of what they can give."""

    walkers: Sequence[Walker]
    today: dt.date
    #: minutes asked of each, by day
    asked: defaultdict[uuid.UUID, Counter[dt.date]] = field(default_factory=lambda: defaultdict(Counter))
    _known: dict[tuple[uuid.UUID, dt.date], tuple[float, float]] = field(default_factory=dict)

    def give(self, work: Work) -> uuid.UUID | None:
        """The one who does it; None where nobody can. A doer named beforehand has it while they are there."""
        able = self._able(work)
        others = [one for one in able if one.person != work.not_by]
        chosen = self._named(able, work.doer) or self._fairest(others or able, work)
        if chosen is None:
            return None
        self.asked[chosen.person][work.day] += round(work.minutes)
        return chosen.person

    def beside(self, work: Work, who: uuid.UUID | None) -> uuid.UUID | None:
        """Who is asked as well where it is pressing; None where nobody else can. It is counted for nobody."""
        others = [one for one in self._able(work) if one.person not in (who, work.gave)]
        chosen = self._fairest(others, work)
        return chosen.person if chosen else None

    def asked_of(self, person: uuid.UUID) -> int:
        """Minutes asked of them, all days together."""
        return self.asked[person].total()

    def _able(self, work: Work) -> list[Walker]:
        return [one for one in self.walkers if one.may(work) and one.is_there(work.day)]

    def _named(self, able: Sequence[Walker], doer: uuid.UUID | None) -> Walker | None:
        return next((one for one in able if doer is not None and one.person == doer), None)

    def _fairest(self, able: Sequence[Walker], work: Work) -> Walker | None:
        if not able:
            return None
        loads = {one: self.load(one, work.day, work.minutes) for one in able}
        least = min(able, key=lambda one: (loads[one], str(one.person)))
        had = self._named(able, work.before)
        return had if had and loads[had] <= loads[least] + KEEPS else least

    def load(self, walker: Walker, day: dt.date, minutes: float = 0) -> float:
        """What they gave and are asked for, and half of the piece, in shares of what they can give."""
        gave, can_give = self._of(walker, day)
        ahead = sum(more for on, more in self.asked[walker.person].items() if day - WINDOW < on <= day)
        return (gave + ahead + minutes / 2) / can_give if can_give else float("inf")

    def _of(self, walker: Walker, day: dt.date) -> tuple[float, float]:
        """Gave, can give: asked for again and again of the same few days."""
        key = (walker.person, day)
        if key not in self._known:
            self._known[key] = (walker.gave_until(day), walker.can_give(day))
        return self._known[key]
