"""What must hold whatever the numbers: limits, order, and no number that is none."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from homestead.science import ageing, air, chance, drying, heap, looking, outlook, rooms, scraps, survival
from homestead.science.lots import Handbook, Look, Lot, Take, checked
from homestead.science.ranges import Impossible, OutsideRange

TEMPS = st.floats(-20, 40)
HUMIDITY = st.floats(0.01, 1)
AUTUMN = dt.date(2023, 9, 15)
TABLES = chance.chances(4)
LOT = Lot("onion", "A", "loft", 0, AUTUMN, 200.0, Handbook(180, 270, 0.0, 2.5), 7.0)


def forecast(lot: Lot, temp_c: float = 4.0, days: int = 84) -> outlook.Ahead:
    belief = survival.first_belief(lot)
    fitted = survival.fit_lot(lot, [temp_c] * days, AUTUMN + dt.timedelta(days=days), belief, TABLES)
    return outlook.look_ahead(fitted, [temp_c], TABLES)


def is_sane(ahead: outlook.Ahead) -> bool:
    bands = [ahead.sound_in(0), ahead.sound_in(28), ahead.sound_in(56), ahead.lost_in(56), ahead.run_out()]
    return all(0 <= b.p10 <= b.p50 <= b.p90 and math.isfinite(b.mean) for b in bands)


@given(TEMPS, HUMIDITY)
def test_dew_never_falls_above_the_airs_own_warmth(temp_c: float, humidity: float) -> None:
    dew = air.dew_point_c(temp_c, humidity)
    assert dew <= temp_c + 1e-9
    if dew >= -20:
        back = air.saturation_pressure_kpa(dew)
        assert back == pytest.approx(air.vapour_pressure_kpa(temp_c, humidity), rel=1e-6)


@given(TEMPS, HUMIDITY)
def test_saturated_air_dries_nothing(temp_c: float, humidity: float) -> None:
    assert air.vapour_pressure_deficit_kpa(temp_c, 1.0) == pytest.approx(0, abs=1e-12)
    assert air.vapour_pressure_deficit_kpa(temp_c, humidity) >= 0
    assert air.humidity_when_at(temp_c, humidity, temp_c) == pytest.approx(humidity)


@given(TEMPS, st.floats(0.1, 5), st.floats(1, 6))
def test_warmer_never_keeps_longer(temp_c: float, more: float, q10: float) -> None:
    assert ageing.ageing_rate(temp_c + more, 0.0, q10) >= ageing.ageing_rate(temp_c, 0.0, q10)


@given(st.floats(0, 25), HUMIDITY, st.floats(0, 0.5))
def test_damper_air_never_dries_more(temp_c: float, humidity: float, more: float) -> None:
    damp = min(1.0, humidity + more)
    assert drying.water_loss_pct_day(temp_c, damp, 500) <= drying.water_loss_pct_day(temp_c, humidity, 500)


@given(st.floats(1, 60), st.floats(0.001, 5), st.floats(0.001, 5))
def test_more_rot_never_puts_a_look_off(minutes: float, rots: float, cost: float) -> None:
    assert looking.look_every_days(minutes, 2 * rots, cost) < looking.look_every_days(minutes, rots, cost)


@given(st.floats(0.1, 50), st.floats(20, 90), st.floats(5, 60))
def test_a_mixture_lies_between_what_is_mixed(kg: float, wet: float, carbon: float) -> None:
    one, other = heap.Stuff(kg, wet, carbon, 1.0), heap.Stuff(3.0, 50.0, 40.0, 2.0)
    low, high = sorted([carbon, 20.0])
    assert low - 1e-9 <= heap.carbon_to_nitrogen([one, other]) <= high + 1e-9


@given(st.floats(0, 5000), st.floats(1, 100), st.floats(0, 60))
def test_twice_the_hens_halve_the_share(grams: float, dry: float, protein: float) -> None:
    given_ = scraps.Scraps(grams, dry, protein)
    assert scraps.share_of_diet(given_, 12, 115) == pytest.approx(scraps.share_of_diet(given_, 6, 115) / 2)


@settings(max_examples=15, deadline=None)
@given(st.floats(-2, 20), st.floats(1, 8))
def test_a_warmer_room_never_leaves_more_sound(temp_c: float, more: float) -> None:
    calm = replace(LOT, plan_per_week=0.0)
    cold, warm = forecast(calm, temp_c), forecast(calm, temp_c + more)
    assert warm.sound_in(56).mean <= cold.sound_in(56).mean + 1.0


def test_more_looking_never_widens_the_band_on_average() -> None:
    widths = []
    for often in (84, 28, 14):
        bands = []
        for rotten in (0, 2, 5):
            days = range(often, 84, often)
            left = [200.0 - 7 * d / 7 - rotten * n for n, d in enumerate(days)]
            looks = tuple(
                Look(AUTUMN + dt.timedelta(days=d), n, rotten) for d, n in zip(days, left, strict=True)
            )
            takes = tuple(Take(AUTUMN + dt.timedelta(days=d), 7.0) for d in range(3, 84, 7))
            now = forecast(replace(LOT, looks=looks, takes=takes)).sound_in(0)
            bands.append(now.p90 - now.p10)
        widths.append(np.mean(bands))
    assert widths[0] >= widths[1] >= widths[2]


@settings(max_examples=25, deadline=None)
@given(st.data())
def test_no_record_ever_gives_a_number_that_is_none(data: st.DataObject) -> None:
    days = st.integers(0, 83).map(lambda d: AUTUMN + dt.timedelta(days=d))
    looks = data.draw(st.lists(st.builds(
        lambda day, n, share, full: Look(day, n, n * share, full), days, st.floats(0, 500), st.floats(0,
        1), st.booleans()
    ), max_size=6))  # fmt: skip
    takes = data.draw(
        st.lists(st.builds(Take, days, st.floats(0, 300), st.floats(0, 9), st.floats(0, 9)), max_size=12)
    )
    pieces = data.draw(st.sampled_from([0.0, 1.0, 40.0, 2000.0]))
    lot = replace(
        LOT, pieces=pieces, looks=tuple(looks), takes=tuple(takes), weighed=data.draw(st.booleans())
    )
    assert is_sane(forecast(lot, data.draw(st.floats(-30, 45))))


def test_records_out_of_order_are_put_in_order() -> None:
    takes = tuple(Take(AUTUMN + dt.timedelta(days=d), 3.0) for d in (30, 10, 20))
    ordered = replace(LOT, takes=tuple(sorted(takes, key=lambda take: take.day)))
    assert forecast(replace(LOT, takes=takes)).sound_in(28) == forecast(ordered).sound_in(28)


def test_more_taken_than_ever_was_is_answered_with_nothing_left() -> None:
    takes = tuple(Take(AUTUMN + dt.timedelta(days=d), 90.0) for d in (10, 20, 30, 40))
    ahead = forecast(replace(LOT, takes=takes))
    assert is_sane(ahead)
    assert ahead.sound_in(0).p50 == 0


def test_a_lot_of_nothing_is_answered_with_nothing() -> None:
    assert forecast(replace(LOT, pieces=0.0)).sound_in(0).p90 == 0


def test_an_uncertain_count_gives_a_wider_band() -> None:
    sure, unsure = forecast(LOT).sound_in(0), forecast(replace(LOT, count_sd=20.0)).sound_in(0)
    assert unsure.p90 - unsure.p10 > sure.p90 - sure.p10


def test_a_stuck_thermometer_is_believed_as_far_as_it_reaches() -> None:
    stuck = [rooms.Reading(AUTUMN + dt.timedelta(days=d), 4.0) for d in range(0, 84, 7)]
    wave = rooms.room_wave(stuck)
    temps = rooms.daily_temps_c(AUTUMN, 200, wave, stuck)
    assert np.isfinite(temps).all()
    assert temps[40] == pytest.approx(4.0)


@pytest.mark.parametrize(
    ("work", "named"),
    [
        (lambda: air.saturation_pressure_kpa(55.0), "temp_c is 55"),
        (lambda: air.dew_point_c(10.0, 1.2), "rel_humidity is 1.2"),
        (lambda: air.saturation_pressure_kpa(math.nan), "temp_c is nan"),
        (lambda: rooms.room_wave([rooms.Reading(AUTUMN, 300.0)]), "reading of the room is 300"),
        (lambda: checked(replace(LOT, pieces=-1.0)), "pieces put away is -1"),
        (lambda: checked(replace(LOT, handbook=Handbook(0, 0, 0.0, 2.5))), "handbook life, low is 0"),
        (lambda: scraps.hen_day_lay(3, 0), "hen days is 0"),
    ],
)
def test_what_lies_outside_the_source_is_refused_by_name(work: object, named: str) -> None:
    with pytest.raises(OutsideRange, match=named):
        work()  # type: ignore[operator]


TOO_WET = heap.Stuff(1, 70, 40, 1), heap.Stuff(1, 60, 40, 1)
TOO_EARLY = AUTUMN - dt.timedelta(days=1)


@pytest.mark.parametrize(
    ("work", "named"),
    [
        (lambda: checked(replace(LOT, looks=(Look(AUTUMN, 10, 12),))), "12 culled out of 10 looked at"),
        (lambda: checked(replace(LOT, takes=(Take(TOO_EARLY, 1),))), "older than its lot"),
        (
            lambda: survival.fit_lot(LOT, [], TOO_EARLY, survival.first_belief(LOT), TABLES),
            "before the lot was put away",
        ),
        (lambda: heap.carbon_to_nitrogen([]), "without nitrogen"),
        (lambda: heap.second_for_moisture_kg(*TOO_WET, 50), "does not lie between"),
    ],
)
def test_facts_that_cannot_be_are_refused_by_name(work: object, named: str) -> None:
    with pytest.raises(Impossible, match=named):
        work()  # type: ignore[operator]
