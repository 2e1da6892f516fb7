"""Whether to open a room to the air outside tonight, and what keeps ill beside what."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from scipy.optimize import brentq

from homestead.science.air import (
    absolute_humidity_g_m3,
    dew_point_c,
    saturation_pressure_kpa,
    vapour_pressure_kpa,
)

Why = Literal["frost", "wet_air", "would_wet", "too_warm", "too_damp", "too_dry", "nothing_to_gain"]


@dataclass(frozen=True)
class Air:
    """Temperature [°C], and humidity as a share."""

    temp_c: float
    rel_humidity: float


@dataclass(frozen=True)
class Wanted:
    """What the room's crops want [°C, share], and the highest freezing point among them [°C]."""

    low_c: float
    high_c: float
    low_humidity: float
    high_humidity: float
    freezing_c: float


@dataclass(frozen=True)
class Vent:
    """Open or not and why; the humidity the room's air comes to at its own temperature; shut at this one
    [°C].
    """

    open: bool
    why: Why
    becomes_humidity: float
    shut_at_c: float


def vent_advice(inside: Air, outside: Air, wanted: Wanted, rain_or_fog: bool = False) -> Vent:
    """Whether opening helps tonight. Air a shut cellar with rot or ferments first of all: oxygen may be
    short.

    Raises OutsideRange outside -20 to 40 °C or 0 to 1. Source: absolute humidity and dew point compared;
    margins ours.
    """
    why = _why(inside, outside, wanted, rain_or_fog)
    return Vent(
        why in ("too_warm", "too_damp", "too_dry"), why, humidity_after_airing(inside, outside),
        max(wanted.freezing_c + 1.5, wanted.low_c),
    )  # fmt: skip


def humidity_after_airing(inside: Air, outside: Air) -> float:
    """Humidity of the outside air once it is as warm as the room; at most 1. [-]  Source: definition, eo
    / es(Ti).
    """
    water = vapour_pressure_kpa(outside.temp_c, outside.rel_humidity)
    return min(1.0, water / saturation_pressure_kpa(inside.temp_c))


def _why(inside: Air, outside: Air, wanted: Wanted, rain_or_fog: bool) -> Why:
    if outside.temp_c < wanted.freezing_c + 1.0:
        return "frost"
    if rain_or_fog and outside.rel_humidity > 0.97:
        return "wet_air"
    if dew_point_c(outside.temp_c, outside.rel_humidity) > inside.temp_c - 0.5:
        return "would_wet"
    return _gain(inside, outside, wanted)


def _gain(inside: Air, outside: Air, wanted: Wanted) -> Why:
    water_in = absolute_humidity_g_m3(inside.temp_c, inside.rel_humidity)
    water_out = absolute_humidity_g_m3(outside.temp_c, outside.rel_humidity)
    if inside.temp_c > wanted.high_c and outside.temp_c < inside.temp_c - 2.0:
        return "too_warm"
    if inside.rel_humidity > wanted.high_humidity and water_out < water_in - 0.3:
        return "too_damp"
    if inside.rel_humidity < wanted.low_humidity and water_out > water_in:
        return "too_dry"
    return "nothing_to_gain"


def outside_that_helps(inside: Air, wanted: Wanted) -> tuple[float, float] | None:
    """Between which temperatures outside opening helps, however damp it is there; None if at none. [°C]

    For a room too warm or too damp of which nobody read the air outside: what is too dry hangs on both.
    Raises OutsideRange as `vent_advice`. Source: the rules of `vent_advice` with air outside that is full.
    """
    low = wanted.freezing_c + 1.0
    if inside.temp_c > wanted.high_c:
        high = inside.temp_c - 2.0
    elif inside.rel_humidity > wanted.high_humidity:
        most = absolute_humidity_g_m3(inside.temp_c, inside.rel_humidity) - 0.3
        high = _full_at_c(most, inside.temp_c)
    else:
        return None
    return (low, high) if low < high else None


def _full_at_c(water_g_m3: float, below_c: float) -> float:
    """The temperature at which full air holds so much water."""
    lowest = -20.0
    if water_g_m3 <= absolute_humidity_g_m3(lowest, 1.0):
        return lowest
    return float(brentq(lambda temp: absolute_humidity_g_m3(temp, 1.0) - water_g_m3, lowest, below_c))


def ill_neighbours(
    makes: Sequence[tuple[str, str]], hurts: Sequence[tuple[str, str]]
) -> list[tuple[str, str]]:
    """Pairs (giver, sufferer) of lots in one room that should be parted or the room aired; no number is
    known.

    makes: lot and how much ethylene it gives (none, low, medium, high, very high);
    hurts: lot and how much it suffers (none, low, medium, high). Source: storage table; that high meets
    medium is ours.
    """
    givers = [lot for lot, level in makes if level in ("high", "very high")]
    sufferers = [lot for lot, level in hurts if level in ("medium", "high")]
    return [(giver, lot) for giver in givers for lot in sufferers if lot != giver]
