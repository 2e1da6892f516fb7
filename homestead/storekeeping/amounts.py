"""Pieces and grams: how one gives the other, and how what left is shared out (F5 to F9). Numbers only.

Twin: `frontend/src/storekeeping/amounts.ts`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

#: below this, pieces or grams are too little to tell a ratio by, or a difference from rounding
NEAR = 0.01

Maybe = float | None


def filled(pieces: Maybe, grams: Maybe, ratio: Maybe) -> tuple[Maybe, Maybe]:
    """F6: the measure not given, by the ratio [g a piece]; without a ratio it stays unknown."""
    if ratio is None:
        return pieces, grams
    if pieces is None:
        return (None if grams is None else grams / ratio), grams
    return pieces, (pieces * ratio if grams is None else grams)


def ratio_of(pieces: Maybe, grams: Maybe, before: Maybe) -> Maybe:
    """F7: grams a piece, where there is enough of both to tell; else as before."""
    if pieces is not None and grams is not None and pieces > NEAR and grams > NEAR:
        return grams / pieces
    return before


def lacking(written: Sequence[Mapping[str, Any]]) -> int:
    """How many of these went without a weight."""
    return sum(1 for went in written if went.get("grams") is None)


def weighed(written: Sequence[Mapping[str, Any]]) -> Maybe:
    """The weights written, together [g]; None where none is."""
    grams = [went["grams"] for went in written if went.get("grams") is not None]
    return float(sum(grams)) if grams else None


def shared_out(left: Maybe, written: Sequence[Mapping[str, Any]]) -> tuple[list[Maybe], bool]:
    """F9: the grams of each went, and whether more was written than left.

    One without grams has the rest of what left; any other sum is scaled to what left. left None: not known,
    the grams stay as written.
    """
    if left is None:
        return [went.get("grams") for went in written], False
    total, open_ones = weighed(written) or 0.0, lacking(written)
    more = total > left + NEAR
    if open_ones and not more:
        rest = (left - total) / open_ones
        return [rest if went.get("grams") is None else went["grams"] for went in written], False
    if total <= 0:
        return [left / len(written)] * len(written), False
    return [(went.get("grams") or 0) * left / total for went in written], more


def pieces_shared(pieces: Maybe, grams: Sequence[Maybe]) -> list[Maybe]:
    """The pieces of each went: by weight, or evenly where a weight is not known."""
    if pieces is None:
        return [None] * len(grams)
    total = sum(each or 0.0 for each in grams)
    if total <= NEAR or any(each is None for each in grams):
        return [pieces / len(grams)] * len(grams)
    return [pieces * (each or 0.0) / total for each in grams]


def trimmed_shares(trimmed: float, froms: Sequence[Mapping[str, Any]]) -> list[float]:
    """F15: trimmings of a put-by over the lots it came from: by grams written, else evenly [g]."""
    total = weighed(froms) or 0.0
    if lacking(froms) or total <= 0:
        return [trimmed / len(froms)] * len(froms)
    return [trimmed * each["grams"] / total for each in froms]
