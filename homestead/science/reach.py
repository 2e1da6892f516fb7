"""How far a crop reaches when it lies in several lots, and the chance to meet the new harvest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from homestead.science.chance import WEEKS, Chances
from homestead.science.guesses import Floats
from homestead.science.outlook import (
    CAP_DAYS,
    Ahead,
    Sample,
    chance_of,
    draw_sample,
    one_week,
    run_out,
    weekly_tens,
)
from homestead.science.pieces import eat
from homestead.science.ranges import Impossible, within
from homestead.science.survival import Fitted


def crop_ahead(
    lots: Sequence[tuple[Fitted, Floats]],
    plan_per_week: float | Floats,
    piece_kg: Sequence[float],
    chance: Chances,
    kept_back: Sequence[float] = (),
) -> Ahead:
    """Food of a crop in the weeks ahead, all lots together, in kg; each week's need comes from the first lots
    first.

    lots: fitted, with the temperature of each day ahead [°C], in the order they are to be eaten;
    plan_per_week: of the whole crop, one number or one for each week [kg]; piece_kg: of each lot;
    kept_back: pieces of each lot that are no food, for seed. Raises Impossible without a lot.
    Source: ours: guess i of each lot together, sorted alike on use, which is one habit.
    """
    if not lots:
        raise Impossible("No lot of this crop is in store.")
    samples = [_by_use(fitted, number, chance) for number, (fitted, _) in enumerate(lots)]
    hazards = [s.hazards_ahead(weekly_tens(f, temps)) for s, (f, temps) in zip(samples, lots, strict=True)]
    back = kept_back or [0.0] * len(samples)
    plan = np.broadcast_to(plan_per_week, (WEEKS,))
    sound, rotted = [_food_kg(samples, piece_kg, back)], []
    out = np.full_like(sound[0], CAP_DAYS)
    for week in range(WEEKS):
        lost = [one_week(s, h[week], week, chance) for s, h in zip(samples, hazards, strict=True)]
        rotted.append(np.sum([kg * one for kg, one in zip(piece_kg, lost, strict=True)], axis=0))
        need = plan[week] * samples[0].traits.use * chance.appetite[week]
        out = run_out(
            out, _food_kg(samples, piece_kg, back), sound[-1], need, week, least=0.5 * min(piece_kg)
        )
        _eat_in_turn(samples, need, piece_kg, back)
        sound.append(_food_kg(samples, piece_kg, back))
    return Ahead(np.array(sound), np.array(rotted), out)


def _by_use(fitted: Fitted, number: int, chance: Chances) -> Sample:
    """Shuffled anew for each lot, so that lots share no luck but the habit they are sorted on."""
    order = np.random.default_rng([chance.seed, number]).permutation(len(chance.order))
    sample = draw_sample(fitted, replace(chance, order=order))
    return sample.chosen(np.argsort(sample.traits.use, kind="stable"))


def _food_kg(samples: Sequence[Sample], piece_kg: Sequence[float], back: Sequence[float]) -> Floats:
    lots = zip(samples, piece_kg, back, strict=True)
    return np.asarray(np.sum([kg * np.maximum(s.pieces.sound - seed, 0.0) for s, kg, seed in lots], axis=0))


def _eat_in_turn(
    samples: Sequence[Sample], need: Floats, piece_kg: Sequence[float], back: Sequence[float]
) -> None:
    for sample, kg, seed in zip(samples, piece_kg, back, strict=True):
        taken = np.minimum(need / kg, np.maximum(sample.pieces.sound - seed, 0.0))
        if taken.any():
            eat(sample.pieces, taken, sample.traits.pick)
        sample.pieces.rotten = sample.pieces.rotten * np.exp(-7.0 * sample.finds_per_day)
        need = np.maximum(need - taken * kg, 0.0)


def chance_to_meet_harvest(ahead: Ahead, mean_days: float, spread_days: float, chance: Chances) -> float:
    """Chance that the crop lasts until the new harvest, whose day is not sure either. [-]

    mean_days: from today; spread_days: 10 until three own years are known [d]. Raises OutsideRange.
    Source: share of guesses with run-out on or after a normal harvest day.
    """
    within("mean_days", mean_days, -400.0, 800.0)
    within("spread_days", spread_days, 0.0, 100.0)
    harvest = np.minimum(mean_days + spread_days * chance.count, CAP_DAYS)
    return chance_of(ahead.run_out_days >= harvest)
