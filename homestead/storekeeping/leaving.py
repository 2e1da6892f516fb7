"""What leaves a lot and where it goes: take, cull, out, trim (F6, F8, F9, F12). Twin: `leaving.ts`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from homestead.storekeeping.amounts import NEAR, Maybe, filled, lacking, pieces_shared, shared_out, weighed
from homestead.storekeeping.lot import Lot, Row
from homestead.storekeeping.order import Event
from homestead.storekeeping.state import Way

Body = Mapping[str, Any]
_TAKEN: dict[str, Way] = {"eat": "eaten", "give": "given", "seed": "seed"}


def leave(
    lot: Lot, event: Event, body: Body, ways: Sequence[Body], *, partly: bool = False
) -> tuple[Maybe, Maybe]:
    """Takes an amount out, with `last` all that is there; what left in all, None where it is not known.

    Without grams of its own, those of the ways it went leave (F9). partly: the ways tell of a part only.
    """
    lot.written_in(body)
    pieces, grams = filled(body.get("pieces"), body.get("grams"), lot.ratio)
    known = grams is not None
    if grams is None:
        grams = weighed(ways)
        known = grams is not None and not partly and not lacking(ways)
    if body.get("last"):
        known = known or lot.grams is not None
        pieces, grams = lot.empty(event, pieces, grams)
    else:
        lot.lower(pieces, grams, known=known)
    return pieces, grams if known else None


def take(lot: Lot, event: Event) -> None:
    """To eat, to give away or for seed; what was tossed and trimmed goes its own way."""
    body = event.body
    trimmed: Body | None = body.get("trimmed")
    tossed = _tossed(lot, body)
    pieces, grams = leave(lot, event, body, [trimmed] if trimmed else [], partly=True)
    lot.takes.append((event.day, pieces, grams))
    if body["for"] == "seed":
        lot.seed = less(lot.seed[0], pieces), less(lot.seed[1], grams)
    rest = less(grams, tossed[1])
    if tossed[0]:
        lot.rows.append(Row(event, "compost", *tossed))
    if trimmed:
        rest = trim_off(lot, event, trimmed, trimmed["grams"], rest)
    for_use = less(pieces, tossed[0])
    if (for_use or 0) > NEAR or (rest or 0) > NEAR:
        lot.rows.append(Row(event, _TAKEN[body["for"]], for_use, rest))


def _tossed(lot: Lot, body: Body) -> tuple[float, Maybe]:
    """Pieces of the amount taken that were thrown on the compost, and their share of its weight (F9)."""
    pieces, grams = filled(body.get("pieces"), body.get("grams"), lot.ratio)
    tossed: float = body.get("tossed") or 0.0
    if pieces is None or grams is None or pieces <= 0:
        return tossed, None
    tossed = min(tossed, pieces)
    return tossed, grams * tossed / pieces


def trim_off(lot: Lot, event: Event, trimmed: Body, grams: float, left: Maybe) -> Maybe:
    """Writes what was trimmed of an amount that left; what remains of that amount [g]."""
    if left is not None and grams > left + NEAR:
        lot.flag(event, "more")
        grams = left
    lot.rows.append(Row(event, trimmed["step"], None, grams, trimmed, trimmed.get("findings", ())))
    return less(left, grams)


def less(amount: Maybe, gone: Maybe) -> Maybe:
    """What remains, at least 0; what is not known takes nothing away."""
    return None if amount is None else max(amount - (gone or 0.0), 0.0)


def cull(lot: Lot, event: Event) -> None:
    out(lot, event, event.body)


def out(lot: Lot, event: Event, body: Body) -> None:
    """Pieces that left with their findings, over the ways they went."""
    went: Sequence[Body] = body["went"]
    pieces, grams = leave(lot, event, body, went)
    shares, more = shared_out(grams, went)
    if more:
        lot.flag(event, "more")
    for way, its_grams, its_pieces in zip(went, shares, pieces_shared(pieces, shares), strict=True):
        lot.rows.append(Row(event, way["step"], its_pieces, its_grams, way, body["findings"]))
    clear_seen(lot, body["findings"], pieces)


def clear_seen(lot: Lot, findings: Sequence[str], pieces: Maybe) -> None:
    """F18: what went out is gone from what stands."""
    for seen in lot.standing:
        if seen.finding in findings:
            seen.pieces = 0.0 if seen.pieces is None or pieces is None else seen.pieces - pieces
    lot.standing = [seen for seen in lot.standing if seen.pieces is None or seen.pieces > NEAR]


def trim(lot: Lot, event: Event) -> None:
    cut_off(lot, event, event.body)


def cut_off(lot: Lot, event: Event, body: Body) -> None:
    """F8: part of some pieces cut off lowers grams, never pieces; without a weight it is only noted."""
    cut: Body = body["cut"]
    grams: Maybe = cut.get("grams")
    lot.rows.append(Row(event, cut["step"], None, grams, cut, body["findings"]))
    if lot.own_measure == "grams" and grams is None:
        lot.counted_well = False
    if grams is not None and lot.grams is not None:
        lot.lower(0.0, grams)
