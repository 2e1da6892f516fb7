"""How the pieces of a lot turn, rot, are eaten and are thrown out in one stretch of days: expected counts.

Arrays have one number per guess. Sound pieces are fresh, weak (badly cured or bruised, still sound) or
turning,
early or late; rotten ones lie there until somebody throws them out.
Source: cumulative Weibull hazard for ageing (Weibull 1951, memory); the rest is ours.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from homestead.science.guesses import Floats, Traits

HAZARD_AT_LIFE = 1.0 / 3.0
"""Cumulative hazard at the age handbooks call storage life: 28 % gone. Ours; handbooks do not define it.
[-]
"""
SIGNS_DAYS = 12.0
"""Days a piece shows signs before it is lost. Ours. [d]"""
WEAK_DAYS, WEAK_SHAPE = 30.0, 1.4
"""When weak pieces go: a Weibull clock of calendar days. Ours."""
LEAST = 1e-9


def cumulative_hazard(age_days: Floats, life_days: float, haz: Floats, shape: Floats) -> Floats:
    """Ageing losses up to an effective age, as a hazard. [-]

    age_days: effective age [d at the reference temperature]; life_days: handbook life [d]; haz, shape: [-].
    Source: Weibull 1951 (memory), scaled to 1/3 at the handbook life (ours).
    """
    return np.asarray(HAZARD_AT_LIFE * haz * (age_days / life_days) ** shape, dtype=np.float64)


def sound_share(age_days: Floats, life_days: float, haz: Floats, shape: Floats) -> Floats:
    """Share of the pieces that ageing alone has not taken by an effective age. [-]

    Arguments as in `cumulative_hazard`. Source: survival = exp(-cumulative hazard).
    """
    return np.asarray(np.exp(-cumulative_hazard(age_days, life_days, haz, shape)), dtype=np.float64)


def weak_hazard(day: float) -> float:
    """Cumulative hazard of the weak pieces by a day from put-away. [-]  Ours; also takes arrays of days."""
    return float((day / WEAK_DAYS) ** WEAK_SHAPE)


@dataclass(slots=True)
class Pieces:
    """Expected pieces of a lot, one number per guess in each array.

    `variance`: of all that lie there, since the last count [pieces²]; `most`: the most that can be there.
    """

    fresh: Floats
    weak: Floats
    early: Floats
    late: Floats
    rotten: Floats
    variance: Floats
    most: Floats

    @property
    def turning(self) -> Floats:
        """Sound, but on the turn. [pieces]"""
        return self.early + self.late

    @property
    def sound(self) -> Floats:
        """All that can still be eaten. [pieces]"""
        return self.fresh + self.weak + self.early + self.late

    @property
    def present(self) -> Floats:
        """All that lies there, rotten ones too. [pieces]"""
        return self.sound + self.rotten

    def scale_sound(self, factor: Floats) -> None:
        """Fewer or more sound pieces, in the same proportions."""
        self.fresh = self.fresh * factor
        self.weak = self.weak * factor
        self.early = self.early * factor
        self.late = self.late * factor

    def copy(self) -> Pieces:
        """The same counts in new arrays."""
        return Pieces(*(getattr(self, name).copy() for name in self.__slots__))

    def chosen(self, index: np.ndarray[tuple[int], np.dtype[np.intp]]) -> Pieces:
        """The guesses of these numbers, in this order."""
        return Pieces(*(getattr(self, name)[index] for name in self.__slots__))


@dataclass(frozen=True)
class Turned:
    """New signs of one stretch [pieces]: of age, caught from rotten neighbours, and of weak pieces."""

    aged: Floats
    caught: Floats
    weak: Floats


def begin(count: float, count_sd: float, first_rate: Floats, life_days: float, traits: Traits) -> Pieces:
    """The lot on the day it was put away: some pieces already carry what will show within 12 days."""
    weak_gone = 1.0 - math.exp(-weak_hazard(SIGNS_DAYS))
    aged = cumulative_hazard(SIGNS_DAYS * first_rate, life_days, traits.haz, traits.shape)
    weak = traits.weak * count * (1.0 - weak_gone)
    fresh = (1.0 - traits.weak) * count * np.exp(-aged)
    signs = count - weak - fresh
    zero = np.zeros_like(fresh)
    top = 1.3 * count if count_sd else count
    return Pieces(fresh, weak, 0.6 * signs, 0.4 * signs, zero, zero + count_sd**2, zero + top)


def new_signs(
    pieces: Pieces, traits: Traits, hazard: Floats, weak_hazard_step: float, n: float, days: float
) -> Turned:
    """Which pieces begin to show signs in a stretch.

    hazard: of ageing over the stretch [-]; weak_hazard_step: the same of weak pieces [-]; n: put away
    [pieces].
    """
    aged = pieces.fresh * -np.expm1(-hazard)
    contact = traits.spread * pieces.rotten * pieces.sound * (days / max(n, LEAST))
    caught = np.minimum(contact, 0.4 * (pieces.fresh - aged))
    return Turned(aged, caught, pieces.weak * -math.expm1(-weak_hazard_step))


def move_on(pieces: Pieces, turned: Turned, days: float) -> Floats:
    """Signs become worse and at last rot. Changes `pieces`; gives the pieces that turned rotten."""
    q = -math.expm1(-days / (SIGNS_DAYS / 2))
    rotted = q * pieces.late
    worse = q * pieces.early
    pieces.fresh = np.maximum(pieces.fresh - (turned.aged + turned.caught), 0.0)
    pieces.weak = np.maximum(pieces.weak - turned.weak, 0.0)
    pieces.early = pieces.early + (turned.aged + turned.weak - worse)
    pieces.late = pieces.late + (worse + turned.caught - rotted)
    pieces.rotten = pieces.rotten + rotted
    return rotted


@dataclass(frozen=True)
class Eaten:
    """What eating took [pieces]: turning ones that were chosen, and rotten ones found and thrown out."""

    chosen: Floats
    tossed: Floats


def eat(pieces: Pieces, wanted: Floats, pick: Floats) -> Eaten:
    """People take what they want, the turning ones first by their habit, and throw out the rot they meet."""
    sound, turning = pieces.sound, pieces.turning
    taken = np.minimum(wanted, sound)
    first = turning * -np.expm1(-pick * taken / np.maximum(turning, LEAST))
    late = np.minimum(0.8 * first, 0.95 * pieces.late)
    early = np.minimum(first - late, 0.98 * pieces.early)
    pieces.early = pieces.early - early
    pieces.late = pieces.late - late
    chosen = early + late
    rest, left = taken - chosen, sound - chosen
    tossed = pieces.rotten * -np.expm1(-rest / np.maximum(left, 0.5))
    pieces.scale_sound(np.maximum(1.0 - rest / np.maximum(left, LEAST), 0.0))
    pieces.rotten = pieces.rotten - tossed
    return Eaten(chosen, tossed)


def throw_out(pieces: Pieces, count: float) -> Floats:
    """Throw pieces out with nothing taken, rotten ones first. Changes `pieces`; gives the rotten ones."""
    rotten = np.minimum(pieces.rotten, count)
    sound = pieces.sound
    pieces.rotten = pieces.rotten - rotten
    pieces.scale_sound(np.maximum(1.0 - (count - rotten) / np.maximum(sound, LEAST), 0.0))
    return rotten
