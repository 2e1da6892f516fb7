"""Chores shared fairly: by the minutes each person has, and what was done before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from homestead.science.guesses import Floats
from homestead.science.ranges import Impossible

SMALL = 0.01


@dataclass(frozen=True)
class Chores:
    """Persons and chores. `capacity`, `debt_minutes`: (persons,); `minutes`: (chores,); `may`: (persons,
    chores).

    `dislike` [0 to 1] and `did_last` (0 or 1): (persons, chores). Capacity is 0 for who is away.
    """

    capacity: Floats
    debt_minutes: Floats
    minutes: Floats
    may: Floats
    dislike: Floats
    did_last: Floats


def fair_minutes(chores: Chores) -> Floats:
    """Minutes each person should do, (persons,): by capacity, less what was done beyond a fair share before.

    Raises Impossible when nobody has any time. Source: ours: cap/Σcap (Σminutes + Σdebt) - debt.
    """
    if chores.capacity.sum() <= 0:
        raise Impossible("Nobody has any time this week.")
    whole = chores.minutes.sum() + chores.debt_minutes.sum()
    return np.asarray(chores.capacity / chores.capacity.sum() * whole - chores.debt_minutes)


def share_out(chores: Chores) -> list[int | None]:
    """Person of each chore, nearest to fair; None for a chore nobody here may do, which is shown, not forced.

    Raises Impossible. Source: mixed integer programme (scipy milp, HiGHS): least Σ|load - fair|; small
    terms ours.
    """
    able = chores.may * (chores.capacity > 0)[:, None]
    doable = np.flatnonzero(able.sum(axis=0) > 0)
    if not len(doable):
        return [None] * len(chores.minutes)
    done = _assigned(chores, able[:, doable], doable)
    person = dict(zip(doable.tolist(), done.argmax(axis=0).tolist(), strict=True))
    return [person.get(chore) for chore in range(len(chores.minutes))]


def _assigned(chores: Chores, able: Floats, doable: np.ndarray) -> Floats:
    persons, count = able.shape
    minutes, fair = chores.minutes[doable], fair_minutes(chores)
    small = SMALL * (minutes * chores.dislike[:, doable] + chores.did_last[:, doable])
    goal = np.concatenate([small.ravel(), np.ones(persons)])
    loads = np.kron(np.eye(persons), minutes)
    once = np.hstack([np.tile(np.eye(count), persons), np.zeros((count, persons))])
    found = milp(
        goal,
        constraints=[
            LinearConstraint(once, 1, 1),
            LinearConstraint(np.hstack([loads, -np.eye(persons)]), -np.inf, fair),
            LinearConstraint(np.hstack([loads, np.eye(persons)]), fair, np.inf),
        ],
        integrality=np.concatenate([np.ones(persons * count), np.zeros(persons)]),
        bounds=Bounds(0, np.concatenate([able.ravel(), np.full(persons, np.inf)])),
    )
    return np.asarray(found.x)[: persons * count].reshape(persons, count)


def unfairness_minutes(chores: Chores, person_of: Sequence[int | None]) -> float:
    """Sum over persons of minutes off the fair share. [min]  Source: ours."""
    loads = np.zeros_like(chores.capacity)
    for minutes, person in zip(chores.minutes, person_of, strict=True):
        if person is not None:
            loads[person] += minutes
    return float(np.abs(loads - fair_minutes(chores)).sum())
