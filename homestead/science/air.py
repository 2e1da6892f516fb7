"""Moist air: how much water it holds, where dew falls, how hard it dries.

Valid from -20 to 40 °C. Sources are keyed as in docs/sources.md.
"""

from __future__ import annotations

import math

from homestead.science.ranges import within

COLDEST_C, WARMEST_C = -20.0, 40.0
_TRIPLE_KPA = 0.6108
_WATER_A, _WATER_B = 17.27, 237.3
_ICE_A, _ICE_B = 21.875, 265.5


def saturation_pressure_kpa(temp_c: float) -> float:
    """Vapour pressure of saturated air, over water from 0 °C up and over ice below. [kPa]

    temp_c: air temperature, -20 to 40 [°C]. Raises OutsideRange.
    Source: over water FAO-56 eq. 11 (form from memory, seen: 1.70535 kPa at 15 °C); over ice Murray 1967
    (memory).
    """
    within("temp_c", temp_c, COLDEST_C, WARMEST_C)
    a, b = (_WATER_A, _WATER_B) if temp_c >= 0 else (_ICE_A, _ICE_B)
    return _TRIPLE_KPA * math.exp(a * temp_c / (temp_c + b))


def vapour_pressure_kpa(temp_c: float, rel_humidity: float) -> float:
    """Pressure of the water vapour that is in the air. [kPa]

    temp_c: -20 to 40 [°C]; rel_humidity: 0 to 1 [-]. Raises OutsideRange. Source: definition of relative
    humidity.
    """
    return within("rel_humidity", rel_humidity, 0.0, 1.0) * saturation_pressure_kpa(temp_c)


def vapour_pressure_deficit_kpa(temp_c: float, rel_humidity: float) -> float:
    """Drying power of the air. [kPa]

    temp_c: -20 to 40 [°C]; rel_humidity: 0 to 1 [-]. Raises OutsideRange. Source: FAO-56 (es - ea).
    """
    return saturation_pressure_kpa(temp_c) - vapour_pressure_kpa(temp_c, rel_humidity)


def dew_point_c(temp_c: float, rel_humidity: float) -> float:
    """Temperature at which this air begins to wet what it touches; below 0 °C the frost point. [°C]

    temp_c: -20 to 40 [°C]; rel_humidity: over 0, to 1 [-]. Raises OutsideRange.
    Source: inverse of `saturation_pressure_kpa`.
    """
    within("rel_humidity", rel_humidity, 1e-6, 1.0)
    x = math.log(vapour_pressure_kpa(temp_c, rel_humidity) / _TRIPLE_KPA)
    a, b = (_WATER_A, _WATER_B) if x >= 0 else (_ICE_A, _ICE_B)
    return b * x / (a - x)


def absolute_humidity_g_m3(temp_c: float, rel_humidity: float) -> float:
    """Water in a cubic metre of air. [g/m³]

    temp_c: -20 to 40 [°C]; rel_humidity: 0 to 1 [-]. Raises OutsideRange.
    Source: ideal gas law with the gas constant of water vapour, 461.5 J/(kg K) (memory): 1000 / 461.5 * 1000.
    """
    return 2166.8 * vapour_pressure_kpa(temp_c, rel_humidity) / (temp_c + 273.15)


def humidity_when_at(temp_c: float, rel_humidity: float, new_temp_c: float) -> float:
    """Relative humidity of this air once warmed or cooled to `new_temp_c` with no water added; at most 1. [-]

    Source: definition of relative humidity.
    """
    return min(1.0, vapour_pressure_kpa(temp_c, rel_humidity) / saturation_pressure_kpa(new_temp_c))
