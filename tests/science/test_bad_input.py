"""Facts that cannot be: a named error that says which, or an answer in range; never a number that is none."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace

import numpy as np
import pytest

from homestead.science import air, chance, freezing, keeping, outlook, past, reach, rooms, survival, venting
from homestead.science.lots import Handbook, Look, Lot, Take, checked
from homestead.science.ranges import Impossible, OutsideRange
from homestead.science.rooms import Reading

AUTUMN = dt.date(2026, 9, 15)
TABLES = chance.chances(4)
LOT = Lot("onion", "A", "loft", 0, AUTUMN, 200.0, Handbook(180, 270, 0.0, 2.5), 7.0)
TODAY = AUTUMN + dt.timedelta(days=84)


def on(day: int) -> dt.date:
    return AUTUMN + dt.timedelta(days=day)


def fitted(lot: Lot, temp_c: float = 4.0) -> survival.Fitted:
    return survival.fit_lot(lot, [temp_c] * 84, TODAY, survival.first_belief(lot), TABLES)


def ahead(lot: Lot, temp_c: float = 4.0) -> outlook.Ahead:
    return outlook.look_ahead(fitted(lot, temp_c), [temp_c], TABLES)


def width(told: outlook.Ahead) -> float:
    band = told.sound_in(0)
    return band.p90 - band.p10


def assert_sane(told: outlook.Ahead) -> None:
    for band in (told.sound_in(0), told.sound_in(28), told.sound_in(56), told.lost_in(56), told.run_out()):
        assert 0 <= band.p10 <= band.p50 <= band.p90
        assert math.isfinite(band.mean)


@pytest.mark.parametrize(
    ("lot", "names"),
    [
        (replace(LOT, looks=(Look(on(20), 30.0, 31.0),)), "31 culled out of 30"),
        (replace(LOT, looks=(Look(on(-1), 30.0, 1.0),)), "older than its lot"),
        (replace(LOT, takes=(Take(on(-4), 3.0),)), "older than its lot"),
        (replace(LOT, takes=(Take(on(4), -3.0),)), "pieces taken is -3"),
        (replace(LOT, takes=(Take(on(4), 3.0, tossed=math.nan),)), "thrown out is nan"),
        (replace(LOT, looks=(Look(on(4), math.inf),)), "looked at is inf"),
        (replace(LOT, pieces=-1.0), "pieces put away is -1"),
        (replace(LOT, plan_per_week=math.nan), "planned pieces per week is nan"),
        (replace(LOT, handbook=Handbook(270, 180, 0.0, 2.5)), "handbook life, high is 180"),
        (replace(LOT, handbook=Handbook(180, 270, 0.0, 0.5)), "handbook q10 is 0.5"),
        (replace(LOT, handbook=Handbook(180, 270, 90.0, 2.5)), "handbook reference temperature is 90"),
        (replace(LOT, handbook=Handbook(180, 270, 0.0, 2.5, math.nan)), "holds is no number"),
    ],
)
def test_a_lot_that_cannot_be_says_which_fact(lot: Lot, names: str) -> None:
    with pytest.raises((Impossible, OutsideRange), match=names):
        checked(lot)
    with pytest.raises((Impossible, OutsideRange), match=names):
        fitted(lot)


def test_a_question_of_a_day_before_the_lot_is_refused() -> None:
    with pytest.raises(Impossible, match="before the lot was put away"):
        survival.fit_lot(LOT, [4.0], on(-1), survival.first_belief(LOT), TABLES)


@pytest.mark.parametrize("temp_c", [-40.5, 61.0, math.nan])
def test_a_reading_no_thermometer_shows_is_named(temp_c: float) -> None:
    with pytest.raises(OutsideRange, match="reading of the room"):
        rooms.room_wave([Reading(AUTUMN, temp_c)])
    with pytest.raises(OutsideRange, match="reading of the room"):
        rooms.wave_error_c(AUTUMN, 3, [Reading(AUTUMN, temp_c)])
    with pytest.raises(OutsideRange, match="reading of the room"):
        past.lot_temps_c(LOT, TODAY, [Reading(on(3), temp_c)], [])


def test_humidity_over_a_hundred_percent_is_named() -> None:
    with pytest.raises(OutsideRange, match=r"rel_humidity is 1\.04"):
        air.dew_point_c(4.0, 1.04)
    with pytest.raises(OutsideRange, match=r"rel_humidity is 1\.04"):
        venting.vent_advice(
            venting.Air(6.0, 1.04), venting.Air(1.0, 0.9), venting.Wanted(0.0, 4.0, 0.9, 0.95, -1.0)
        )


def test_air_outside_what_the_formulas_cover_is_named() -> None:
    with pytest.raises(OutsideRange, match="temp_c is -24"):
        air.saturation_pressure_kpa(-24.0)
    with pytest.raises(OutsideRange, match="outside_c is -70"):
        freezing.cooled_c(4.0, -70.0, 10.0, freezing.Room(40.0, 2.0))


@pytest.mark.parametrize("temp_c", [-30.0, 45.0])
def test_a_room_colder_or_warmer_than_the_clock_covers_is_held_at_its_edge(temp_c: float) -> None:
    """Documented: the clock runs no slower than at its hold, no faster than at 25 °C."""
    assert_sane(ahead(LOT, temp_c))


def test_more_taken_than_ever_was_leaves_none_and_a_count_brings_it_back() -> None:
    taken = replace(LOT, takes=tuple(Take(on(day), 90.0) for day in (10, 20, 30, 40)))
    gone = ahead(taken)
    assert_sane(gone)
    assert gone.sound_in(0).p50 == 0
    counted = ahead(replace(taken, looks=(Look(on(50), 60.0, 0.0, sought=False),)))
    assert_sane(counted)
    assert counted.sound_in(0).p50 > 40


def test_a_look_at_more_than_there_can_be_is_believed_and_widens_the_band() -> None:
    usual = ahead(replace(LOT, looks=(Look(on(60), 190.0, 2.0, full=False),)))
    more = ahead(replace(LOT, looks=(Look(on(60), 900.0, 2.0, full=False),)))
    assert_sane(more)
    assert more.sound_in(0).p90 <= 200
    assert_sane(usual)
    counted = ahead(replace(LOT, looks=(Look(on(60), 900.0, 2.0),)))
    assert_sane(counted)
    assert counted.sound_in(0).p50 > 700


def test_a_weight_turned_into_pieces_is_less_sure_than_a_count() -> None:
    assert width(ahead(replace(LOT, count_sd=20.0))) > 1.2 * width(ahead(LOT))


def test_the_order_records_come_in_changes_nothing() -> None:
    looks = (Look(on(20), 195.0, 3.0), Look(on(50), 170.0, 4.0))
    takes = (Take(on(30), 9.0), Take(on(60), 12.0, tossed=1.0))
    in_order = ahead(replace(LOT, looks=looks, takes=takes))
    turned = ahead(replace(LOT, looks=looks[::-1], takes=takes[::-1]))
    assert in_order.sound.tolist() == turned.sound.tolist()


def test_nothing_put_away_stays_nothing() -> None:
    none = replace(LOT, pieces=0.0)
    told = ahead(none)
    assert_sane(told)
    assert told.sound_in(0).p90 == 0
    crop = reach.crop_ahead([(fitted(none), np.full(406, 4.0))], 0.7, [0.1], TABLES)
    assert np.isfinite(crop.sound).all()
    assert crop.run_out().p90 <= 1
    assert keeping.share_kept(np.zeros(2), np.zeros(2), 0.0).tolist() == [1.0, 1.0]


def test_a_look_that_saw_nothing_says_nothing_of_rot() -> None:
    blind = replace(LOT, looks=(Look(on(20), 0.0, 0.0, full=False),))
    assert_sane(ahead(blind))
    assert keeping.kept_by_looks(blind.looks, 200.0) == []


def test_a_crop_of_no_lot_is_named() -> None:
    with pytest.raises(Impossible, match="No lot of this crop"):
        reach.crop_ahead([], 1.0, [], TABLES)


def test_a_thermometer_that_stands_still_is_told_and_its_band_widens() -> None:
    still = [Reading(on(7 * n), 6.0) for n in range(9)]
    assert rooms.stuck_days(still) == 56
    error = rooms.wave_error_c(AUTUMN, 63, still)
    trusted = rooms.daily_spread_c(AUTUMN, 63, error, still)
    told = rooms.daily_spread_c(AUTUMN, 63, rooms.wave_error_c(AUTUMN, 63, still[:1]), still[:1])
    assert told[-1] > 2 * trusted[-1]


def test_readings_all_of_one_day_or_out_of_order_are_a_wave_all_the_same() -> None:
    once = rooms.room_wave([Reading(AUTUMN, 5.0), Reading(AUTUMN, 7.0), Reading(AUTUMN, 6.0)])
    assert math.isfinite(once.at(AUTUMN))
    some = [Reading(on(40), 5.0), Reading(on(3), 8.0), Reading(on(20), 7.0)]
    wave = rooms.room_wave(some)
    assert rooms.daily_temps_c(AUTUMN, 60, wave, some) == pytest.approx(
        rooms.daily_temps_c(AUTUMN, 60, wave, sorted(some, key=lambda one: one.day))
    )
