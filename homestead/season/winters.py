"""What became of each crop in the winters gone by: put away, eaten, given, lost, and how long it lasted."""

from __future__ import annotations

import datetime as dt
import uuid
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from homestead.science.planting import Winter as Used
from homestead.science.planting import winter_need
from homestead.science.ranges import Impossible
from homestead.store.models import Lot

#: weeks a store has to last where the tables tell no months. Ours
USUAL_WEEKS = 40
GOOD = ("eaten", "given", "seed", "put_by")


@dataclass(frozen=True)
class Winter:
    """One crop in one winter, weights in grams. `ended`: the day the last of it was gone; None while there is
    some.
    """

    winter: int
    put_away: float
    eaten: float
    given: float
    put_by: float
    lost: float
    left: float
    weeks: float
    ended: dt.date | None

    def told(self) -> dict[str, Any]:
        """Whole grams, for the sheet."""
        grams = {
            name: round(getattr(self, name))
            for name in ("put_away", "eaten", "given", "put_by", "lost", "left")
        }
        ended = self.ended.isoformat() if self.ended else None
        return {"winter": self.winter, "weeks": round(self.weeks), "ended": ended} | grams


@dataclass(frozen=True)
class Past:
    """A crop's winters, the oldest first; of each finished lot the share that went to some good [-]; what
    is set aside for seed [kg].
    """

    winters: tuple[Winter, ...] = ()
    kept: tuple[float, ...] = ()
    seed_kg: float = 0.0


def paces_kg(household: uuid.UUID, today: dt.date) -> dict[str, float]:
    """What is eaten of each crop in a week of a usual winter, where one was long enough. [kg a week]"""
    found = {}
    for crop, past in pasts_of(household, today).items():
        used = [Used(one.eaten / 1000, one.weeks) for one in past.winters]
        try:
            found[crop] = winter_need(used, USUAL_WEEKS)[0] / USUAL_WEEKS
        except Impossible:
            continue
    return found


@dataclass
class _Lots:
    of_winter: defaultdict[int, list[Lot]] = field(default_factory=lambda: defaultdict(list))
    all: list[Lot] = field(default_factory=list)


def pasts_of(household: uuid.UUID, today: dt.date) -> dict[str, Past]:
    """By crop. A part that was moved was put away once, in the lot it came from."""
    rows = Lot.rows.of(household).filter(stands=True, born_by__in=("put_away", "move"))
    by_crop: defaultdict[str, _Lots] = defaultdict(_Lots)
    for lot in rows.exclude(born_day=None).order_by("born_day", "uuid"):
        lots = by_crop[lot.crop]
        lots.all.append(lot)
        if lot.winter is not None:
            lots.of_winter[lot.winter].append(lot)
    return {crop: _past(lots, today) for crop, lots in by_crop.items()}


def _past(lots: _Lots, today: dt.date) -> Past:
    winters = (_winter(winter, some, today) for winter, some in sorted(lots.of_winter.items()))
    done = [_kept_share(lot) for lot in lots.all if lot.finished and lot.born_by == "put_away"]
    seed = sum(max(lot.seed_grams or 0.0, 0.0) for lot in lots.all if not lot.finished)
    return Past(
        tuple(one for one in winters if one is not None),
        tuple(share for share in done if share is not None),
        seed / 1000,
    )


def _winter(winter: int, lots: Sequence[Lot], today: dt.date) -> Winter | None:
    """None where nobody knows how much was put away."""
    put_away = sum(
        _grams(lot, "put_away") + _grams(lot, "found") for lot in lots if lot.born_by == "put_away"
    )
    first = min(lot.born_day for lot in lots if lot.born_day is not None)
    here = any(not lot.finished and (lot.grams is None or lot.grams > 0) for lot in lots)
    last = today if here else max(lot.last_entry or first for lot in lots)
    if put_away <= 0 or last < first:
        return None
    sums = {name: sum(_grams(lot, name) for lot in lots) for name in ("eaten", "given", "put_by", "shrink")}
    left = sum(max(lot.grams or 0.0, 0.0) for lot in lots if not lot.finished)
    return Winter(
        winter, put_away, sums["eaten"], sums["given"], sums["put_by"], sums["shrink"], left,
        (last - first).days / 7, None if here else last,
    )  # fmt: skip


def _kept_share(lot: Lot) -> float | None:
    """Of what did not move on to another space; None where not all of it was weighed."""
    put_away = _grams(lot, "put_away") + _grams(lot, "found") - _grams(lot, "moved") - _grams(lot, "cured")
    if not lot.tallies.get("whole") or put_away <= 0:
        return None
    return min(sum(_grams(lot, name) for name in GOOD) / put_away, 1.0)


def _grams(lot: Lot, name: str) -> float:
    return max(lot.tallies.get(name) or 0.0, 0.0)
