"""Small words of the oracle: a posting, a suspect's case, an amount as written."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tests.storekeeping.oracle import Told

Json = dict[str, Any]
Pair = tuple[Fraction | None, Fraction | None]  # pieces, grams
EATEN, SHRINK = {"raw", "cook", "pot", "eaten"}, {"animals", "compost", "bin", "lost", "dried"}
STEPS = ["raw", "cook", "pot", "animals", "compost", "bin"]
LOW_TO_LOWEST = ["keep", "use_first", "trim", *STEPS]
SMALL = Fraction(1, 100)


def pair(body: Json) -> Pair:
    return (
        Fraction(body["pieces"]) if "pieces" in body else None,
        Fraction(body["grams"]) if "grams" in body else None,
    )


@dataclass
class Posting:
    told: Told
    lot: str | None
    way: str
    pieces: Fraction | None
    grams: Fraction | None
    went: Json = field(default_factory=dict)
    by_count: bool = False

    @property
    def bucket(self) -> str:
        return "eaten" if self.way in EATEN else "shrink" if self.way in SHRINK else self.way


@dataclass
class Case:
    """A suspect."""

    told: Told
    pieces: Fraction
    grams: Fraction | None
    decisions: list[Told] = field(default_factory=list)
    done_by: str | None = None
    closed: bool = False

    def standing(self) -> Told | None:
        lowest = None
        for decision in self.decisions:
            if lowest is None or (
                LOW_TO_LOWEST.index(decision.body["do"]) > LOW_TO_LOWEST.index(lowest.body["do"])
            ):
                lowest = decision
        return lowest

    def state(self) -> str:
        if self.done_by:
            return "gone"
        standing = self.standing()
        if self.closed or standing is None:
            return "closed" if self.closed else "open"
        return "kept" if standing.body["do"] == "keep" else "to_do"
