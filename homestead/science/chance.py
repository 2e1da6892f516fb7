"""All random numbers of a forecast, made once from one seed, so that a forecast changes only when facts
do.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt
from scipy.special import ndtri
from scipy.stats import qmc

from homestead.science.guesses import Floats

GUESSES = 300
ROUNDS = 3
WEEKS = 58
"""Weeks a forecast runs on: 400 days and the week that ends after them."""


@dataclass(frozen=True)
class Chances:
    """Tables of random numbers. `normals`: (rounds, guesses, 12), evenly spread; the others serve the
    forecast.
    """

    seed: int
    normals: Floats
    order: npt.NDArray[np.intp]
    count: Floats
    haz: Floats
    bend: Floats
    clumps: Floats
    appetite: Floats
    aged: Floats
    weak: Floats


@lru_cache(maxsize=4)
def chances(seed: int) -> Chances:
    """The tables of a seed; the same seed gives the same tables. Source: Sobol sequence (scipy.stats.qmc)."""
    rng = np.random.default_rng(seed)
    normal = rng.standard_normal
    return Chances(
        seed=seed,
        normals=np.stack([_even_normals(seed + number) for number in range(ROUNDS)]),
        order=rng.permutation(GUESSES),
        count=normal(GUESSES),
        haz=normal(GUESSES),
        bend=0.4 * normal(GUESSES),
        clumps=rng.gamma(8.0, 1 / 8, (2, GUESSES)),
        appetite=rng.gamma(5.0, 1 / 5, (WEEKS, GUESSES)),
        aged=normal((WEEKS, GUESSES)),
        weak=normal((WEEKS, GUESSES)),
    )


def _even_normals(seed: int) -> Floats:
    points = qmc.Sobol(d=12, scramble=True, rng=np.random.default_rng(seed)).random(512)[:GUESSES]
    return np.asarray(ndtri(np.clip(points, 1e-9, 1 - 1e-9)), dtype=np.float64)
