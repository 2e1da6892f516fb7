"""Months of the tables, which were written in the north, as they fall where the household lives."""

from __future__ import annotations


def here(month: int, south: bool) -> int:
    """The month, 1 to 12: half a year on in the south."""
    return (month + 5) % 12 + 1 if south else month
