"""What a lot's records say of its pieces today: the cloud of guesses after its whole history.

Source: Bayes' rule, by the sampling in `cloud`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from homestead.science.chance import Chances
from homestead.science.cloud import LEAST_EFFECTIVE_AT_LAST, Cloud, even_weights, fit_cloud
from homestead.science.guesses import Floats, Traits, prior, traits
from homestead.science.lots import Lot, checked
from homestead.science.ranges import Impossible
from homestead.science.walk import Walked, carry_on, said_of_use, stretches, walk


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


def hear_more(fitted: Fitted, lot: Lot, temps_c: Sequence[float] | Floats, as_of: dt.date) -> Fitted:
    """The same cloud some days on, weighed by the news; a night's work fits it afresh.

    lot: with the old and the new records; temps_c: on each day from put-away [°C].
    Raises Impossible when a record older than the fit was added or taken away: then it must be fitted afresh.
    """
    known = checked(lot).before(as_of)
    before = known.before(fitted.as_of)
    if (before.looks, before.takes) != (fitted.lot.looks, fitted.lot.takes) or as_of < fitted.as_of:
        raise Impossible(f"What was known on {fitted.as_of} is not the same any more.")
    old, plain = fitted.cloud.found, fitted.traits()
    path = stretches(known, temps_c, as_of, since=old.day)
    walked = carry_on(replace(old, pieces=old.pieces.copy()), known, path, plain)
    news = walked.said - old.said
    news = news + said_of_use(known, plain, walked.day) - said_of_use(fitted.lot, plain, old.day)
    weights = even_weights(np.log(fitted.cloud.weights + 1e-300) + news, LEAST_EFFECTIVE_AT_LAST)
    return Fitted(known, as_of, replace(fitted.cloud, weights=weights, found=walked))
