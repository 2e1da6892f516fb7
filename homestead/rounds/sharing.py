"""Who walks: the next walk goes to whoever has given least of what they can give. Plain, no database."""

from __future__ import annotations

import datetime as dt
import uuid
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

#: minutes a week someone can give who has not said
USUAL_MINUTES = 60
#: doors an older child is not sent through alone
NOT_FOR_CHILDREN = frozenset({"gas", "not_alone"})


@dataclass(frozen=True)
class Door:
    """A space and who may be sent through it."""

    space: uuid.UUID
    cautions: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Walker:
    """Someone who walks rounds. `spent` minutes in the last four weeks."""

    person: uuid.UUID
    role: str
    minutes_a_week: int | None = None
    away: tuple[dt.date | None, dt.date | None] = (None, None)
    spent: float = 0

    def is_away(self, day: dt.date) -> bool:
        first, last = self.away
        if first is None and last is None:
            return False
        return (first is None or first <= day) and (last is None or day <= last)


@dataclass
class Shares:
    """Who has how much of the work, so that the next walk goes to whoever has least of what they can give."""

    walkers: Sequence[Walker]
    given: Counter[uuid.UUID] = field(default_factory=Counter)

    def give(self, day: dt.date, minutes: float, cautions: frozenset[str]) -> uuid.UUID | None:
        """The one who walks; None where nobody can."""
        able = [one for one in self.walkers if not one.is_away(day) and _may_go(one, cautions)]
        if not able:
            return None
        chosen = min(able, key=lambda one: (self._load(one), str(one.person)))
        self.given[chosen.person] += round(minutes)
        return chosen.person

    def _load(self, walker: Walker) -> float:
        can_give = 4 * (USUAL_MINUTES if walker.minutes_a_week is None else walker.minutes_a_week)
        return (walker.spent + self.given[walker.person]) / can_give if can_give else float("inf")


def _may_go(walker: Walker, cautions: frozenset[str]) -> bool:
    return walker.role != "rounds" or not NOT_FOR_CHILDREN & cautions
