"""A lot's history walked for many guesses at once: from put-away through every look and take to a day.

Source: ours; steps as in `pieces`, `evidence` and `ageing`.
"""

from __future__ import annotations

import datetime as dt
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from homestead.science.evidence import look_says, takes_say, use_says
from homestead.science.guesses import Floats, Traits
from homestead.science.lots import Look, Lot, Take
from homestead.science.pieces import (
    SIGNS_DAYS,
    Pieces,
    begin,
    cumulative_hazard,
    eat,
    move_on,
    new_signs,
    throw_out,
    weak_hazard,
)

WARMEST_C = 25.0


@dataclass(frozen=True)
class Stretch:
    """Up to seven days from `start`, counted from put-away, and what was written in them; then perhaps
    looks.
    """

    start: int
    days: int
    tens_c: float
    written: float
    turning: float
    tossed: float
    looks: tuple[Look, ...]


@dataclass(frozen=True)
class Habit:
    """What the whole record says of the takes. `draw`: pieces of a usual take."""

    written: float
    takes: int
    draw: float


def habit(lot: Lot) -> Habit:
    """Sum and usual size of the takes of all records in use."""
    written = sum(take.pieces for take in lot.takes)
    return Habit(written, len(lot.takes), max(1.0, (written + lot.plan_per_week) / (len(lot.takes) + 3)))


def stretches(lot: Lot, temps_c: Sequence[float] | Floats, as_of: dt.date, since: int = 0) -> list[Stretch]:
    """The days from put-away, or day `since`, to `as_of`, cut at every week and every look.

    temps_c: one for each day from put-away [°C].
    """
    age = (as_of - lot.put_away).days
    looked = {(look.day - lot.put_away).days for look in lot.looks}
    cuts = sorted(day for day in {*range(0, age, 7), *looked, age, since} if day >= since)
    warmth = _tens(lot, temps_c[: max(age, 1)])
    takes = _by_stretch(lot, cuts)
    return [
        Stretch(a, b - a, float(warmth[a:b].mean()), *takes[a], _looks_on(lot, b)) for a, b in pairwise(cuts)
    ]


def _tens(lot: Lot, temps_c: Sequence[float] | Floats) -> Floats:
    book = lot.handbook
    return (np.clip(np.asarray(temps_c, dtype=np.float64), book.hold_below_c, WARMEST_C) - book.ref_c) / 10.0


def _looks_on(lot: Lot, day: int) -> tuple[Look, ...]:
    return tuple(look for look in lot.looks if (look.day - lot.put_away).days == day)


def _by_stretch(lot: Lot, cuts: list[int]) -> dict[int, tuple[float, float, float]]:
    sums = {cut: (0.0, 0.0, 0.0) for cut in cuts}
    for take in lot.takes:
        place = bisect_right(cuts, (take.day - lot.put_away).days) - 1
        if place >= 0:
            sums[cuts[place]] = _added(sums[cuts[place]], take)
    return sums


def _added(sums: tuple[float, float, float], take: Take) -> tuple[float, float, float]:
    return sums[0] + take.pieces, sums[1] + take.turning, sums[2] + take.tossed


@dataclass(slots=True)
class Walked:
    """A lot at the end of its records. `age_days`: effective age; `said`: log-likelihood, both per guess."""

    pieces: Pieces
    age_days: Floats
    said: Floats
    day: int


def walk(lot: Lot, path: Sequence[Stretch], traits: Traits) -> Walked:
    """Walk the stretches for all guesses, from put-away on."""
    rates = np.exp(np.array([s.tens_c for s in path] or [0.0])[:, None] * traits.ln_q10)
    pieces = begin(lot.pieces, lot.count_sd, rates[0], lot.handbook.life_days, traits)
    walked = Walked(pieces, np.zeros_like(rates[0]), np.zeros_like(rates[0]), 0)
    return carry_on(walked, lot, path, traits)


def carry_on(walked: Walked, lot: Lot, path: Sequence[Stretch], traits: Traits) -> Walked:
    """Walk further stretches from where a walk ended, its own day's looks first; changes and gives
    `walked`.
    """
    if not path:
        return walked
    for look in _looks_on(lot, walked.day):
        walked.said = walked.said + look_says(walked.pieces, look, traits)
    usual = habit(lot)
    hazards, walked.age_days = _hazards(walked.age_days, path, lot.handbook.life_days, traits)
    for stretch, hazard in zip(path, hazards, strict=True):
        walked.said = walked.said + _live_through(walked.pieces, lot, usual, stretch, hazard, traits)
        walked.day = stretch.start + stretch.days
    return walked


def said_of_use(lot: Lot, traits: Traits, day: int) -> Floats:
    """What all takes together say, once, at the end of a walk. [-]"""
    usual = habit(lot)
    return use_says(traits, usual.written, usual.takes, lot.plan_per_week, day / 7.0, usual.draw)


def _hazards(age: Floats, path: Sequence[Stretch], life_days: float, traits: Traits) -> tuple[Floats, Floats]:
    """Hazard of each stretch (stretches, guesses), and the effective age at the end: signs come 12 days
    ahead.
    """
    days = np.array([s.days for s in path], dtype=np.float64)[:, None]
    rates = np.exp(np.array([s.tens_c for s in path])[:, None] * traits.ln_q10)
    ages = age + np.cumsum(rates * days, axis=0)
    ahead = ages + SIGNS_DAYS * rates
    start = cumulative_hazard(ahead - rates * days, life_days, traits.haz, traits.shape)
    return cumulative_hazard(ahead, life_days, traits.haz, traits.shape) - start, ages[-1]


def _live_through(
    pieces: Pieces, lot: Lot, usual: Habit, stretch: Stretch, hazard: Floats, traits: Traits
) -> Floats:
    first, last = stretch.start + SIGNS_DAYS, stretch.start + stretch.days + SIGNS_DAYS
    weak = weak_hazard(last) - weak_hazard(first)
    turned = new_signs(pieces, traits, hazard, weak, lot.pieces, stretch.days)
    move_on(pieces, turned, stretch.days)
    said = _take_out(pieces, lot, usual, stretch, traits)
    for look in stretch.looks:
        said = said + look_says(pieces, look, traits)
    return said


def _take_out(pieces: Pieces, lot: Lot, usual: Habit, stretch: Stretch, traits: Traits) -> Floats:
    forgotten = traits.forget * traits.use * (lot.plan_per_week * stretch.days / 7.0)
    wanted = stretch.written + forgotten
    share = stretch.written / np.maximum(wanted, 1e-9)
    eaten = eat(pieces, wanted, traits.pick)
    weighed = 0.0025 * stretch.written * usual.draw if lot.weighed else 0.0
    unsure = 1.5 * usual.draw * forgotten + (1.0 - traits.note * share) * eaten.tossed + weighed
    pieces.variance = pieces.variance + unsure
    pieces.most = pieces.most - (0.95 * stretch.written + stretch.tossed)
    if stretch.written <= 0:
        throw_out(pieces, stretch.tossed)
        return np.zeros_like(wanted)
    return takes_say(eaten, traits, share, stretch.tossed, stretch.turning)
