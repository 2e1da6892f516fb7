"""A count says what is there now; a look may be one (F10, F11). Twin: `counting.ts`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from homestead.storekeeping.amounts import NEAR, Maybe, filled, ratio_of
from homestead.storekeeping.leaving import cut_off, out
from homestead.storekeeping.lot import Lot, Row, Seen
from homestead.storekeeping.order import Event
from homestead.storekeeping.state import Way

Body = Mapping[str, Any]


def recount(lot: Lot, event: Event, body: Body, way: Way, *, by_water: bool = False) -> None:
    """What is there now; the difference to before went the given way, below nought it is found.

    by_water: cured or dried, so that a weight alone leaves the pieces as they are.
    """
    before = lot.pieces, lot.grams
    pieces, grams = body.get("pieces"), body.get("grams")
    if pieces is not None and grams is not None:
        lot.own_measure = lot.origin.count_measure
    else:
        lot.own_measure = "grams" if pieces is None else "pieces"
        pieces, grams = _there_now(lot, pieces, grams, by_water)
    lot.pieces, lot.grams = pieces, grams
    lot.ratio = ratio_of(pieces, grams, lot.ratio)
    lot.whole = lot.whole and grams is not None
    _tell_difference(lot, event, before, way)
    lot.last_count = lot.last_look = event
    lot.counted_well = True
    lot.asks_count = False
    if pieces == 0 and grams == 0:
        lot.finish()


def _there_now(lot: Lot, pieces: Maybe, grams: Maybe, by_water: bool) -> tuple[Maybe, Maybe]:
    """One measure was counted: the other by the ratio, or 0 with it."""
    if pieces == 0 or grams == 0:
        return 0.0, 0.0
    if by_water and pieces is None and lot.pieces is not None:
        return lot.pieces, grams
    return filled(pieces, grams, lot.ratio)


def _tell_difference(lot: Lot, event: Event, before: tuple[Maybe, Maybe], way: Way) -> None:
    pieces_gone, pieces_found = _difference(before[0], lot.pieces)
    grams_gone, grams_found = _difference(before[1], lot.grams)
    if (pieces_gone or 0) > NEAR or (grams_gone or 0) > NEAR:
        lot.rows.append(Row(event, way, pieces_gone, grams_gone, unwritten=way != "cured"))
    lot.find(event, pieces_found, grams_found)


def _difference(before: Maybe, after: Maybe) -> tuple[Maybe, Maybe]:
    """(what is gone, what was found) of one measure."""
    if before is None or after is None:
        return None, None
    return max(before - after, 0.0), max(after - before, 0.0)


def count(lot: Lot, event: Event) -> None:
    way: Way = event.body.get("gone", "unknown")
    recount(lot, event, event.body, way, by_water=way == "dried")


def inspection(lot: Lot, event: Event) -> None:
    """A look: it counts pieces only where a person set the number (F11), then come outs and trims."""
    body = event.body
    if body["space"] != lot.space:
        lot.flag(event, "other_space")
    if body["way"] == "none":
        return
    looked: Maybe = body.get("looked")
    if body["way"] == "all":
        if body["counted"] and looked is not None:
            recount(lot, event, {"pieces": looked}, "unknown")
        looked = lot.pieces if looked is None else looked
    lot.last_look = event
    lot.standing = [
        Seen(event, seen["finding"], seen.get("pieces"), looked)
        for seen in body.get("seen", ())
        if seen["finding"] != "sound"
    ]
    for each in body.get("out", ()):
        out(lot, event, each)
    for each in body.get("trims", ()):
        cut_off(lot, event, each)
