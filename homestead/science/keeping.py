"""How a lot keeps against what was expected of it: shares of what was put away and not eaten."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from homestead.science.guesses import Floats, Traits
from homestead.science.lots import Handbook, Look
from homestead.science.pieces import sound_share, weak_hazard
from homestead.science.walk import WARMEST_C


def expected_shares(traits: Traits, handbook: Handbook, temps_c: Sequence[float] | Floats) -> Floats:
    """Share of the pieces of an untouched lot that are still sound, at put-away and after each week since,
    (weeks + 1, guesses). [-]

    temps_c: the room's temperature on each day from put-away [°C]; days beyond whole weeks are left out.
    Source: ours: weak pieces by their own clock, the others by age, as in `pieces`.
    """
    weeks = len(temps_c) // 7
    days = np.asarray(temps_c, dtype=np.float64)[: 7 * weeks]
    temps = np.clip(days, handbook.hold_below_c, WARMEST_C).reshape(weeks, 7).mean(axis=1)
    rates = np.exp((temps[:, None] - handbook.ref_c) / 10.0 * traits.ln_q10)
    none = np.zeros((1, len(traits.haz)))
    ages = np.vstack([none, 7.0 * np.cumsum(rates, axis=0)])
    by_age = sound_share(ages, handbook.life_days, traits.haz, traits.shape)
    weak = np.exp([-weak_hazard(7.0 * week) for week in range(weeks + 1)])[:, None]
    return np.asarray((1.0 - traits.weak) * by_age + traits.weak * weak)


def share_kept(sound: Floats, rotten: Floats, gone: float) -> Floats:
    """Of the pieces not eaten, the share that is still sound; 1 of nothing. [-]

    sound, rotten: lying there [pieces]; gone: culled and thrown out so far [pieces]. Source: definition.
    """
    lost = rotten + gone
    return np.asarray(np.where(sound + lost > 0, sound / np.maximum(sound + lost, 1e-9), 1.0))


@dataclass(frozen=True)
class Seen:
    """A look's own word: of 100 not eaten, `sound` by what it saw, and `left` after what it took out. [-]"""

    day: dt.date
    sound: float
    left: float


def kept_by_looks(looks: Sequence[Look], pieces: float) -> list[Seen]:
    """What each look at which rot was sought says by itself, in order of day.

    After a look at all, what is left is as sound as it saw. A sample tells how sound the lot is, but takes
    out only what it held: of `pieces` put away. Pieces eaten meanwhile are taken to be as sound as the rest.
    Source: product of the shares left at each look at all (Kaplan and Meier 1958, memory); of a sample, ours.
    """
    left, found = 1.0, []
    for look in sorted(looks, key=lambda look: look.day):
        if look.sought and look.looked > 0:
            sound = left * (1.0 - look.culled / look.looked)
            left = sound if look.full else left * (1.0 - min(look.culled / max(pieces, look.looked), 1.0))
            found.append(Seen(look.day, sound, left))
    return found
