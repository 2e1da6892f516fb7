"""Disease that lives on in soil: what a heap took in of it, and which beds get none of that heap.

Twin: `frontend/src/storekeeping/soil.ts`. Both run `fixtures/vectors/soil.json`. Rules told in
docs/ladder.md, L15; figures come from `soil_diseases.csv`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, TypedDict

from homestead.storekeeping.rules import Rules


class OnHeap(TypedDict):
    """What went on a heap, of which crop of the tables (None: mixed), and what was seen of it."""

    crop: str | None
    findings: Sequence[str]
    day: str


class Taken(TypedDict):
    """One disease that a heap took in. `sure`: a finding says so; else it may be that. `crop` and `day`: of
    what brought it first."""

    disease: str
    sure: bool
    crop: str | None
    day: str
    kin: Sequence[str]
    rows: Sequence[str]


def taken_in(rules: Rules, loads: Iterable[OnHeap]) -> list[Taken]:
    """Each disease once, what is sure before what may be, else as it came first."""
    by_day = sorted(loads, key=lambda load: load["day"])
    found = [_first(disease, by_day) for disease in rules["soil"]]
    return [one for one in found if one]


def kin_of_bed(taken: Sequence[Taken], grows: str) -> Taken | None:
    """What bars this heap from a bed on which that crop is to grow; None where nothing does."""
    barred = [one for one in taken if grows in one["kin"]]
    return min(barred, key=lambda one: not one["sure"], default=None)


def _first(disease: Mapping[str, Any], loads: Sequence[OnHeap]) -> Taken | None:
    for sure, words in ((True, "findings"), (False, "maybe")):
        for load in loads:
            if _carries(disease, load, words):
                return Taken(
                    disease=disease["id"],
                    sure=sure,
                    crop=load["crop"],
                    day=load["day"],
                    kin=disease["kin"],
                    rows=disease["rows"],
                )
    return None


def _carries(disease: Mapping[str, Any], load: OnHeap, words: str) -> bool:
    """A finding that names the disease holds on whatever it was seen; one that may be it on its carriers."""
    seen = not set(disease[words]).isdisjoint(load["findings"])
    return seen and (words == "findings" or load["crop"] is None or load["crop"] in disease["carriers"])
