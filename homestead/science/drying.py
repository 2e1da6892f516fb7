"""Water lost through the skin: how fast, and when a lot is soft, limp or wrinkled."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from homestead.science.air import saturation_pressure_kpa, vapour_pressure_kpa
from homestead.science.ranges import within

PRODUCE_HUMIDITY = 0.98
"""Air in balance with fresh produce: 97 to 98 % (seen in a quotation of Sharp 1986). [-]"""
_MG_PER_S_TO_PERCENT_PER_DAY = 0.00864
Touch = Literal["firm", "softening", "limp or wrinkled"]


def water_loss_pct_day(
    temp_c: float, rel_humidity: float, transpiration_ng_kg_s_pa: float, moisture_factor: float = 1.0
) -> float:
    """Weight lost to the air in a day, in still air. [%/d]

    temp_c: 0 to 25 [°C]; rel_humidity: 0 to 1 [-]; transpiration_ng_kg_s_pa: of the crop, good to a
    factor of 2;
    moisture_factor: of the pack, 0 to 1 [-]. Not below 0. Raises OutsideRange.
    Source: transpiration coefficient times deficit, Sharp 1986 (seen quoted); unit factor 86400 s/d x
    1e-4 %·kg/mg.
    """
    within("temp_c", temp_c, 0.0, 25.0)
    within("transpiration", transpiration_ng_kg_s_pa, 0.0, 1e5)
    within("moisture_factor", moisture_factor, 0.0, 2.0)
    deficit = saturation_pressure_kpa(temp_c) * PRODUCE_HUMIDITY - vapour_pressure_kpa(temp_c, rel_humidity)
    per_day = _MG_PER_S_TO_PERCENT_PER_DAY * transpiration_ng_kg_s_pa * deficit * moisture_factor
    return max(per_day, 0.0)


def dryness(losses_pct: Sequence[float], limit_pct: float) -> float:
    """How far a lot is on its way to limp: 1 at the crop's limit. [-]

    losses_pct: each day's [%]; limit_pct: loss at which it is limp, over 0 to 100 [%]. Raises OutsideRange.
    Source: ours, with the limits of the storage table.
    """
    return sum(losses_pct) / within("water loss limit", limit_pct, 0.01, 100.0)


def touch(dryness_share: float) -> Touch:
    """What the hand feels. Source: ours, steps at 0.5 and 1."""
    if dryness_share < 0.5:
        return "firm"
    return "softening" if dryness_share < 1.0 else "limp or wrinkled"


def limp_on_day(losses_pct: Sequence[float], limit_pct: float) -> int | None:
    """First day, counted from 0, on whose evening the limit is reached; None if it is not. Source:
    `dryness`.
    """
    within("water loss limit", limit_pct, 0.01, 100.0)
    lost = 0.0
    for day, loss in enumerate(losses_pct):
        lost += loss
        if lost >= limit_pct:
            return day
    return None
