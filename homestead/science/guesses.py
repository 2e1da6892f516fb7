"""The twelve things nobody can see in a lot, how far they vary, and from where to where they are believed.

A *guess* is one row of twelve numbers on unbounded scales (logarithm or logit). All spreads are ours: wide,
and replaced by what the household's own lots say.

Source: ours.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.special import expit

Floats = npt.NDArray[np.float64]

NAMES = (
    "haz", "shape", "weak", "q10", "spread", "pick", "flag", "forget", "use", "note", "see", "sample",
)  # fmt: skip
LEVELS = ("house", "crop", "variety", "space", "season", "lot")
HAZ, SHAPE, WEAK, Q10, SPREAD, PICK, FLAG, FORGET, USE, NOTE, SEE, SAMPLE = range(12)

#: name: mean, then the spread between houses, crops, varieties, spaces, seasons and lots
_PRIOR = {
    "haz": (0.0, 0.45, 0.35, 0.35, 0.30, 0.25, 0.35),
    "shape": (math.log(2.5), 0.05, 0.15, 0.05, 0.05, 0.05, 0.28),
    "weak": (-3.2, 0.25, 0.40, 0.20, 0.10, 0.20, 1.1),
    "q10": (math.log(2.5), 0.02, 0.05, 0.02, 0.0, 0.0, 0.14),
    "spread": (math.log(0.008), 0.60, 0.50, 0.10, 0.20, 0.10, 0.60),
    "pick": (-0.7, 1.8, 0.30, 0.0, 0.0, 0.20, 0.50),
    "flag": (-0.5, 1.8, 0.0, 0.0, 0.0, 0.20, 0.40),
    "forget": (-2.7, 1.3, 0.10, 0.0, 0.10, 0.20, 0.30),
    "use": (0.0, 0.10, 0.10, 0.0, 0.0, 0.05, 0.20),
    "note": (-0.3, 1.2, 0.10, 0.0, 0.0, 0.20, 0.30),
    "see": (2.6, 0.60, 0.20, 0.0, 0.0, 0.10, 0.20),
    "sample": (2.2, 0.90, 0.20, 0.0, 0.10, 0.10, 0.30),
}
MEAN: Floats = np.array([_PRIOR[name][0] for name in NAMES])
SPREADS: Floats = np.array([_PRIOR[name][1:] for name in NAMES])


def prior(q10: float) -> tuple[Floats, Floats]:
    """Mean and variance, (12,) each, of a lot in a household of which nothing is known yet.

    q10: the handbook's for this lot [-]. Source: the table above (ours); variances of the levels add up.
    """
    mean = MEAN.copy()
    mean[Q10] = math.log(q10)
    return mean, (SPREADS**2).sum(axis=1)


@dataclass(frozen=True)
class Traits:
    """Guesses in plain terms, arrays (guesses,): what each of the twelve means for a piece, a day or a
    person.
    """

    haz: Floats
    shape: Floats
    weak: Floats
    ln_q10: Floats
    spread: Floats
    pick: Floats
    flag: Floats
    forget: Floats
    use: Floats
    note: Floats
    see: Floats
    sample: Floats

    def chosen(self, index: npt.NDArray[np.intp]) -> Traits:
        """The guesses of these numbers, in this order."""
        return Traits(*(getattr(self, name)[index] for name in self.__dataclass_fields__))


def traits(guesses: Floats) -> Traits:
    """Guesses (guesses, 12) on their unbounded scales, brought to shares and factors and kept within
    belief.
    """
    column = guesses.T
    share = expit(column)
    return Traits(
        haz=np.exp(np.clip(column[HAZ], -5.0, 5.0)),
        shape=np.exp(np.clip(column[SHAPE], -0.4, 2.2)),
        weak=share[WEAK],
        ln_q10=np.clip(column[Q10], 0.2, 1.6),
        spread=np.exp(np.clip(column[SPREAD], -9.0, -1.5)),
        pick=share[PICK],
        flag=share[FLAG],
        forget=share[FORGET],
        use=np.exp(np.clip(column[USE], -1.5, 1.5)),
        note=share[NOTE],
        see=share[SEE],
        sample=share[SAMPLE],
    )
