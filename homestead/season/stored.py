"""What lies in which space, and what all of it wants of the air there."""

from __future__ import annotations

import datetime as dt
import uuid
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from homestead.reference import tables
from homestead.reference.stored_rows import Storage
from homestead.science.venting import Wanted, ill_neighbours
from homestead.store.models import Lot, OwnCrop

#: where no table tells at what it freezes: juice does not freeze before this. Ours [°C]
USUAL_FREEZING_C = -0.5


@dataclass(frozen=True)
class StoredLot:
    """A lot in a space: since when it lies under the present conditions, and how it is packed."""

    lot: uuid.UUID
    since: dt.date
    pack: str
    curing: bool


@dataclass(frozen=True)
class Stored:
    """A crop that lies in a space, with its rows of the storage table, best first.

    `like`: the crop of the tables it is judged as.
    """

    crop: str
    like: str
    lots: tuple[StoredLot, ...]
    rows: tuple[Storage, ...]

    def first(self, *columns: str) -> tuple[float, ...] | None:
        """The first row that tells all of these."""
        for row in self.rows:
            told = [getattr(row, column) for column in columns]
            if all(one is not None for one in told):
                return tuple(float(one) for one in told)
        return None

    def wanted(self, low: str, high: str) -> tuple[float, float] | None:
        """From the least to the most that the tables give for keeping it longest, at home where they tell it.

        The condition is that of the best ranked row with a life; None where no row tells the range.
        """
        lives = (row for row in self.rows if row.life_low_days and row.temp_low_c is not None)
        best = next(lives, None)
        told = [
            (row.life_basis == "home", getattr(row, low), getattr(row, high))
            for row in self.rows
            if best is not None and row.condition == best.condition
        ]
        full = [one for one in told if one[1] is not None and one[2] is not None]
        chosen = [one for one in full if one[0]] or full
        return (min(one[1] for one in chosen), max(one[2] for one in chosen)) if chosen else None

    @property
    def chilling_c(self) -> float | None:
        """Below this it is hurt. [°C]  Where the tables want it colder than they say it bears, the lower."""
        told = [row.chilling_below_c for row in self.rows if row.chilling_below_c is not None]
        wanted = self.wanted("temp_low_c", "temp_high_c")
        return min([*told, *wanted[:1]]) if told and wanted else None

    def word(self, column: str) -> str:
        """The first row that tells this word, with spaces; empty if none."""
        return next((str(told) for row in self.rows if (told := getattr(row, column))), "").replace("_", " ")


def stored_by_space(household: uuid.UUID) -> dict[uuid.UUID, list[Stored]]:
    """Crops by space, of the lots that stand."""
    like = dict(OwnCrop.rows.of(household).exclude(like="").values_list("uuid", "like"))
    as_table = {str(own): crop for own, crop in like.items()}
    lots: defaultdict[tuple[uuid.UUID, str], list[StoredLot]] = defaultdict(list)
    here = Lot.rows.of(household).filter(stands=True, finished=False).exclude(space=None)
    for row in here.exclude(born_day=None).select_related("space").order_by("uuid"):
        assert row.space is not None
        assert row.born_day is not None
        since = max(row.born_day, row.cures_until or row.born_day)
        lots[row.space.uuid, row.crop].append(StoredLot(row.uuid, since, row.pack, row.curing))
    found: defaultdict[uuid.UUID, list[Stored]] = defaultdict(list)
    for (space, crop), its in sorted(lots.items()):
        found[space].append(_stored(crop, as_table.get(crop, crop), its))
    return found


def _stored(crop: str, like: str, lots: Iterable[StoredLot]) -> Stored:
    rows = sorted((row for row in tables().storage if row.crop_id == like), key=lambda row: row.rank)
    return Stored(crop, like, tuple(lots), tuple(rows))


@dataclass(frozen=True)
class Wants:
    """What all that lies in a space wants together [°C, %], and the crop that freezes first.

    Humidity is None where no table tells it. `crossed`: no air is right for all of it.
    """

    low_c: float
    high_c: float
    low_pct: float | None
    high_pct: float | None
    freezing_c: float
    freezes_first: str
    crossed: bool

    def as_wanted(self) -> Wanted:
        """As the rules of airing want it."""
        low, high = self.low_pct or 0.0, self.high_pct or 100.0
        return Wanted(self.low_c, self.high_c, low / 100, high / 100, self.freezing_c)


def wants_of(stored: Iterable[Stored]) -> Wants | None:
    """From the highest low to the lowest high, turned round where they cross. None where no table tells."""
    there = list(stored)
    temps = [t for one in there if (t := one.wanted("temp_low_c", "temp_high_c"))]
    damp = [h for one in there if (h := one.wanted("rh_low_pct", "rh_high_pct"))]
    if not temps:
        return None
    freezing = [(f[0], one.crop) for one in there if (f := one.first("freezing_point_c"))]
    at, crop = max(freezing, default=(USUAL_FREEZING_C, ""))
    low, high, crossed = _together(temps)
    low_pct, high_pct, _ = _together(damp) if damp else (None, None, False)
    return Wants(low, high, low_pct, high_pct, at, crop, crossed)


def _together(ranges: list[tuple[float, float]]) -> tuple[float, float, bool]:
    low, high = max(r[0] for r in ranges), min(r[1] for r in ranges)
    return min(low, high), max(low, high), low > high


def neighbours_of(stored: Iterable[Stored]) -> list[dict[str, str]]:
    """Crops that give ripening gas beside crops that suffer from it. No dose is known, so no number."""
    there = list(stored)
    makes = [(one.crop, one.word("ethylene_made")) for one in there]
    hurts = [(one.crop, one.word("ethylene_hurt")) for one in there]
    return [{"gives": giver, "suffers": other} for giver, other in ill_neighbours(makes, hurts)]
