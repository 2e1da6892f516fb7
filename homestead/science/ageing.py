"""The ageing clock: a warm day is more than a day. Chilling and frost where the rule fails."""

from __future__ import annotations

from collections.abc import Sequence

from homestead.science.ranges import within

TOO_WARM_C = 25.0


def ageing_rate(temp_c: float, ref_c: float, q10: float, hold_below_c: float = -40.0) -> float:
    """Days of age for one day at `temp_c`, against `ref_c`. [-]

    temp_c: day's mean, -40 to 60, used up to 25 and not below `hold_below_c` (the chilling threshold, or the
    freezing point) [°C]; ref_c: middle of the crop's best range [°C]; q10: 1 to 6 [-]. Raises OutsideRange.
    Source: Q10 rule, USDA Handbook 66 (seen quoted: 2.5 to 4.0 for 0-10 °C, 2.0 to 2.5 for 10-20 °C).
    """
    within("temp_c", temp_c, -40.0, 60.0)
    within("q10", q10, 1.0, 6.0)
    used = min(max(temp_c, hold_below_c), TOO_WARM_C)
    return float(q10 ** ((used - ref_c) / 10.0))


def effective_age_days(
    temps_c: Sequence[float], ref_c: float, q10: float, hold_below_c: float = -40.0
) -> float:
    """Age in days at `ref_c` after one day at each temperature. [d]

    Applied to daily values, since the rate of a mean is not the mean of the rates. Raises OutsideRange.
    Source: sum of `ageing_rate`.
    """
    return sum(ageing_rate(temp, ref_c, q10, hold_below_c) for temp in temps_c)


def chill_degree_days(temps_c: Sequence[float], chilling_below_c: float) -> float:
    """How long and how far below its chilling threshold a crop lay. [°C d]

    Source: day-degrees below a threshold (ours): caution from 20, faster losses from 50.
    """
    return sum(max(0.0, chilling_below_c - temp) for temp in temps_c)


def days_lost_a_week(temp_c: float, best_c: float, q10: float, hold_below_c: float = -40.0) -> float:
    """By how many days of `best_c` a lot ages more in a week at `temp_c`; 0 where it is no warmer. [d]

    temp_c, best_c: -40 to 60 [°C]. Raises OutsideRange. Source: `ageing_rate` of both.
    """
    here = ageing_rate(temp_c, 0.0, q10, hold_below_c)
    return max(7.0 * (here / ageing_rate(best_c, 0.0, q10, hold_below_c) - 1.0), 0.0)
