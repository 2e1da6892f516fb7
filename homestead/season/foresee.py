"""Each lot in store fitted for today and run ahead, with what the household's finished lots say."""

from __future__ import annotations

import datetime as dt
import logging
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from homestead.science.chance import chances
from homestead.science.guesses import Floats
from homestead.science.household import Saying, belief_of
from homestead.science.outlook import Ahead, draw_sample, run_on, weekly_tens
from homestead.science.past import lot_temps_c
from homestead.science.ranges import Impossible, OutsideRange
from homestead.science.rooms import daily_temps_c, room_wave
from homestead.science.survival import Belief, Fitted, fit_lot
from homestead.season.facts import Kept

log = logging.getLogger("homestead.season")

SEED = 20_230_915
AHEAD_DAYS = 406
#: a lot is followed untouched for so long: past the plan to the next harvest
WAITING_WEEKS = 42


@dataclass(frozen=True)
class Foreseen:
    """A lot fitted for today, what was believed of it before, its room's days from put-away to today and from
    today on [°C], and its weeks ahead untouched."""

    kept: Kept
    belief: Belief
    fitted: Fitted
    lived_c: Floats
    temps_c: Floats
    waiting: Ahead

    @property
    def food_kg(self) -> float:
        """Sound on average, less what is for seed. [kg]"""
        sound = float(self.waiting.sound[0].mean())
        return max(sound - self.kept.seed_pieces, 0.0) * self.kept.piece_kg

    def kept_share(self, weeks: int) -> float:
        """Share of what is sound now that is so after some weeks, untouched, on average. [-]"""
        now, then = self.waiting.sound[0].mean(), self.waiting.sound[weeks].mean()
        return float(min(then / now, 1.0)) if now > 0 else 1.0


def foresee(kept: Kept, said: Sequence[Saying], today: dt.date, south: bool = False) -> Foreseen:
    """Fit one lot. Raises OutsideRange or Impossible, naming the fact."""
    chance = chances(SEED)
    known = [r for r in kept.readings if r.day < today]
    season = [r for r in known if r.day >= kept.facts.put_away]
    lived = lot_temps_c(kept.facts, today, season, known, south)
    belief = belief_of(kept.facts, said)
    fitted = fit_lot(kept.facts, lived, today, belief, chance)
    ahead = daily_temps_c(today, AHEAD_DAYS, room_wave(known, south), season)
    untouched = draw_sample(without_use(fitted), chance)
    waiting = run_on(untouched, weekly_tens(fitted, ahead)[:WAITING_WEEKS], chance)
    return Foreseen(kept, belief, fitted, lived, ahead, waiting)


def without_use(fitted: Fitted) -> Fitted:
    """The same cloud of a lot nobody takes from."""
    return replace(fitted, lot=replace(fitted.lot, plan_per_week=0.0))


def foreseen_lots(
    lots: Iterable[Kept], said: Sequence[Saying], today: dt.date, south: bool = False
) -> tuple[list[Foreseen], list[dict[str, str]]]:
    """Those of the lots that are in store, and those nothing can be said of, with why: one bad lot never
    stops the night."""
    found, silent = [], []
    for one in lots:
        try:
            found.append(foresee(one, said, today, south))
        except (OutsideRange, Impossible) as why:
            silent.append({"lot": str(one.lot), "why": str(why)})
        except (ValueError, ArithmeticError):  # no fact anybody thought of: the others are told all the same
            log.exception("lot %s could not be worked out", one.lot)
            silent.append({"lot": str(one.lot), "why": "no_sense"})
    return found, silent


def in_store(kept: Iterable[Kept], today: dt.date) -> list[Kept]:
    """Lots put away by today and not finished."""
    return [one for one in kept if one.closed is None and one.facts.put_away <= today]
