"""Who is at table on a day: guests eat along, those away do not, and the expected use follows them."""

from __future__ import annotations

import datetime as dt
import uuid
from dataclasses import dataclass

from homestead.household.models import Person
from homestead.household.roles import FAMILY
from homestead.store.models import Guests


@dataclass(frozen=True)
class AtTable:
    """`usual`: of the family; `away`: first and last day of each; `guests`: number, first, last day."""

    usual: int = 0
    away: tuple[tuple[dt.date | None, dt.date | None], ...] = ()
    guests: tuple[tuple[int, dt.date, dt.date], ...] = ()

    def share(self, day: dt.date) -> float:
        """Eaters of a day, as a share of the usual ones; 1 where nobody is known. [-]"""
        if not self.usual:
            return 1.0
        gone = sum(
            1 for first, last in self.away if (not first or first <= day) and (not last or day <= last)
        )
        come = sum(number for number, first, last in self.guests if first <= day <= last)
        return (self.usual - gone + come) / self.usual

    def by_week(self, first: dt.date, weeks: int) -> list[float]:
        """The mean share of each week from a day on. [-]"""
        days = [self.share(first + dt.timedelta(days=number)) for number in range(7 * weeks)]
        return [sum(days[7 * week : 7 * week + 7]) / 7 for week in range(weeks)]


NOBODY_KNOWN = AtTable()


def at_table(household: uuid.UUID) -> AtTable:
    """Read who there is; whoever minds the place is no part of the family's use."""
    family = Person.rows.of(household).filter(archived=False, role__in=FAMILY)
    told = [(one.away_from, one.away_until) for one in family]
    away = tuple((first, last) for first, last in told if first or last)
    guests = Guests.rows.of(household).filter(archived=False).order_by("first_day", "uuid")
    come = tuple(guests.values_list("number", "first_day", "last_day"))
    return AtTable(len(told), away, come)
