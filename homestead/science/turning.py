"""What to eat first: the share each lot loses by waiting a week."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

LEAST_PIECES, LEAST_KG = 1.0, 0.050


@dataclass(frozen=True)
class Waiting:
    """A lot today and after a week without takes, in mean pieces; `turning_now`: showing signs already.

    `dryness_gain`: how much nearer to limp in that week [-].
    """

    lot: str
    sound_now: float
    sound_in_week: float
    turning_now: float
    piece_kg: float
    dryness_gain: float = 0.0


@dataclass(frozen=True)
class OnTheTurn:
    """A lot that loses by waiting: the share [-] and kg a week, and the kg that show signs now."""

    lot: str
    share: float
    kg: float
    showing_now_kg: float
    pieces: float


def share_lost_by_waiting(sound_now: float, sound_in_week: float, dryness_gain: float = 0.0) -> float:
    """Share of a lot that a week of waiting costs, rot and drying joined; 0 to 1, 0 of nothing. [-]

    sound_now, sound_in_week: [pieces]; dryness_gain: 0 to 1 [-]. Source: ours: 1 - (kept share)(1 -
    dryness gain).
    """
    if sound_now <= 0:
        return 0.0
    rotted = min(max(1.0 - sound_in_week / sound_now, 0.0), 1.0)
    return 1.0 - (1.0 - rotted) * (1.0 - min(max(dryness_gain, 0.0), 1.0))


def on_the_turn(lots: Sequence[Waiting]) -> list[OnTheTurn]:
    """Lots that lose at least a piece or 50 g a week, the largest share first. Source: ours; order by
    share, not kg.
    """
    found = [_of(lot) for lot in lots]
    worth = [one for one in found if one.pieces >= LEAST_PIECES or one.kg >= LEAST_KG]
    return sorted(worth, key=lambda one: (-one.share, one.lot))


def _of(lot: Waiting) -> OnTheTurn:
    share = share_lost_by_waiting(lot.sound_now, lot.sound_in_week, lot.dryness_gain)
    pieces = share * lot.sound_now
    now = min(lot.turning_now, lot.sound_now) * lot.piece_kg
    return OnTheTurn(lot.lot, share, pieces * lot.piece_kg, now, pieces)
