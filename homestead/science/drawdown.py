"""In which order to eat the store over the months, what to put by, and what nobody will eat."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.optimize import linprog

from homestead.science.guesses import Floats
from homestead.science.ranges import Impossible

PUT_BY_WORTH = 0.8
LEFT_SOUND_WORTH = 0.01


@dataclass(frozen=True)
class Store:
    """Lots and months. `kg`: sound now, (lots,); `sound`: share sound in a month if untouched, (lots,
    months);

    `need_kg`: (months,); `put_by_yield`: kg kept of a kg put by, (lots,); `kitchen_kg`: most put by in a
    month.
    """

    kg: Floats
    sound: Floats
    need_kg: Floats
    put_by_yield: Floats
    kitchen_kg: float = 0.0


@dataclass(frozen=True)
class Plan:
    """Kilograms eaten and put by, (lots, months) each, and what of each lot is planned for neither,
    (lots,).
    """

    eaten_kg: Floats
    put_by_kg: Floats
    surplus_kg: Floats


def draw_down(store: Store) -> Plan:
    """Plan that feeds most: kg eaten, 0.8 x yield of kg put by, 0.01 x what is left sound at the end.

    Raises Impossible for shapes that do not fit, or figures below 0. Source: linear programme (scipy
    HiGHS); worths ours.
    """
    _check(store)
    lots, months = store.sound.shape
    if not lots or not months:
        return Plan(np.zeros((lots, months)), np.zeros((lots, months)), store.kg.copy())
    inverse = 1.0 / np.maximum(store.sound, 1e-6)
    left = LEFT_SOUND_WORTH * store.sound[:, -1:] * inverse
    goal = np.stack([1.0 - left, PUT_BY_WORTH * store.put_by_yield[:, None] - left])
    rows, limits = _limits(store, inverse)
    found = linprog(-goal.ravel(), A_ub=rows, b_ub=limits, method="highs")
    return _plan(store, np.maximum(np.asarray(found.x), 0.0).reshape(2, lots, months))


def _limits(store: Store, inverse: Floats) -> tuple[Floats, Floats]:
    lots, months = store.sound.shape
    of_lot = np.einsum("ij,jk->ijk", np.eye(lots), inverse).reshape(lots, lots * months)
    of_month = np.tile(np.eye(months), lots)
    none = np.zeros_like(of_month)
    rows = np.vstack([np.hstack([of_lot, of_lot]), np.hstack([of_month, none]), np.hstack([none, of_month])])
    return rows, np.concatenate([store.kg, store.need_kg, np.full(months, store.kitchen_kg)])


def greedy_draw_down(store: Store) -> Plan:
    """The plan a phone can make: each month's need from the lot that loses the largest share by waiting.

    Raises Impossible like `draw_down`. Source: ours; reaches nearly the best plan on invented stores.
    """
    _check(store)
    eaten, left = np.zeros_like(store.sound), store.kg.copy()
    for month, need in enumerate(store.need_kg):
        for lot in _most_losing(store, month):
            kg = min(float(need), float(left[lot] * store.sound[lot, month]))
            eaten[lot, month], need = kg, need - kg
            left[lot] -= kg / max(store.sound[lot, month], 1e-6)
    return _plan(store, np.stack([eaten, np.zeros_like(eaten)]))


def _most_losing(store: Store, month: int) -> list[int]:
    after = store.sound[:, min(month + 1, store.sound.shape[1] - 1)]
    kept = after / np.maximum(store.sound[:, month], 1e-6)
    return [int(lot) for lot in np.argsort(kept, kind="stable")]


def _plan(store: Store, kg: Floats) -> Plan:
    used = (kg.sum(axis=0) / np.maximum(store.sound, 1e-6)).sum(axis=1)
    return Plan(kg[0], kg[1], np.maximum(store.kg - used, 0.0))


def _check(store: Store) -> None:
    lots, months = store.sound.shape
    if store.kg.shape != (lots,) or store.need_kg.shape != (months,) or store.put_by_yield.shape != (lots,):
        raise Impossible("Lots and months of the store do not fit each other.")
    for figures in (store.kg, store.sound, store.need_kg, store.put_by_yield):
        if not (np.isfinite(figures).all() and (figures >= 0).all()):
            raise Impossible("A figure of the store is below 0 or no number.")


def even_pace_kg(store: Store) -> float:
    """Kilograms eaten when each month's need is met from all lots alike, by what of each is still sound. [kg]

    What a plan saves is measured against it. Raises Impossible like `draw_down`. Source: ours.
    """
    _check(store)
    left, eaten = store.kg.copy(), 0.0
    for month, need in enumerate(store.need_kg):
        there = float((left * store.sound[:, month]).sum())
        if there > 0:
            kg = min(float(need), there)
            left, eaten = left * (1.0 - kg / there), eaten + kg
    return eaten


def put_by_now(surplus_low_kg: float, surplus_middle_kg: float, share_lost_a_week: float) -> float:
    """Kilograms to put by now. [kg]

    surplus_low_kg: left over even if the store turns out at its P10; surplus_middle_kg: at its P50;
    share_lost_a_week: by waiting [-]. Source: ours: the first at once, the second from 3 % a week.
    """
    return max(surplus_low_kg, surplus_middle_kg if share_lost_a_week > 0.03 else 0.0, 0.0)
