"""How a room follows the cold outside, and when to warn. Produce gets no credit for lagging behind the
room.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy.optimize import least_squares

from homestead.science.ranges import within

Level = Literal["calm", "warn", "alarm"]
USUAL_LAG_HOURS = {"cellar": 150.0, "cold_room": 40.0, "garage": 20.0, "loft": 20.0}
"""Time constant of a room nobody measured. Ours. [h]"""
USUAL_GAIN_C = 2.0
LEAST_PAIRS, LEAST_SIGMA_C = 10, 1.0
ONE_IN_TEN = 1.28


@dataclass(frozen=True)
class Pair:
    """Two readings of a room `hours` apart [°C], and the mean outside between them [°C]."""

    hours: float
    first_c: float
    second_c: float
    outside_c: float


@dataclass(frozen=True)
class Room:
    """How a room lags: time constant [h], warmth from ground, house and produce [°C], error of the fit
    [°C].
    """

    lag_hours: float
    gain_c: float
    sigma_c: float = LEAST_SIGMA_C


def cooled_c(start_c: float, outside_c: float, hours: float, room: Room) -> float:
    """Room temperature after a spell of steady cold. [°C]

    start_c, outside_c: -60 to 60 [°C]; hours: 0 or more. Raises OutsideRange.
    Source: Newton's law of cooling.
    """
    within("hours", hours, 0.0, 1e5)
    end = within("outside_c", outside_c, -60.0, 60.0) + room.gain_c
    return end + (within("start_c", start_c, -60.0, 60.0) - end) * math.exp(-hours / room.lag_hours)


def day_wave_damping(lag_hours: float) -> float:
    """Share of the outside's daily swing that reaches the room. [-]  Source: first-order lag,
    1/√(1+(ωτ)²).
    """
    return 1.0 / math.hypot(1.0, 2 * math.pi / 24.0 * within("lag_hours", lag_hours, 0.0, 1e5))


def day_wave_delay_hours(lag_hours: float) -> float:
    """Hours by which the room's daily swing comes late. [h]  Source: first-order lag, atan(ωτ)/ω."""
    omega = 2 * math.pi / 24.0
    return math.atan(omega * within("lag_hours", lag_hours, 0.0, 1e5)) / omega


def room_from_pairs(pairs: Sequence[Pair], kind: str) -> Room:
    """Time constant and gain of a room by least squares; below 10 pairs those of a usual room of its kind.

    kind: cellar, cold_room, garage or loft. Source: Newton's law of cooling; scipy least squares.
    """
    usual = Room(USUAL_LAG_HOURS.get(kind, 40.0), USUAL_GAIN_C)
    if len(pairs) < LEAST_PAIRS:
        return usual
    table = np.array([(p.hours, p.first_c, p.second_c, p.outside_c) for p in pairs])
    found = least_squares(_misses, [math.log(usual.lag_hours), usual.gain_c], args=(table,))
    spread = math.sqrt(float(np.mean(found.fun**2)))
    return Room(math.exp(float(found.x[0])), float(found.x[1]), max(spread, LEAST_SIGMA_C))


def _misses(x: np.ndarray, table: np.ndarray) -> np.ndarray:
    hours, first, second, outside = table.T
    lag = np.exp(np.clip(x[0], 0.0, 8.0))
    return np.asarray(first + -np.expm1(-hours / lag) * (outside + x[1] - first) - second)


def frost_level(lowest_c: float, sigma_c: float, freezing_c: float) -> Level:
    """Whether to warn of a predicted lowest temperature.

    freezing_c: the highest freezing point of what is in the room [°C]. Source: ours: one in ten (1.28
    sigma) and 1 °C.
    """
    cold = lowest_c - ONE_IN_TEN * sigma_c
    if cold < freezing_c:
        return "alarm"
    return "warn" if cold < freezing_c + 1.0 else "calm"
