"""What the simulated family has in hand and is asked every day, and what came of its winter."""

from __future__ import annotations

import datetime as dt
import uuid
from collections import Counter
from dataclasses import dataclass, field
from typing import Any

STANDING = (
    {"name": "Let out, feed, water", "minutes": 12, "at": "08:00", "animals": True},
    {"name": "Eggs in, water again", "minutes": 8, "at": "12:00", "animals": True, "least_age": 5},
    {"name": "Shut in at dusk", "minutes": 8, "at": "16:30", "animals": True},
    {"name": "Sweep the loft", "minutes": 20, "weekdays": [6], "needs": ["ladder"]},
    {"name": "Carry straw", "minutes": 25, "weekdays": [2, 5], "needs": ["lifting"]},
)


@dataclass
class Phone:
    """What it holds unsent, and what it knew when it last fetched."""

    device: Any
    unsent: list[dict[str, Any]] = field(default_factory=list)
    sheets: list[dict[str, Any]] = field(default_factory=list)
    free: dict[str, uuid.UUID] = field(default_factory=dict)
    done: set[str] = field(default_factory=set)
    looks: dict[str, dt.date] = field(default_factory=dict)


@dataclass
class Outcome:
    """What came of a run."""

    in_time: int = 0
    lot_weeks: int = 0
    looks: int = 0
    looks_late: int = 0
    farthest_share: float = 0.0
    moved: int = 0
    told: int = 0
    refused: Counter[str] = field(default_factory=Counter)
    digest: str = ""

    @property
    def share_in_time(self) -> float:
        return self.in_time / self.lot_weeks

    def holds(self) -> bool:
        """98 % of lot-weeks in time, shares within 15 %."""
        return self.share_in_time >= 0.98 and self.farthest_share <= 0.15

    def row(self, seed: int) -> str:
        looks = 100 * (1 - self.looks_late / max(1, self.looks))
        churn = 100 * self.moved / max(1, self.told)
        return (
            f"{seed:4} {self.lot_weeks:10} {100 * self.share_in_time:10.2f} {looks:10.2f} "
            f"{100 * self.farthest_share:9.1f} {churn:7.1f}   {self.digest[:12]}  {dict(self.refused) or ''}"
        )


HEAD = "seed  lot-weeks  in time %  looks in %  shares +-  churn %  rosters"
