"""What a formula refuses: a number outside the range its source covers, or one that cannot be.

Source: none needed.
"""

from __future__ import annotations

import math


class OutsideRange(ValueError):
    """A fact lies outside what the formula's source covers. `name`, `value`, `low`, `high` say which."""

    def __init__(self, name: str, value: float, low: float, high: float) -> None:
        super().__init__(f"{name} is {value}; the source covers {low} to {high}.")
        self.name, self.value, self.low, self.high = name, value, low, high


class Impossible(ValueError):
    """Facts that contradict each other or nature; the message says which."""


def within(name: str, value: float, low: float, high: float) -> float:
    """The value itself. Raises OutsideRange below `low`, over `high`, and for what is no number."""
    if not (math.isfinite(value) and low <= value <= high):
        raise OutsideRange(name, value, low, high)
    return value
