"""From the store's tables to what science is told of a lot: looks, takes, readings, the handbook's life."""

from __future__ import annotations

import datetime as dt
import uuid
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from homestead.reference import tables
from homestead.reference.stored_rows import LookingOver, Storage
from homestead.rounds.models import Inspection
from homestead.science.lots import Handbook, Look, Take
from homestead.science.lots import Lot as LotFacts
from homestead.science.rooms import Reading as Warmth
from homestead.season.table import NOBODY_KNOWN, AtTable, at_table
from homestead.season.winters import paces_kg
from homestead.store.models import Happening, Lot, OwnCrop, Reading, WeeklyUse, Went
from homestead.store.setting import figures_of
from homestead.storekeeping.due import OWN_CROP_DAYS

USUAL_Q10 = 2.5
COLDEST_C = -40.0
#: how far back to see what a household eats of a crop it told no weekly use of
LATELY_DAYS = 56
_FOOD = frozenset({"eaten", "given", "seed", "put_by", "moved"})


@dataclass(frozen=True)
class Looking:
    """What a look at a lot costs [min], and how often the table asks for one [d]."""

    minutes: float = 3.0
    every_days: int = OWN_CROP_DAYS


@dataclass(frozen=True)
class Kept:
    """A lot as science knows it. `closed`: the day after its last entry, once it is finished.

    `seed_pieces`: set aside, there but no food.
    """

    lot: uuid.UUID
    space: uuid.UUID
    facts: LotFacts
    piece_kg: float
    closed: dt.date | None
    readings: tuple[Warmth, ...]
    seed_pieces: float = 0.0
    last_look: dt.date | None = None
    look: Looking = Looking()


@dataclass(frozen=True)
class Household:
    """All lots with figures, those without (nothing can be said of them), need by crop [kg a week] and who is
    at table.

    `like`: the crop of the tables an own crop is like.
    """

    kept: tuple[Kept, ...]
    unknown: tuple[uuid.UUID, ...]
    need_kg: dict[str, float]
    table: AtTable = NOBODY_KNOWN
    like: Mapping[str, str] = field(default_factory=dict)


def household_facts(household: uuid.UUID) -> Household:
    """Read a household's lots, the finished ones too."""
    rows = list(_lots(household))
    facts = _Facts(household)
    kept = [one for row in rows if (one := facts.of(row)) is not None]
    known = {one.lot for one in kept}
    unknown = tuple(row.uuid for row in rows if row.uuid not in known and not row.finished)
    return Household(tuple(kept), unknown, facts.need_kg, at_table(household), facts.like)


def _lots(household: uuid.UUID) -> Iterable[Lot]:
    there = Lot.rows.of(household).filter(stands=True, born_by__in=("put_away", "move"))
    return there.exclude(born_day=None).select_related("space").order_by("born_day", "uuid")


class _Facts:
    """The household's rows, read once, by lot or by space."""

    def __init__(self, household: uuid.UUID) -> None:
        self.figures = figures_of(household)
        like = OwnCrop.rows.of(household).exclude(like="").values_list("uuid", "like")
        self.like = {str(own): crop for own, crop in like}
        self.looked_over = {one.crop_id: one for one in tables().looking_over}
        self.looks = _by(Inspection.rows.of(household).exclude(way="none"), "lot_id")
        self.went = _by(Went.rows.of(household).exclude(lot=None), "lot_id")
        happened = Happening.rows.of(household)
        self.counts = _by(happened.filter(kind="count"), "lot_id")
        self.begun = {one.lot_id: one for one in happened.filter(kind="put_away")}
        self.begun |= {one.born_id: one for one in happened.exclude(born=None)}
        readings = _by(Reading.rows.of(household).order_by("when"), "space_id")
        self.warmths = {space: warmths(its) for space, its in readings.items()}
        uses = WeeklyUse.rows.of(household).filter(archived=False)
        told = {use.crop: self._kg(use.crop, use.grams, use.pieces) for use in uses}
        self.need_kg = eaten_kg_a_week(household) | told
        standing = Lot.rows.of(household).filter(stands=True, finished=False)
        self.sharing: defaultdict[str, int] = defaultdict(int)
        for crop in standing.values_list("crop", flat=True):
            self.sharing[crop] += 1

    def _kg(self, crop: str, grams: float | None, pieces: float | None) -> float:
        piece_g = self.figures.get(crop, {}).get("piece_g") or 0.0
        return (grams if grams is not None else (pieces or 0.0) * piece_g) / 1000

    def of(self, row: Lot) -> Kept | None:
        """None for a lot without figures: no life in the tables, no piece weight, no amount."""
        book = handbook_of(self.like.get(row.crop, row.crop))
        piece_g = row.ratio or self.figures.get(row.crop, {}).get("piece_g")
        began = self.begun.get(row.pk)
        if book is None or not piece_g or began is None or row.space is None or row.born_day is None:
            return None
        pieces = began.pieces if began.pieces is not None else (began.grams or 0) / piece_g
        last = row.last_entry or row.born_day
        facts = LotFacts(
            row.crop, row.variety, str(row.space.uuid), row.winter or row.born_day.year, row.born_day, pieces,
            book,
            1000 * self.need_kg.get(row.crop, 0.0) / piece_g / max(self.sharing[row.crop], 1),
            weighed=row.own_measure == "grams", count_sd=0.0 if began.pieces is not None else 0.1 * pieces,
            looks=tuple(self._looks(row, piece_g)), takes=tuple(self._takes(row, piece_g)),
        )  # fmt: skip
        closed = last + dt.timedelta(days=1) if row.finished else None
        return Kept(
            row.uuid, row.space.uuid, facts, piece_g / 1000, closed, self.warmths.get(row.space.pk, ()),
            seed_pieces(row, piece_g), row.last_look, self._looking(row, piece_g),
        )  # fmt: skip

    def _looking(self, row: Lot, piece_g: float) -> Looking:
        costs = self.looked_over.get(self.like.get(row.crop, row.crop))
        told: Mapping[str, Any] = self.figures.get(row.crop, {})
        return Looking(look_minutes(row, costs, piece_g), int(told.get("every_days") or OWN_CROP_DAYS))

    def _looks(self, row: Lot, piece_g: float) -> Iterable[Look]:
        culled = self._sums(row, piece_g, lambda one: one.kind == "inspection" and one.bucket == "shrink")
        for look in self.looks[row.pk]:
            out = culled.get(look.uuid, 0.0)
            if look.looked is not None and row.born_day and look.day >= row.born_day:
                yield Look(look.day, max(look.looked, out), out, look.way == "all", look.counted)
        for count in self.counts[row.pk]:
            left = count.pieces if count.pieces is not None else (count.grams or 0) / piece_g
            if row.born_day and count.day >= row.born_day:
                yield Look(count.day, left, 0.0, sought=False)

    def _takes(self, row: Lot, piece_g: float) -> Iterable[Take]:
        days = {one.entry: one.day for one in self.went[row.pk]}
        food = self._sums(
            row, piece_g, lambda one: one.kind not in ("inspection", "count") and one.bucket in _FOOD
        )
        bad = self._sums(
            row, piece_g, lambda one: one.kind not in ("inspection", "count") and one.bucket == "shrink"
        )
        for entry in food | bad:
            if row.born_day and days[entry] >= row.born_day:
                yield Take(days[entry], food.get(entry, 0.0), 0.0, bad.get(entry, 0.0))

    def _sums(self, row: Lot, piece_g: float, wanted: object) -> dict[uuid.UUID, float]:
        sums: defaultdict[uuid.UUID, float] = defaultdict(float)
        for one in self.went[row.pk]:
            if callable(wanted) and wanted(one):
                sums[one.entry] += one.pieces if one.pieces is not None else (one.grams or 0) / piece_g
        return {entry: much for entry, much in sums.items() if much > 0}


def look_minutes(row: Lot, costs: LookingOver | None, piece_g: float) -> float:
    """How long one look at what is looked at takes by the table: at least a minute, 3 where none tells.
    [min]"""
    grams = row.grams if row.grams is not None else (row.pieces or 0.0) * piece_g
    if costs is None:
        return Looking.minutes
    least = (costs.sample_pieces_min or 0) * piece_g
    looked = min(max(grams, 0.0), max(least, grams * costs.sample_share_pct / 100))
    return max(1.0, looked / 10_000 * costs.minutes_per_10kg)


def seed_pieces(row: Lot, piece_g: float) -> float:
    """What of a lot is set aside for seed. [pieces]"""
    if row.seed_pieces is not None:
        return max(row.seed_pieces, 0.0)
    return max(row.seed_grams or 0.0, 0.0) / piece_g


def eaten_kg_a_week(household: uuid.UUID) -> dict[str, float]:
    """What is eaten of each crop by its winters, for crops whose weekly use nobody told; of one there for
    less than eight weeks what was eaten lately. [kg a week]

    To the end of the week of the last meal: so that a meal changes its own crop's, not every day all of them.
    """
    eaten = Went.rows.of(household).filter(bucket="eaten").exclude(grams=None).exclude(lot=None)
    last = eaten.order_by("-day").values_list("day", flat=True).first()
    if last is None:
        return {}
    last += dt.timedelta(days=7 - last.isoweekday())
    since = last - dt.timedelta(days=LATELY_DAYS)
    sums: defaultdict[str, float] = defaultdict(float)
    for row in eaten.filter(day__gt=since).values("crop", "grams"):
        sums[row["crop"]] += (row["grams"] or 0.0) / 1000
    return {crop: kg * 7 / LATELY_DAYS for crop, kg in sums.items()} | paces_kg(household, last)


def _by(rows: Iterable[object], column: str) -> defaultdict[object, list]:  # type: ignore[type-arg]
    found: defaultdict[object, list] = defaultdict(list)  # type: ignore[type-arg]
    for row in rows:
        found[getattr(row, column)].append(row)
    return found


def warmths(rows: Iterable[Reading]) -> tuple[Warmth, ...]:
    """Readings of a space that tell of its warmth: as read, else the middle of lowest and highest. [°C]"""
    told = ((row.day, _temp_c(row)) for row in rows)
    return tuple(Warmth(day, temp) for day, temp in told if temp is not None)


def _temp_c(row: Reading) -> float | None:
    if row.temp_c is not None:
        return row.temp_c
    return (row.low_c + row.high_c) / 2 if row.low_c is not None and row.high_c is not None else None


def handbook_of(crop: str) -> Handbook | None:
    """The crop's storage life by the best ranked row that tells both life and warmth; None without one."""
    rows = sorted((row for row in tables().storage if row.crop_id == crop), key=lambda row: row.rank)
    best = next(
        (row for row in rows if row.life_low_days and row.life_high_days and row.temp_low_c is not None), None
    )
    if best is None or best.temp_low_c is None or best.life_low_days is None or best.life_high_days is None:
        return None
    low, high = sorted((best.temp_low_c, best.temp_low_c if best.temp_high_c is None else best.temp_high_c))
    return Handbook(
        float(best.life_low_days), float(best.life_high_days), (low + high) / 2, _q10(rows), _hold(rows)
    )


def _q10(rows: Sequence[Storage]) -> float:
    told = next((row for row in rows if row.q10_low and row.q10_high), None)
    return (told.q10_low + told.q10_high) / 2 if told and told.q10_low and told.q10_high else USUAL_Q10


def _hold(rows: Sequence[Storage]) -> float:
    """Below its chilling threshold or freezing point the clock runs no slower."""
    told = [t for row in rows for t in (row.freezing_point_c, row.chilling_below_c) if t is not None]
    return max(told, default=COLDEST_C)
