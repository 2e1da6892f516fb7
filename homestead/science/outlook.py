"""From today's guesses to bands: pieces sound in the weeks to come, what is lost, and when it runs out.

Source: simulation by weeks, ours; laws as in `pieces`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from homestead.science.chance import WEEKS, Chances
from homestead.science.guesses import Floats, Traits
from homestead.science.pieces import (
    LEAST,
    SIGNS_DAYS,
    Pieces,
    Turned,
    cumulative_hazard,
    eat,
    move_on,
    new_signs,
    weak_hazard,
)
from homestead.science.survival import Fitted
from homestead.science.walk import WARMEST_C

CAP_DAYS = 400.0


@dataclass(frozen=True)
class Band:
    """Mean and P10, P50, P90 of a quantity."""

    mean: float
    p10: float
    p50: float
    p90: float


def band(values: Floats) -> Band:
    """Mean and quantiles of a sample (n,). Source: sample quantiles, linear between neighbours."""
    p10, p50, p90 = np.quantile(values, (0.1, 0.5, 0.9))
    return Band(float(values.mean()), float(p10), float(p50), float(p90))


def chance_of(happened: npt.NDArray[np.bool_]) -> float:
    """Chance from a share of guesses, never quite 0 or 1. [-]  Source: (count + 1/2) / (n + 1)."""
    return (float(happened.sum()) + 0.5) / (len(happened) + 1)


@dataclass(frozen=True)
class Ahead:
    """A lot's weeks ahead, for each guess. Pieces; week 0 is today, before anything is eaten.

    `sound`: (weeks + 1, guesses); `rotted`: newly rotten in each week, (weeks, guesses);
    `run_out_days`: first unmet need, at most 400, (guesses,).
    """

    sound: Floats
    rotted: Floats
    run_out_days: Floats

    def sound_in(self, days: int) -> Band:
        """Pieces sound after whole weeks. [pieces]"""
        return band(np.rint(self.sound[days // 7]))

    def lost_in(self, days: int) -> Band:
        """Pieces that turn rotten in store within whole weeks. [pieces]"""
        return band(np.rint(self.rotted[: days // 7].sum(axis=0)))

    def run_out(self) -> Band:
        """Days until a need is not met. [d]"""
        return band(self.run_out_days)

    def chance_to_last(self, days: float) -> float:
        """Chance that no need goes unmet before so many days. [-]"""
        return chance_of(self.run_out_days >= min(days, CAP_DAYS))


@dataclass(slots=True)
class Sample:
    """Evenly weighted whole-piece states drawn from a cloud, and what the weeks ahead need of them."""

    pieces: Pieces
    traits: Traits
    age_days: Floats
    bend: Floats
    day: int
    n: float
    life_days: float
    finds_per_day: Floats
    plan_per_week: float

    def hazards_ahead(self, tens_c: Floats) -> Floats:
        """Hazard of ageing in each week ahead, (weeks, guesses). tens_c: as in `run_on`."""
        rates = np.exp(tens_c[:, None] * self.traits.ln_q10)
        ages = self.age_days + 7.0 * np.cumsum(rates, axis=0)
        ahead, ease = ages + SIGNS_DAYS * rates, 0.1 * self.life_days
        bent = ((ages - 7.0 * rates + ease) / (self.age_days + ease)) ** self.bend
        ended = cumulative_hazard(ahead, self.life_days, self.traits.haz, self.traits.shape)
        began = cumulative_hazard(ahead - 7.0 * rates, self.life_days, self.traits.haz, self.traits.shape)
        return np.asarray(bent * (ended - began))

    def chosen(self, index: npt.NDArray[np.intp]) -> Sample:
        """The guesses of these numbers, in this order."""
        return replace(
            self, pieces=self.pieces.chosen(index), traits=self.traits.chosen(index),
            age_days=self.age_days[index], bend=self.bend[index], finds_per_day=self.finds_per_day[index],
        )  # fmt: skip


def even_index(weights: Floats, n: int) -> npt.NDArray[np.intp]:
    """Systematic resampling: `n` numbers of guesses, each as often as its weight says. Source: Kitagawa
    1996 (memory).
    """
    places = (np.arange(n) + 0.5) / n
    return np.minimum(np.searchsorted(np.cumsum(weights), places), len(weights) - 1)


def draw_sample(fitted: Fitted, chance: Chances) -> Sample:
    """Evenly weighted guesses of a fitted lot, their counts made whole and spread by what is not known."""
    index = even_index(fitted.cloud.weights, len(chance.order))[chance.order]
    walked = fitted.cloud.found
    pieces, plain = walked.pieces.chosen(index), fitted.traits().chosen(index)
    _make_whole(pieces, chance)
    plain.haz[:] *= np.exp(0.12 * chance.haz)
    return Sample(
        pieces, plain, walked.age_days[index], chance.bend, walked.day, fitted.lot.pieces,
        fitted.lot.handbook.life_days, plain.see / _days_between_looks(fitted), fitted.lot.plan_per_week,
    )  # fmt: skip


def _days_between_looks(fitted: Fitted) -> float:
    looks = [(look.day - fitted.lot.put_away).days for look in fitted.lot.looks]
    return (28.0 + max(looks, default=0)) / (1 + len(looks))


def _make_whole(pieces: Pieces, chance: Chances) -> None:
    present = np.clip(
        pieces.present + np.sqrt(pieces.variance) * chance.count, 0.0, np.maximum(pieces.most, 0.0)
    )
    luck = np.random.default_rng(chance.seed).spawn(3)
    pieces.rotten = np.minimum(luck[0].poisson(pieces.rotten * chance.clumps[0]), present).astype(np.float64)
    sound = present - pieces.rotten
    early = luck[1].poisson(pieces.early * chance.clumps[1]).astype(np.float64)
    late = luck[2].poisson(pieces.late * chance.clumps[1]).astype(np.float64)
    fits = np.minimum(1.0, 0.9 * sound / np.maximum(early + late, LEAST))
    pieces.early, pieces.late = early * fits, late * fits
    rest = sound - pieces.early - pieces.late
    pieces.fresh = np.maximum(rest - pieces.weak, 0.0)
    pieces.weak = rest - pieces.fresh


def look_ahead(fitted: Fitted, temps_c: Sequence[float] | Floats, chance: Chances) -> Ahead:
    """Run a fitted lot on by weeks until all guesses are empty or 400 days have passed.

    temps_c: the room's expected temperature on each day from today [°C], 406 days or the last one held.
    """
    return run_on(draw_sample(fitted, chance), weekly_tens(fitted, temps_c), chance)


def weekly_tens(fitted: Fitted, temps_c: Sequence[float] | Floats) -> Floats:
    """(Week's mean temperature - reference) / 10 of the weeks ahead, held to where the clock holds. [10
    °C]
    """
    book = fitted.lot.handbook
    temps = np.clip(np.asarray(temps_c, dtype=np.float64), book.hold_below_c, WARMEST_C)
    full = np.pad(temps[: 7 * WEEKS], (0, max(0, 7 * WEEKS - len(temps))), mode="edge")
    return np.asarray((full.reshape(WEEKS, 7).mean(axis=1) - book.ref_c) / 10.0)


def run_on(sample: Sample, tens_c: Floats, chance: Chances) -> Ahead:
    """Weeks ahead of a sample. tens_c: (week's mean temperature - reference) / 10, one a week; changes
    `sample`.
    """
    hazards = sample.hazards_ahead(tens_c)
    sound, rotted = [sample.pieces.sound], []
    out = np.full_like(sample.age_days, CAP_DAYS)
    for week, hazard in enumerate(hazards):
        rotted.append(one_week(sample, hazard, week, chance))
        wanted = sample.plan_per_week * sample.traits.use * chance.appetite[week]
        out = run_out(out, sample.pieces.sound, sound[-1], wanted, week)
        if sample.plan_per_week > 0:
            eat(sample.pieces, wanted, sample.traits.pick)
        sample.pieces.rotten = sample.pieces.rotten * np.exp(-7.0 * sample.finds_per_day)
        sound.append(sample.pieces.sound)
        if week >= 8 and not (out >= CAP_DAYS).any():
            break
    return Ahead(np.array(sound), np.array(rotted), out)


def one_week(sample: Sample, hazard: Floats, week: int, chance: Chances) -> Floats:
    """Turning and rotting of one week ahead, with luck; changes `sample`, gives the newly rotten pieces."""
    first = sample.day + 7 * week + SIGNS_DAYS
    weak = weak_hazard(first + 7) - weak_hazard(first)
    expected = new_signs(sample.pieces, sample.traits, hazard, weak, sample.n, 7.0)
    return move_on(sample.pieces, _with_luck(expected, sample.pieces, week, chance), 7.0)


def _with_luck(turned: Turned, pieces: Pieces, week: int, chance: Chances) -> Turned:
    both = turned.aged + turned.caught
    lucky = np.clip(both + np.sqrt(both + 0.1 * both * both) * chance.aged[week], 0.0, pieces.fresh)
    factor = lucky / np.maximum(both, LEAST)
    weak = np.clip(turned.weak + np.sqrt(turned.weak) * chance.weak[week], 0.0, pieces.weak)
    return Turned(turned.aged * factor, turned.caught * factor, weak)


def run_out(
    out: Floats, left: Floats, start: Floats, wanted: Floats, week: int, least: float = 0.5
) -> Floats:
    """Days until a need goes unmet, (guesses,), of those too that end this week with less than `least`.

    out: as known before this week [d]; left: before eating, start: at the week's begin, wanted: [pieces].
    """
    short = left - wanted
    share = np.clip(start / np.maximum(start - short, LEAST), 0.0, 1.0)
    over = (out >= CAP_DAYS) & (short < least)
    return np.asarray(np.where(over, np.minimum(7.0 * (week + share), CAP_DAYS), out))
