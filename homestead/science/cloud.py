"""Weighted guesses: importance sampling in three rounds, each aimed by the one before.

Source: adaptive importance sampling with a mixture proposal (Owen and Zhou 2000, memory); weights
tempered where
few guesses would carry all (ours).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

import numpy as np

from homestead.science.guesses import Floats

Found = TypeVar("Found")

FROM_PRIOR = 0.15
LEAST_EFFECTIVE, LEAST_EFFECTIVE_AT_LAST = 40.0, 30.0
_HALF_LN_2PI = 0.5 * math.log(2 * math.pi)


@dataclass(frozen=True)
class Cloud(Generic[Found]):
    """Guesses (n, d) with weights (n,) that sum to 1, and what each found on its way."""

    guesses: Floats
    weights: Floats
    found: Found

    def mean(self) -> Floats:
        """Weighted mean of each column, (d,)."""
        return np.asarray(self.weights @ self.guesses)

    def variance(self) -> Floats:
        """Weighted variance of each column, (d,)."""
        return np.asarray(self.weights @ (self.guesses - self.mean()) ** 2)


@dataclass(frozen=True)
class _Aim:
    mean: Floats
    factor: Floats

    def ln_density(self, points: Floats) -> Floats:
        z = np.linalg.solve(self.factor, (points - self.mean).T)
        return np.asarray(
            -0.5 * (z * z).sum(axis=0) - np.log(np.diag(self.factor)).sum() - len(z) * _HALF_LN_2PI
        )


def effective_number(weights: Floats) -> float:
    """How many evenly weighted guesses these are worth. [-]  Source: Kish 1965 (memory): (Σw)²/Σw²."""
    return float(weights.sum() ** 2 / max((weights * weights).sum(), 1e-300))


def even_weights(ln_weights: Floats, least: float) -> Floats:
    """Weights (n,) summing to 1 from their logarithms, tempered by the largest power that leaves `least`
    effective.
    """
    ln_weights = np.where(np.isfinite(ln_weights), ln_weights, -1e300)
    ln_weights = ln_weights - ln_weights.max()
    weights = np.exp(ln_weights)
    if effective_number(weights) < least:
        weights = np.exp(_power(ln_weights, least) * ln_weights)
    return np.asarray(weights / weights.sum())


def _power(ln_weights: Floats, least: float) -> float:
    low, high = 0.0, 1.0
    for _ in range(14):
        middle = (low + high) / 2
        enough = effective_number(np.exp(middle * ln_weights)) >= least
        low, high = (middle, high) if enough else (low, middle)
    return low


def fit_cloud(
    weigh: Callable[[Floats], tuple[Floats, Found]], mean: Floats, variance: Floats, normals: Floats
) -> Cloud[Found]:
    """Guesses after seeing the evidence.

    weigh: gives log-likelihoods (n,) of guesses (n, d), and what else it found; mean, variance: of the
    prior, (d,);
    normals: standard normals (rounds, n, d).
    """
    prior = _Aim(mean, np.diag(np.sqrt(variance)))
    cloud = _first(weigh, prior, normals[0])
    for number in range(1, len(normals)):
        least = LEAST_EFFECTIVE_AT_LAST if number == len(normals) - 1 else LEAST_EFFECTIVE
        cloud = _again(weigh, prior, _aim_at(cloud, variance), normals[number], least)
    return cloud


def _first(weigh: Callable[[Floats], tuple[Floats, Found]], prior: _Aim, normals: Floats) -> Cloud[Found]:
    points = prior.mean + normals * np.diag(prior.factor)
    said, found = weigh(points)
    return Cloud(points, even_weights(said, LEAST_EFFECTIVE), found)


def _aim_at(cloud: Cloud[Found], prior_variance: Floats) -> _Aim:
    off = cloud.guesses - cloud.mean()
    spread = (off * cloud.weights[:, None]).T @ off
    wide = 0.9 * spread + 0.1 * np.diag(np.diag(spread)) + 0.02 * np.diag(prior_variance)
    return _Aim(cloud.mean(), np.asarray(np.linalg.cholesky(1.2 * wide), dtype=np.float64))


def _again(
    weigh: Callable[[Floats], tuple[Floats, Found]], prior: _Aim, aim: _Aim, normals: Floats, least: float
) -> Cloud[Found]:
    cut = round(len(normals) * (1 - FROM_PRIOR))
    points = np.vstack(
        [aim.mean + normals[:cut] @ aim.factor.T, prior.mean + normals[cut:] * np.diag(prior.factor)]
    )
    said, found = weigh(points)
    ln_prior = prior.ln_density(points)
    proposed = np.logaddexp(
        math.log(1 - FROM_PRIOR) + aim.ln_density(points), math.log(FROM_PRIOR) + ln_prior
    )
    return Cloud(points, even_weights(said + ln_prior - proposed, least), found)
