"""What a record says of a guess: looks, takes and how much was written at all.

Source: ours; the laws it is built of are named at each.
"""

from __future__ import annotations

import numpy as np

from homestead.science.guesses import Floats, Traits
from homestead.science.lots import Look
from homestead.science.pieces import LEAST, Eaten, Pieces

CLUSTER_LOOK, CLUSTER_TAKE = 8.0, 4.0
"""How clumped rot is found, at a look and at a take: shape of the negative binomial. Ours. [-]"""


def ln_negative_binomial(count: float, mean: Floats, cluster: float) -> Floats:
    """Logarithm of the chance of a count, without what does not depend on the mean. [-]

    count: seen [pieces]; mean: expected [pieces]; cluster: shape [-], large for a Poisson count.
    Source: negative binomial distribution with mean and shape.
    """
    mean = np.maximum(mean, LEAST)
    return np.asarray(count * np.log(mean / (mean + cluster)) - cluster * np.log1p(mean / cluster))


def ln_student(off: Floats, variance: Floats | float) -> Floats:
    """Logarithm of a Student density with 4 degrees of freedom, without its scale and constant. [-]

    off: distance from what was expected; variance: square of its scale. Source: Student's t.
    """
    return np.asarray(-2.5 * np.log1p(off * off / (4.0 * variance)))


def takes_say(eaten: Eaten, traits: Traits, written_share: Floats, tossed: float, turning: float) -> Floats:
    """Log-likelihood of what was written beside the takes of a stretch. [-]"""
    return ln_negative_binomial(tossed, traits.note * eaten.tossed * written_share, CLUSTER_TAKE) + (
        ln_negative_binomial(turning, traits.flag * eaten.chosen * written_share, CLUSTER_TAKE)
    )


def use_says(
    traits: Traits, written: float, takes: int, plan_per_week: float, weeks: float, draw: float
) -> Floats:
    """Log-likelihood of all that was written against the plan. [-]  draw: pieces of a usual take."""
    if plan_per_week <= 0 or weeks <= 0:
        return np.zeros_like(traits.use)
    planned = traits.use * (1.0 - traits.forget) * plan_per_week * weeks
    off = np.log((written + 0.3 * draw) / (planned + 0.3 * draw))
    return ln_student(off, 0.0025 + 0.30 / weeks + 0.25 / max(takes, 1))


def look_says(pieces: Pieces, look: Look, traits: Traits) -> Floats:
    """Log-likelihood of a look, after which `pieces` are as the look left them. [-]"""
    counted = look.full and look.counted
    said = _count_says(pieces, look) if counted else np.zeros_like(pieces.rotten)
    present = np.full_like(pieces.rotten, look.looked) if counted else pieces.present
    seen = _seen(pieces, look, traits, present)
    pieces.most = pieces.most * 0.0 + look.looked - look.culled if counted else pieces.most - look.culled
    return said + _cull(pieces, look.culled, present, seen)


def _seen(pieces: Pieces, look: Look, traits: Traits, present: Floats) -> Floats:
    """Share of the rotten pieces that this look finds."""
    if not look.sought:
        return np.zeros_like(pieces.rotten)
    return traits.see if look.full else _sample_share(look, present) * traits.see * traits.sample


def _count_says(pieces: Pieces, look: Look) -> Floats:
    spread = pieces.variance + 1.0
    said = ln_student(look.looked - pieces.present, spread) - 0.5 * np.log(spread)
    pieces.variance = np.zeros_like(spread)
    return np.asarray(said)


def _sample_share(look: Look, present: Floats) -> Floats:
    return np.minimum(look.looked / np.maximum(np.maximum(present, look.looked), LEAST), 1.0)


def _cull(pieces: Pieces, culled: float, present: Floats, seen: Floats) -> Floats:
    rotten = np.minimum(pieces.rotten, 0.95 * present)
    found = seen * rotten
    left = np.maximum(present - culled, 0.0)
    still = rotten * (1.0 - seen) * (CLUSTER_LOOK + culled) / (CLUSTER_LOOK + found)
    pieces.rotten = np.minimum(still, 0.9 * left)
    _make_sound(pieces, left - pieces.rotten)
    return ln_negative_binomial(culled, found, CLUSTER_LOOK)


def _make_sound(pieces: Pieces, sound: Floats) -> None:
    before = pieces.sound
    dry = before < 0.5
    pieces.scale_sound(np.where(dry, 0.0, sound / np.maximum(before, LEAST)))
    pieces.fresh = np.where(dry, sound, pieces.fresh)
