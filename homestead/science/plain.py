"""The forecast a handbook alone would give: what every better one is measured against.

Source: Weibull law over the handbook's range of lives (ours), planned use, written pieces.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from homestead.science.guesses import Floats
from homestead.science.lots import Handbook, Look, Lot
from homestead.science.outlook import CAP_DAYS, Ahead
from homestead.science.pieces import LEAST, sound_share

LIVES = 21
SHAPE = 2.5


@dataclass(frozen=True)
class Curves:
    """Survival by a Weibull law, one curve per entry: `life_days` and `shape`, arrays of one length."""

    life_days: Floats
    shape: Floats

    def sound(self, age_days: float) -> Floats:
        """Share still sound at an effective age. [-]"""
        return sound_share(age_days / self.life_days, 1.0, np.ones_like(self.shape), self.shape)


def handbook_curves(handbook: Handbook) -> Curves:
    """21 lives evenly spaced on a log scale over the handbook's range, all of shape 2.5 (ours)."""
    lives = np.geomspace(handbook.low_days, handbook.high_days, LIVES)
    return Curves(lives, np.full(LIVES, SHAPE))


def ages_days(handbook: Handbook, temps_c: Sequence[float] | Floats) -> Floats:
    """Effective age each morning from put-away on, (days + 1,): Q10 rule with the handbook's own
    figures. [d]
    """
    rates = handbook.q10 ** ((np.asarray(temps_c, dtype=np.float64) - handbook.ref_c) / 10.0)
    return np.concatenate([[0.0], np.cumsum(rates)])


def ledger_pieces(lot: Lot) -> tuple[float, int]:
    """Pieces by the written record alone since the last full count, and the day of that count. [pieces, d]"""
    counts = [look for look in lot.looks if look.full and look.counted]
    last = counts[-1] if counts else Look(lot.put_away, lot.pieces)
    after = [look.culled for look in lot.looks if look.day > last.day]
    gone = [take.pieces + take.tossed for take in lot.takes if take.day >= last.day]
    return max(last.looked - last.culled - sum(after) - sum(gone), 0.0), (last.day - lot.put_away).days


def plain_ahead(lot: Lot, as_of: dt.date, temps_c: Sequence[float] | Floats, curves: Curves) -> Ahead:
    """Weeks ahead by curves and planned use alone. temps_c: each day from put-away to 406 days past
    `as_of` [°C].
    """
    known = lot.before(as_of)
    ages, today = ages_days(lot.handbook, temps_c), (as_of - lot.put_away).days
    pieces, counted = ledger_pieces(known)
    now = pieces * curves.sound(ages[today]) / np.maximum(curves.sound(ages[counted]), LEAST)
    return _weeks(now, ages[today::7], curves, lot.plan_per_week)


def _weeks(now: Floats, ages: Floats, curves: Curves, plan: float) -> Ahead:
    sound, rotted, out = [now], [], np.full_like(now, CAP_DAYS)
    for week, (before, after) in enumerate(pairwise(ages)):
        kept = sound[-1] * np.minimum(curves.sound(after) / np.maximum(curves.sound(before), LEAST), 1.0)
        rotted.append(sound[-1] - kept)
        short = kept - plan
        share = np.clip(sound[-1] / np.maximum(sound[-1] - short, LEAST), 0.0, 1.0)
        np.copyto(out, np.minimum(7.0 * (week + share), CAP_DAYS), where=(out >= CAP_DAYS) & (short < 0.5))
        sound.append(np.maximum(short, 0.0))
    return Ahead(np.array(sound), np.array(rotted), out)
