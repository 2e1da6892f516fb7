"""What a lot's records say of its pieces today: the cloud of guesses after its whole history."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from homestead.science.chance import Chances
from homestead.science.cloud import Cloud, fit_cloud
from homestead.science.guesses import Floats, Traits, prior, traits
from homestead.science.lots import Lot, checked
from homestead.science.ranges import Impossible
from homestead.science.walk import Walked, said_of_use, stretches, walk


@dataclass(frozen=True)
class Belief:
    """Mean and variance (12,) of a lot's twelve traits before its own records speak."""

    mean: Floats
    variance: Floats


def first_belief(lot: Lot) -> Belief:
    """Of a household of which nothing is known yet: the handbook's life, as wide as handbooks are."""
    return Belief(*prior(lot.handbook.q10))


@dataclass(frozen=True)
class Fitted:
    """A lot, the day it was fitted for, and its cloud with every guess's end state."""

    lot: Lot
    as_of: dt.date
    cloud: Cloud[Walked]

    def traits(self) -> Traits:
        """The guesses in plain terms, (guesses,)."""
        return traits(self.cloud.guesses)


def fit_lot(
    lot: Lot, temps_c: Sequence[float] | Floats, as_of: dt.date, belief: Belief, chance: Chances
) -> Fitted:
    """Fit a lot on its records before `as_of`.

    temps_c: the room's temperature on each day from put-away to at least `as_of` [°C].
    Raises Impossible or OutsideRange, naming the fact that cannot be.
    """
    if as_of < lot.put_away:
        raise Impossible(f"Asked for {as_of}, before the lot was put away on {lot.put_away}.")
    known = checked(lot).before(as_of)
    path = stretches(known, temps_c, as_of)

    def weigh(guesses: Floats) -> tuple[Floats, Walked]:
        plain = traits(guesses)
        walked = walk(known, path, plain)
        return walked.said + said_of_use(known, plain, walked.day), walked

    return Fitted(known, as_of, fit_cloud(weigh, belief.mean, belief.variance, chance.normals))
