"""When to look a lot over again: minutes of looking against what rotten pieces do meanwhile."""

from __future__ import annotations

import math
from collections.abc import Sequence

from scipy.optimize import brentq

from homestead.science.guesses import Floats
from homestead.science.ranges import within

LEAST_DAYS, MOST_DAYS = 4.0, 365.0
JOIN_DAYS = 3


def look_every_days(look_minutes: float, rots_per_day: float, cost_minutes_day: float) -> float:
    """Days between looks that cost least. [d]

    look_minutes: of one look, over 0; rots_per_day: new rotten pieces, over 0; cost_minutes_day: of one
    rotten piece
    lying a day, over 0. Raises OutsideRange. Source: least of c/T + λκT/2, √(2c/(λκ)) (derived).
    """
    within("look_minutes", look_minutes, 1e-6, 1e5)
    loss = within("rots_per_day", rots_per_day, 1e-9, 1e5) * within("cost", cost_minutes_day, 1e-9, 1e5)
    return math.sqrt(2.0 * look_minutes / loss)


def look_every_days_one_piece(rots_per_day: float, look_days: float) -> float:
    """The same for one piece that rots once, exactly. [d]

    rots_per_day: its hazard, over 0; look_days: minutes of a look / cost of a rotten day, over 0. Raises
    OutsideRange.
    Source: Barlow, Hunter and Proschan 1963 (memory): exp(λT) - λT = 1 + λc/κ.
    """
    hazard = within("rots_per_day", rots_per_day, 1e-9, 1e3)
    owed = hazard * within("look_days", look_days, 1e-9, 1e6)
    x = brentq(lambda x: math.expm1(x) - x - owed, 0.0, 1.0 + math.sqrt(2.0 * owed))
    return float(x) / hazard


def look_in_days(
    rotted_per_day: Sequence[float] | Floats, look_minutes: float, cost_minutes_day: float
) -> int | None:
    """First day, counted from 1, on which waiting has cost as much as a look; None within the days given.

    rotted_per_day: new rotten pieces forecast for each day ahead. Source: ours, the rule above for a
    rising hazard:
    Σ of pieces x days they lay x cost reaches the look's minutes.
    """
    lying, cost = 0.0, 0.0
    for day, rotted in enumerate(rotted_per_day, start=1):
        cost += cost_minutes_day * (lying + rotted / 2.0)
        lying += max(rotted, 0.0)
        if cost >= look_minutes:
            return day
    return None


def kept_in_table(days: float, every_days: float, all_well: bool) -> float:
    """Days until the next look, held between 4 and the table's rhythm, half as long again when all is
    well. [d]

    every_days: of the looking-over table, over 0. Source: ours.
    """
    most = within("every_days", every_days, 1.0, MOST_DAYS) * (1.5 if all_well else 1.0)
    return min(max(days, min(LEAST_DAYS, most)), most)


def joined(due_days: Sequence[int]) -> list[int]:
    """Due days of the lots of one space, those within 3 days of the earliest brought together on it.
    Source: ours.
    """
    together: dict[int, int] = {}
    first = None
    for day in sorted(set(due_days)):
        first = day if first is None or day - first > JOIN_DAYS else first
        together[day] = first
    return [together[day] for day in due_days]
