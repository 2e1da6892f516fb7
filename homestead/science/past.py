"""Finished lots: each fitted twice, with what the others said of it, so that the household's past can
speak.

Source: empirical Bayes in two rounds, ours; the model is that of `household`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from homestead.science.chance import Chances
from homestead.science.guesses import Floats
from homestead.science.household import Saying, belief_of, beliefs_left_out, saying
from homestead.science.lots import Lot
from homestead.science.rooms import Reading, daily_temps_c, room_wave
from homestead.science.survival import Belief, fit_lot

LEAST_DAYS = 7
LAST_WINTERS, MOST_LOTS = 6, 600


@dataclass(frozen=True)
class Finished:
    """A lot that is over. `readings`: of its space, while it lay there; `wave_from`: all known of that
    space.
    """

    name: str
    lot: Lot
    closed: dt.date
    readings: tuple[Reading, ...] = ()
    wave_from: tuple[Reading, ...] = ()

    def fitted_to(self) -> dt.date | None:
        """The morning after its last record; None for a lot under a week old or without records, which
        says nothing.
        """
        last = self.lot.before(self.closed).last_record()
        if last is None or (last - self.lot.put_away).days + 1 < LEAST_DAYS:
            return None
        return min(self.closed, last + dt.timedelta(days=1))


def lot_temps_c(
    lot: Lot, until: dt.date, readings: Sequence[Reading], wave_from: Sequence[Reading], south: bool = False
) -> Floats:
    """Temperature of a lot's room on each day from put-away to the eve of `until`. [°C]"""
    days = max((until - lot.put_away).days, 1)
    return daily_temps_c(lot.put_away, days, room_wave([*wave_from, *readings], south), readings)


def learn(lots: Sequence[Finished], told: Mapping[str, Saying], chance: Chances) -> dict[str, Saying]:
    """What all finished lots say, each fitted under the others' last word, twice.

    told: last words by name; a lot without one is first fitted under what the rest said.
    """
    recent = _recent(lots)
    known = {one.name: told[one.name] for one in recent if one.name in told}
    for _ in range(2):
        known = _once(recent, known, chance)
    return known


def _recent(lots: Sequence[Finished]) -> list[Finished]:
    speaking = [one for one in lots if one.fitted_to() is not None]
    last = max((one.lot.season for one in speaking), default=0)
    return [one for one in speaking if one.lot.season > last - LAST_WINTERS][-MOST_LOTS:]


def _once(lots: Sequence[Finished], told: Mapping[str, Saying], chance: Chances) -> dict[str, Saying]:
    spoken = [one for one in lots if one.name in told]
    said = [told[one.name] for one in spoken]
    left_out = beliefs_left_out(said, [one.lot.handbook.q10 for one in spoken]) if said else []
    by_name = {one.name: belief for one, belief in zip(spoken, left_out, strict=True)}
    return {
        one.name: _word_of(one, by_name.get(one.name) or belief_of(one.lot, said), chance) for one in lots
    }


def _word_of(one: Finished, belief: Belief, chance: Chances) -> Saying:
    until = one.fitted_to() or one.closed
    temps = lot_temps_c(one.lot, until, [r for r in one.readings if r.day < until], one.wave_from)
    fitted = fit_lot(one.lot, temps, until, belief, chance)
    return saying(fitted.lot, fitted.cloud, belief)
