"""What a household's finished lots say of its next one: a Gaussian model of houses, crops, spaces and
winters.

Two lots have in common what their labels have in common. Source: best linear unbiased prediction
(Henderson 1975, memory); Gaussian leave-one-out (Rasmussen and Williams 2006, eq. 5.12, memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from homestead.science.cloud import Cloud
from homestead.science.guesses import HAZ, SPREADS, Floats, prior
from homestead.science.lots import Lot
from homestead.science.survival import Belief
from homestead.science.walk import Walked

NOBODYS_SPACE, NOBODYS_SEASON = "\u0000", -1
"""A space and a winter that no lot ever shared."""
LEAST_SHARE = 0.05
"""A prior's variance stays above this share of a stranger's; a lot that says less than this is dropped.
Ours.
"""


@dataclass(frozen=True)
class Labels:
    """What a lot can have in common with another."""

    crop: str
    variety: str
    space: str
    season: int

    @classmethod
    def of(cls, lot: Lot) -> Labels:
        """Labels of a lot; varieties and spaces are compared without case."""
        return cls(
            lot.crop, f"{lot.crop}/{lot.variety.strip().lower()}", lot.space.strip().lower(), lot.season
        )


@dataclass(frozen=True)
class Saying:
    """What one finished lot itself says, each (12,): `off` from the handbook, and the variance of that.

    An infinite variance says nothing.
    """

    labels: Labels
    off: Floats
    variance: Floats


def saying(lot: Lot, cloud: Cloud[Walked], belief: Belief) -> Saying:
    """What the lot's records added to the belief it was fitted under.

    Source: quotient of two normal densities; what says less than 5 % of the prior is dropped (ours).
    """
    stranger, wide = prior(lot.handbook.q10)
    own, off = own_word(cloud.mean(), cloud.variance(), belief.mean, belief.variance)
    reach = 4.0 * np.sqrt(wide)
    return Saying(Labels.of(lot), np.clip(off - stranger, -reach, reach), own)


def own_word(
    mean: Floats, variance: Floats, prior_mean: Floats, prior_variance: Floats
) -> tuple[Floats, Floats]:
    """Variance and value (n,) that, joined with the prior, give this posterior. Infinite where nothing
    was added.
    """
    precision = 1.0 / np.maximum(variance, 1e-12) - 1.0 / prior_variance
    heard = precision >= LEAST_SHARE / prior_variance
    own = np.where(heard, 1.0 / np.where(heard, precision, 1.0), np.inf)
    value = np.where(heard, own, 0.0) * (mean / np.maximum(variance, 1e-12) - prior_mean / prior_variance)
    return own, np.where(heard, value, prior_mean)


def covariance(rows: Sequence[Labels], columns: Sequence[Labels]) -> Floats:
    """Covariance (12, rows, columns) of two lots' traits from what they have in common, their own part
    left out.
    """
    alike = np.stack(
        [np.ones((len(rows), len(columns)))]
        + [_alike(rows, columns, name) for name in ("crop", "variety", "space", "season")]
    )
    return np.asarray(np.tensordot(SPREADS[:, :5] ** 2, alike, axes=1))


def _alike(rows: Sequence[Labels], columns: Sequence[Labels], name: str) -> Floats:
    left = np.array([getattr(row, name) for row in rows])
    right = np.array([getattr(column, name) for column in columns])
    return np.asarray(left[:, None] == right[None, :], dtype=np.float64)


def belief_of(lot: Lot, told: Sequence[Saying]) -> Belief:
    """What is believed of a new lot after all that was told. Source: conditional of a joint normal."""
    stranger, wide = prior(lot.handbook.q10)
    off, variance = beliefs([Labels.of(lot)], told)
    return Belief(stranger + off[0], np.maximum(variance[0], LEAST_SHARE * wide))


def beliefs(new: Sequence[Labels], told: Sequence[Saying]) -> tuple[Floats, Floats]:
    """Mean off the handbook and variance, (new, 12) each, of new lots."""
    wide = (SPREADS**2).sum(axis=1)
    mean, variance = np.zeros((len(new), 12)), np.tile(wide, (len(new), 1))
    if not told:
        return mean, variance
    among = covariance([s.labels for s in told], [s.labels for s in told])
    across = covariance([s.labels for s in told], new)
    for trait in range(12):
        heard = np.array([np.isfinite(s.variance[trait]) for s in told])
        if heard.any():
            mean[:, trait], less = _conditional(trait, heard, among[trait], across[trait], told)
            variance[:, trait] -= less
    return mean, variance


def _conditional(
    trait: int, heard: npt.NDArray[np.bool_], among: Floats, across: Floats, told: Sequence[Saying]
) -> tuple[Floats, Floats]:
    said = [saying for saying, kept in zip(told, heard, strict=True) if kept]
    noise = np.array([s.variance[trait] + SPREADS[trait, 5] ** 2 for s in said])
    factor = np.linalg.cholesky(among[np.ix_(heard, heard)] + np.diag(noise))
    seen = np.linalg.solve(factor, across[heard])
    off = np.linalg.solve(factor, np.array([s.off[trait] for s in said]))
    return seen.T @ off, (seen * seen).sum(axis=0)


def variety_belief(crop: str, variety: str, q10: float, told: Sequence[Saying]) -> Belief:
    """What is believed of all lots of a variety alike: the house's, the crop's and the variety's own part.

    What a space, a winter or one lot adds is left out. A variety of few lots stays near its crop, one of none
    is like its crop. Source: conditional of a joint normal (partial pooling).
    """
    stranger, wide = prior(q10)
    nowhere = Labels(crop, f"{crop}/{variety.strip().lower()}", NOBODYS_SPACE, NOBODYS_SEASON)
    off, variance = beliefs([nowhere], told)
    common = variance[0] - (SPREADS[:, 3:] ** 2).sum(axis=1)
    return Belief(stranger + off[0], np.maximum(common, 1e-6 * wide))


def variety_contrast(crop: str, one: str, other: str, told: Sequence[Saying]) -> tuple[float, float]:
    """How much faster variety `other` goes than `one`: mean and standard deviation on the log scale. [-]

    All that lots share beside their variety is the household, the crop, the space and the season's. Source:
    conditional of a joint normal (derived): the contrast's covariance with a lot is ± the variety's variance.
    """
    own = SPREADS[HAZ, 2] ** 2
    names = [Labels(crop, f"{crop}/{v.strip().lower()}", "", 0).variety for v in (one, other)]
    heard = np.array([np.isfinite(s.variance[HAZ]) for s in told], dtype=bool)
    if not heard.any():
        return 0.0, float(np.sqrt(2 * own))
    said = [s for s, kept in zip(told, heard, strict=True) if kept]
    labels = [s.labels for s in said]
    signs = np.array([(n.variety == names[1]) * 1.0 - (n.variety == names[0]) * 1.0 for n in labels])
    noise = np.array([s.variance[HAZ] + SPREADS[HAZ, 5] ** 2 for s in said])
    weights = np.linalg.solve(covariance(labels, labels)[HAZ] + np.diag(noise), own * signs)
    mean = float(weights @ np.array([s.off[HAZ] for s in said]))
    return mean, float(np.sqrt(max(2 * own - own * float(weights @ signs), 1e-12)))


def beliefs_left_out(told: Sequence[Saying], q10s: Sequence[float]) -> list[Belief]:
    """For each lot that spoke, what all the others say of it.

    Source: leave-one-out of a joint normal, mean y - (K⁻¹y)/diag K⁻¹ and variance 1/diag K⁻¹ less its
    own noise.
    """
    labels = [s.labels for s in told]
    wide = (SPREADS**2).sum(axis=1)
    among = covariance(labels, labels)
    mean, variance = np.zeros((len(told), 12)), np.tile(wide, (len(told), 1))
    for trait in range(12):
        heard = np.array([np.isfinite(s.variance[trait]) for s in told], dtype=bool)
        if heard.any():
            mean[heard, trait], variance[heard, trait] = _left_out(trait, heard, among[trait], told)
            if not heard.all():
                deaf = ~heard
                mean[deaf, trait], less = _conditional(
                    trait, heard, among[trait], among[trait][:, deaf], told
                )
                variance[deaf, trait] -= less
    floor = np.maximum(variance, LEAST_SHARE * wide)
    return [Belief(prior(q10)[0] + m, v) for q10, m, v in zip(q10s, mean, floor, strict=True)]


def _left_out(
    trait: int, heard: npt.NDArray[np.bool_], among: Floats, told: Sequence[Saying]
) -> tuple[Floats, Floats]:
    said = [saying for saying, kept in zip(told, heard, strict=True) if kept]
    own = np.array([s.variance[trait] for s in said])
    off = np.array([s.off[trait] for s in said])
    inverse = np.linalg.inv(among[np.ix_(heard, heard)] + np.diag(own + SPREADS[trait, 5] ** 2))
    return off - (inverse @ off) / np.diag(inverse), 1.0 / np.diag(inverse) - own
