"""The sheet `plan/<crop>`: which lot feeds which week to the new harvest, and what nobody will eat in time.

docs/sheets.md tells its shape.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from homestead.reference import tables
from homestead.science.drawdown import Plan, Store, draw_down, even_pace_kg, put_by_now
from homestead.science.guesses import Floats
from homestead.season.bands import next_harvest
from homestead.season.foresee import Foreseen
from homestead.season.table import AtTable

#: the plan's periods: five single weeks, then by fours, to the new harvest or 37 weeks on. Ours
SINGLE_WEEKS, FOURS = 5, 8
QUANTILES = (0.1, 0.5, 0.9)
#: less than this is no matter for a plan [g]
LEAST_GRAMS = 250
#: so little that eating goes first, and more than what is left sound is worth. Ours [-]
PUT_BY_YIELD = 0.025
#: a lot left alone for so long is held back [weeks]
HELD_WEEKS = 4


@dataclass(frozen=True)
class Periods:
    """First week and length of each. [weeks]"""

    starts: tuple[int, ...]
    lengths: tuple[int, ...]

    @property
    def end(self) -> int:
        """The week after the last."""
        return self.starts[-1] + self.lengths[-1]

    @property
    def middles(self) -> list[int]:
        """The week whose share sound stands for the period."""
        return [start + length // 2 for start, length in zip(self.starts, self.lengths, strict=True)]


def periods(weeks: int | None) -> Periods:
    """Of a plan of so many weeks, at least one; None: as long as plans are."""
    most = SINGLE_WEEKS + 4 * FOURS
    end = max(1, min(most, most if weeks is None else weeks))
    starts = [*range(min(SINGLE_WEEKS, end)), *range(SINGLE_WEEKS, end, 4)]
    lengths = [min(1 if start < SINGLE_WEEKS else 4, end - start) for start in starts]
    return Periods(tuple(starts), tuple(lengths))


def plan_sheet(
    crop: str,
    lots: Sequence[Foreseen],
    need_kg: float,
    table: AtTable,
    today: dt.date,
    like: str = "",
    south: bool = False,
) -> dict[str, Any] | None:
    """None without a need or food: then there is nothing to plan. Weights in whole grams."""
    if need_kg <= 0 or not any(one.food_kg > 0 for one in lots):
        return None
    harvest = next_harvest(like or crop, today, south)
    when = periods((harvest - today).days // 7 if harvest else None)
    shares = table.by_week(today, SINGLE_WEEKS + 4 * FOURS)
    weeks = zip(when.starts, when.lengths, strict=True)
    need = need_kg * np.array([sum(shares[start : start + length]) for start, length in weeks])
    stores = [_store(lots, need, when, quantile) for quantile in QUANTILES]
    plans = [draw_down(store) for store in stores]
    pairs = list(zip(plans, stores, strict=True))
    saved = sorted(float(plan.eaten_kg.sum()) - even_pace_kg(store) for plan, store in pairs)
    over = [_over_kg(plan, store) for plan, store in pairs[:2]]
    return {
        "crop": crop,
        "day": today.isoformat(),
        "until": harvest.isoformat() if harvest else None,
        "weeks": [_period(lots, plans[1], number, when, today) for number in range(len(when.starts))],
        "hold": _held_back(lots, plans[1], when, today),
        "saved": [round(1000 * max(kg, 0.0)) for kg in saved],
        "surplus": _surplus(lots, over, today, when.end),
        "can_be_put_by": any(row.crop == (like or crop) for row in tables().preserve_yields),
    }


def _store(lots: Sequence[Foreseen], need: Floats, when: Periods, quantile: float) -> Store:
    """Food of each lot at a quantile, with the share of it that is sound in each period.

    The kitchen takes all that is put by without anybody eating less.
    """
    kg, shares = [], []
    for one in lots:
        sound = np.quantile(one.waiting.sound, quantile, axis=1)
        now, last = max(float(sound[0]), 1e-9), len(sound) - 1
        kg.append(max(float(sound[0]) - one.kept.seed_pieces, 0.0) * one.kept.piece_kg)
        shares.append([min(float(sound[min(middle, last)]) / now, 1.0) for middle in when.middles])
    return Store(np.array(kg), np.array(shares), need, np.full(len(lots), PUT_BY_YIELD), kitchen_kg=sum(kg))


def _over_kg(plan: Plan, store: Store) -> Floats:
    """Of each lot what is put by or left over, as it is today. [kg]"""
    put_by = (plan.put_by_kg / np.maximum(store.sound, 1e-6)).sum(axis=1)
    return np.asarray(put_by + plan.surplus_kg)


def _period(
    lots: Sequence[Foreseen], plan: Plan, number: int, when: Periods, today: dt.date
) -> dict[str, Any]:
    grams = 1000 * plan.eaten_kg[:, number]
    rows = [(str(one.kept.lot), round(float(much))) for one, much in zip(lots, grams, strict=True)]
    return {
        "day": _day(today, when.starts[number]),
        "weeks": when.lengths[number],
        "lots": [{"lot": lot, "grams": much} for lot, much in rows if much >= 50],
    }


def _day(today: dt.date, week: int) -> str:
    return (today + dt.timedelta(days=7 * week)).isoformat()


def _held_back(lots: Sequence[Foreseen], plan: Plan, when: Periods, today: dt.date) -> list[dict[str, Any]]:
    """Lots that the plan leaves alone for at least four weeks and then eats, with the day they are begun."""
    found = []
    for one, kg in zip(lots, plan.eaten_kg, strict=True):
        begun = next((start for start, much in zip(when.starts, kg, strict=True) if much >= 0.05), None)
        if begun is not None and begun >= HELD_WEEKS:
            found.append({"lot": str(one.kept.lot), "until": _day(today, begun)})
    return found


def _surplus(
    lots: Sequence[Foreseen], over: Sequence[Floats], today: dt.date, end: int
) -> list[dict[str, Any]]:
    """What nobody will eat, with the day on which to put it by or give it away: today where even a poor store
    has it over; where only the likeliest has, once a week of waiting costs too much. The soonest first.
    """
    rows = []
    for one, least, likely in zip(lots, *over, strict=True):
        for week in range(end):
            kg = put_by_now(float(least), float(likely), _lost_in_week(one, week))
            if 1000 * kg >= LEAST_GRAMS:
                rows.append({"lot": str(one.kept.lot), "grams": round(1000 * kg), "day": _day(today, week)})
                break
    return sorted(rows, key=lambda row: (row["day"], row["lot"]))


def _lost_in_week(one: Foreseen, week: int) -> float:
    """Share of what is sound at its begin that an untouched week costs. [-]"""
    sound = one.waiting.sound.mean(axis=1)
    begin, end = sound[min(week, len(sound) - 1)], sound[min(week + 1, len(sound) - 1)]
    return float(max(1.0 - end / begin, 0.0)) if begin > 0 else 0.0
