"""Moist air, drying, venting and frost against others' figures. Each check names its source."""

from __future__ import annotations

import datetime as dt
import math

import numpy as np
import psychrolib
import pytest

from homestead.science import air, drying, freezing, rooms, venting
from homestead.science.ageing import days_lost_a_week
from homestead.science.freezing import Pair, Room
from homestead.science.rooms import Reading
from homestead.science.venting import Air, Wanted

psychrolib.SetUnitSystem(psychrolib.SI)
ONIONS = Wanted(0.0, 4.0, 0.65, 0.70, -0.8)


def test_saturation_pressure_agrees_with_psychrolib_over_the_range() -> None:
    """Source: psychrolib 2.5 (ASHRAE Fundamentals 2017 ch. 1). We hold 0.1 % from -5 to 30 °C, 0.6 % to
    -20 and 40.
    """
    for tenths in range(-200, 401, 7):
        temp = tenths / 10
        theirs = psychrolib.GetSatVapPres(temp) / 1000
        assert air.saturation_pressure_kpa(temp) == pytest.approx(
            theirs, rel=1e-3 if -5 <= temp <= 30 else 6e-3
        )


def test_dew_point_agrees_with_psychrolib_over_the_range() -> None:
    """Source: psychrolib 2.5, dew or frost point; 0.06 K."""
    for temp in range(-15, 36, 5):
        for percent in (30, 60, 90, 100):
            theirs = psychrolib.GetTDewPointFromRelHum(temp, percent / 100)
            if theirs > -20:
                assert air.dew_point_c(temp, percent / 100) == pytest.approx(theirs, abs=0.06)


def test_saturation_at_15_c_is_as_printed() -> None:
    """Source: NCL page satvpr_tdew_fao56, 1.70535 kPa (seen)."""
    assert air.saturation_pressure_kpa(15.0) == pytest.approx(1.70535, abs=1e-4)


def test_fao_56_example_5_and_6() -> None:
    """Source: FAO-56 examples 3, 5 and 6 (memory): 24.5 and 15 °C, 54 and 82 %: es 2.39, ea 1.70,
    deficit 0.69.
    """
    warm, cool = air.vapour_pressure_kpa(24.5, 0.54), air.vapour_pressure_kpa(15.0, 0.82)
    dry = (air.vapour_pressure_deficit_kpa(24.5, 0.54) + air.vapour_pressure_deficit_kpa(15.0, 0.82)) / 2
    assert (warm + cool) / 2 == pytest.approx(1.53, abs=0.006)
    assert dry == pytest.approx(2.39 - 1.53, abs=0.006)


def test_a_cellar_at_4_c_and_90_percent() -> None:
    """Source: dew point and absolute humidity by psychrolib 2.5; the rest by hand from FAO-56 eq. 11."""
    assert air.saturation_pressure_kpa(4.0) == pytest.approx(0.8133, abs=5e-5)
    assert air.vapour_pressure_kpa(4.0, 0.9) == pytest.approx(0.9 * 0.8133, abs=5e-5)
    assert air.vapour_pressure_deficit_kpa(4.0, 0.9) == pytest.approx(0.0813, abs=5e-5)
    assert air.dew_point_c(4.0, 0.9) == pytest.approx(2.51, abs=0.005)
    assert air.absolute_humidity_g_m3(4.0, 0.9) == pytest.approx(5.72, abs=0.005)
    assert air.dew_point_c(-3.0, 0.8) == pytest.approx(-5.62, abs=0.005)


def test_absolute_humidity_agrees_with_psychrolib() -> None:
    """Source: psychrolib 2.5, humidity ratio over moist air volume at 101325 Pa."""
    for temp, humidity in ((0.0, 0.8), (10.0, 0.6), (25.0, 0.5)):
        ratio = psychrolib.GetHumRatioFromRelHum(temp, humidity, 101325)
        theirs = 1000 * ratio / psychrolib.GetMoistAirVolume(temp, ratio, 101325)
        assert air.absolute_humidity_g_m3(temp, humidity) == pytest.approx(theirs, rel=2e-3)


def test_outside_air_warmed_becomes_drier() -> None:
    """Source: worked by hand: 1 °C 90 % warmed to 6 °C is 63 % (0.6569 x 0.9 / 0.9353)."""
    assert air.humidity_when_at(1.0, 0.9, 6.0) == pytest.approx(0.632, abs=0.0015)
    assert venting.humidity_after_airing(Air(6.0, 0.95), Air(1.0, 0.90)) == pytest.approx(0.632, abs=0.0015)


def test_a_carrot_on_an_open_shelf_loses_two_thirds_of_a_percent_a_day() -> None:
    """Source: derived from Sharp 1986's coefficient for carrots, 1207 ng/(kg s Pa): 0.68 %/d at 4 °C and
    90 %.
    """
    assert drying.water_loss_pct_day(4.0, 0.9, 1207.0) == pytest.approx(0.679, abs=0.003)
    assert drying.limp_on_day([0.679] * 30, 8.0) == 11
    assert drying.limp_on_day([4.0, 4.0], 8.0) == 1


def test_white_cabbage_against_a_measured_line() -> None:
    """Source: Acta Hort. 157-34, 0.0696 Pa + 0.0314 d - 1.74 (seen): 4.1 % at 44 Pa in 90 days; good to
    a factor of 2.
    """
    humidity = 0.98 - 0.044 / air.saturation_pressure_kpa(1.0)
    ours = 90 * drying.water_loss_pct_day(1.0, humidity, 223.0)
    assert ours == pytest.approx(7.63, abs=0.01)
    assert 1 < ours / (0.0696 * 44 + 0.0314 * 90 - 1.74) < 2


def test_half_the_limit_is_softening_and_all_of_it_limp() -> None:
    """Source: ours, by hand: 12 days of 0.68 % on a limit of 8 % are 1.02."""
    assert drying.dryness([0.68] * 12, 8.0) == pytest.approx(1.02)
    assert [drying.touch(x) for x in (0.4999, 0.5001, 0.9999, 1.0001)] == [
        "firm", "softening", "softening", "limp or wrinkled",
    ]  # fmt: skip
    assert drying.touch(0.4951) == "firm"
    assert drying.touch(0.996) == "softening"


def test_airing_cools_and_dries_but_never_wets() -> None:
    """Source: by hand: inside 6 °C 95 % (6.90 g/m³), outside 1 °C 90 % (4.67)."""
    good = venting.vent_advice(Air(6.0, 0.95), Air(1.0, 0.90), ONIONS)
    assert (good.open, good.why) == (True, "too_warm")
    assert good.becomes_humidity == pytest.approx(0.632, abs=0.0015)
    assert good.shut_at_c == pytest.approx(0.7)
    assert venting.vent_advice(Air(4.0, 0.8), Air(9.0, 0.9), ONIONS).why == "would_wet"
    assert venting.vent_advice(Air(4.0, 0.8), Air(0.1, 0.9), ONIONS).why == "frost"
    assert venting.vent_advice(Air(4.0, 0.6), Air(5.0, 0.98), ONIONS, rain_or_fog=True).why == "wet_air"
    assert venting.vent_advice(Air(3.0, 0.9), Air(1.0, 0.5), ONIONS).why == "too_damp"
    assert venting.vent_advice(Air(3.0, 0.5), Air(2.0, 0.6), ONIONS).why == "too_dry"
    assert venting.vent_advice(Air(3.0, 0.68), Air(2.0, 0.6), ONIONS).why == "nothing_to_gain"


def test_apples_and_carrots_are_parted() -> None:
    """Source: common practice, no source: apples give ethylene that makes carrots bitter."""
    makes, hurts = [("apples", "very high"), ("carrots", "low")], [("carrots", "high"), ("apples", "medium")]
    assert venting.ill_neighbours(makes, hurts) == [("apples", "carrots")]


def test_a_garage_cools_by_newtons_law() -> None:
    """Source: Newton's law of cooling, by hand: -6 + 9 e^(-10/24) = -0.067 °C."""
    assert freezing.cooled_c(3.0, -6.0, 10.0, Room(24.0, 0.0)) == pytest.approx(-0.067, abs=5e-4)


def test_a_day_wave_is_damped_and_late() -> None:
    """Source: first-order lag with a time constant of 30 h: 0.126 and 5.5 h (by hand)."""
    assert freezing.day_wave_damping(30.0) == pytest.approx(0.1263, abs=5e-4)
    assert freezing.day_wave_delay_hours(30.0) == pytest.approx(5.516, abs=5e-3)


def test_a_rooms_time_constant_is_found_again() -> None:
    """Source: pairs made by Newton's law with 33 h and 1.5 °C, without error."""
    pairs = [
        Pair(h, 4.0 + h / 9, (4.0 + h / 9) * math.exp(-h / 33) + -math.expm1(-h / 33) * (out + 1.5), out)
        for h, out in zip(range(4, 28, 2), (-9, -4, -7, 0, -3, -8, -1, -6, -2, -5, -9, -4), strict=True)
    ]
    room = freezing.room_from_pairs(pairs, "garage")
    assert (room.lag_hours, room.gain_c) == pytest.approx((33.0, 1.5), rel=1e-3)
    assert freezing.room_from_pairs(pairs[:9], "garage") == Room(20.0, 2.0, 1.0)


def test_frost_is_told_a_degree_ahead_of_the_highest_freezing_point() -> None:
    """Source: ours, by hand: 4.275 - 1.28 is just below 2 + 1; 2.3 - 1.28 = 1.02 is calm at 0 °C, 2.27
    warns; 1.27 alarms.
    """
    assert [freezing.frost_level(low, 1.0, 0.0) for low in (2.29, 2.27, 1.285, 1.27)] == [
        "calm", "warn", "warn", "alarm",
    ]  # fmt: skip
    assert freezing.frost_level(4.275, 1.0, 2.0) == "warn"


def test_outside_air_that_helps_a_room_too_damp_holds_less_water_when_full() -> None:
    """Source: psychrolib for the water in full air (humidity ratio and density of dry air); margins ours."""
    inside = Air(6.0, 0.95)
    low, high = venting.outside_that_helps(inside, Wanted(0.0, 8.0, 0.6, 0.8, -1.5)) or (0.0, 0.0)
    assert low == pytest.approx(-0.5)
    water = [_water_g_m3(high, 1.0), _water_g_m3(6.0, 0.95)]
    assert water[0] == pytest.approx(water[1] - 0.3, rel=5e-3)


def _water_g_m3(temp_c: float, share: float) -> float:
    """Source: psychrolib: density of water vapour, its pressure over R T."""
    pressure = psychrolib.GetVapPresFromRelHum(temp_c, share)
    return 1000 * pressure / (461.5 * (temp_c + 273.15))


def test_outside_air_that_helps_a_warm_room_is_two_degrees_colder() -> None:
    """Source: ours: a degree over the freezing point of what lies there, two under the room."""
    warm = venting.outside_that_helps(Air(9.0, 0.9), Wanted(0.0, 4.0, 0.85, 0.95, -1.5))
    assert warm == pytest.approx((-0.5, 7.0))
    assert venting.outside_that_helps(Air(3.0, 0.9), Wanted(0.0, 4.0, 0.85, 0.95, -1.5)) is None


def test_a_room_nobody_read_may_be_off_by_all_its_prior() -> None:
    """Source: by hand: on 30 January the wave is its mean and its cosine, variances 36 and 6."""
    error = rooms.wave_error_c(dt.date(2027, 1, 30), 1, [])
    assert error == pytest.approx([np.sqrt(36 + 6)])


def test_the_waves_error_is_that_of_a_regression_with_its_prior_as_rows() -> None:
    """Source: numpy.linalg: covariance of least squares with the prior written as three more observations."""
    readings = [Reading(dt.date(2026, 9, 1) + dt.timedelta(days=9 * n), 8.0 - n / 2) for n in range(12)]
    days = [(one.day.timetuple().tm_yday - 30) * 2 * np.pi / 365.25 for one in readings]
    rows = np.array([[1.0, np.cos(a), np.sin(a)] for a in days])
    weight = min(1.0, 99 / (6 * 12)) / 2.5
    stacked = np.vstack([rows * np.sqrt(weight), np.diag([1 / 6, 1 / np.sqrt(6), 1 / np.sqrt(2)])])
    covariance = np.linalg.pinv(stacked) @ np.linalg.pinv(stacked).T
    at = np.array([1.0, np.cos(days[3]), np.sin(days[3])])
    error = rooms.wave_error_c(readings[3].day, 1, readings)
    assert error == pytest.approx([np.sqrt(at @ covariance @ at)], rel=1e-9)


def test_a_gap_between_readings_widens_as_a_gaussian_process_does() -> None:
    """Source: the conditional variance of a Gaussian process, k** - k K⁻¹ k, solved by numpy."""
    first, known = dt.date(2026, 11, 1), np.array([4.0, 10.0, 24.0])
    season = [Reading(first + dt.timedelta(days=int(day)), 5.0) for day in known]
    days = np.arange(40.0)
    among = np.exp(-np.abs(known[:, None] - known[None, :]) / 10.0)
    across = np.exp(-np.abs(days[:, None] - known[None, :]) / 10.0)
    left = 1.0 - np.einsum("ij,ji->i", across, np.linalg.solve(among, across.T))
    spread = rooms.daily_spread_c(first, 40, np.full(40, 2.0), season)
    assert spread == pytest.approx(np.sqrt(0.25 + (2.5 + 4.0) * np.maximum(left, 0.0)), abs=1e-7)


def test_a_thermometer_that_shows_one_figure_for_weeks_stands_still() -> None:
    """Source: ours: eight readings over six weeks; counted by hand."""
    first = dt.date(2026, 10, 1)
    still = [Reading(first + dt.timedelta(days=7 * n), 5.0) for n in range(9)]
    assert rooms.stuck_days(still) == 56
    assert rooms.stuck_days([Reading(first - dt.timedelta(days=3), 6.0), *still]) == 56
    assert rooms.stuck_days(still[:6]) == 0
    assert rooms.stuck_days([*still, Reading(first + dt.timedelta(days=60), 4.5)]) == 0


def test_a_week_ten_degrees_too_warm_costs_a_week_more_at_q10_of_two() -> None:
    """Source: by hand: with a Q10 of 2 a week at 12 °C is two at 2 °C."""
    assert days_lost_a_week(12.0, 2.0, 2.0) == pytest.approx(7.0)
    assert days_lost_a_week(1.0, 2.0, 2.0) == 0.0
    assert days_lost_a_week(5.0, -3.0, 3.0, 0.0) == pytest.approx(7 * (3.0**0.5 - 1))
