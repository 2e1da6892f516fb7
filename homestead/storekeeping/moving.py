"""How lots begin, move and are parted or put by (F5, F10, F15). Twin: `moving.ts`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from homestead.storekeeping.amounts import Maybe, filled, ratio_of, trimmed_shares
from homestead.storekeeping.counting import recount
from homestead.storekeeping.leaving import leave, trim_off
from homestead.storekeeping.lot import Lot, Origin, Row
from homestead.storekeeping.order import Event
from homestead.storekeeping.state import CropFigures, Measure

Body = Mapping[str, Any]


def own_measure_of(body: Body, count_measure: Measure) -> Measure:
    """The measure written; of both that in which the crop is counted."""
    if body.get("pieces") is not None and body.get("grams") is not None:
        return count_measure
    return "grams" if body.get("pieces") is None else "pieces"


def put_away_origin(event: Event, figures: Mapping[str, CropFigures]) -> Origin:
    body = event.body
    return _first_origin(
        event,
        figures.get(body["crop"], {}),
        variety=body.get("variety"),
        cures_until=body.get("cures_until"),
        curing=body.get("cures_until") is not None,
    )


def put_by_origin(event: Event, figures: Mapping[str, CropFigures]) -> Origin:
    body = event.body
    return _first_origin(
        event,
        figures.get(body["crop"], {}),
        label=body["label"],
        method=body["method"],
        keeps_until=body.get("keeps_until"),
    )


def _first_origin(
    event: Event,
    figures: CropFigures,
    *,
    variety: str | None = None,
    label: str | None = None,
    method: str | None = None,
    cures_until: str | None = None,
    curing: bool = False,
    keeps_until: str | None = None,
) -> Origin:
    """F5: the start of a lot that has no parent."""
    body = event.body
    piece_g: Maybe = figures.get("piece_g")
    pieces, grams = filled(body.get("pieces"), body.get("grams"), piece_g)
    count_measure: Measure = "grams" if figures.get("count_unit") == "kg" else "pieces"
    return Origin(
        birth=event,
        parent=None,
        crop=body["crop"],
        variety=variety,
        label=label,
        code=body.get("code"),
        method=method,
        space=body["space"],
        spot=body.get("spot"),
        pack=body.get("pack"),
        put_away_day=event.day,
        cures_until=cures_until,
        curing=curing,
        keeps_until=keeps_until,
        pieces=pieces,
        grams=grams,
        ratio=ratio_of(pieces, grams, piece_g),
        own_measure=own_measure_of(body, count_measure),
        counted=body.get("measured") != "guessed",
        count_measure=count_measure,
    )


def move(lot: Lot, event: Event) -> None:
    if event.body["all"]:
        _move_whole(lot, event)
    else:
        _move_part(lot, event)


def _move_whole(lot: Lot, event: Event) -> None:
    """The last one in order stands. Weighed or packed, curing is over; the first weighing tells the water."""
    body = event.body
    weighed = body.get("pieces") is not None or body.get("grams") is not None
    if weighed:
        recount(lot, event, body, "cured" if lot.curing else "unknown", by_water=lot.curing)
    if weighed or body.get("pack") is not None:
        lot.curing = False
    lot.space = body["space"]
    lot.spot = body.get("spot")
    lot.pack = body.get("pack", lot.pack)


def _move_part(lot: Lot, event: Event) -> None:
    """Leaves here and is born there, with the same past and this entry's id."""
    body = event.body
    ratio = lot.ratio
    pieces, grams = leave(lot, event, body, [])
    lot.rows.append(Row(event, "moved", pieces, grams))
    pack = body.get("pack")
    lot.parts[event.id] = lot.origin._replace(
        birth=event,
        parent=lot.origin.birth.id,
        code=body.get("code"),
        space=body["space"],
        spot=body.get("spot"),
        pack=lot.pack if pack is None else pack,
        curing=lot.curing and pack is None,
        pieces=pieces,
        grams=grams,
        ratio=ratio_of(pieces, grams, ratio),
        own_measure=own_measure_of(body, lot.origin.count_measure),
        counted=body.get("measured") != "guessed",
        standing=tuple((seen.event, seen.finding, seen.pieces, seen.looked) for seen in lot.standing),
    )


def put_by(lot: Lot, event: Event) -> None:
    """What this lot gave to a put-by; trimmings go their way, the rest is put by."""
    body = event.body
    froms, trimmed = body["from"], body.get("trimmed")
    shares = trimmed_shares(trimmed["grams"], froms) if trimmed else [0.0] * len(froms)
    for each, share in zip(froms, shares, strict=True):
        if each["lot"] != lot.origin.birth.id:
            continue
        ways = [{"grams": share}] if trimmed else []
        pieces, grams = leave(lot, event, each, ways, partly=True)
        rest = trim_off(lot, event, trimmed, share, grams) if trimmed else grams
        lot.rows.append(Row(event, "put_by", pieces, rest))


def set_aside(lot: Lot, event: Event) -> None:
    """F13: what is now kept for seed, 0 frees it. As written: the other measure follows the ratio later."""
    body = event.body
    lot.seed = body.get("pieces"), body.get("grams")
    if not any(lot.seed):
        lot.seed = 0.0, 0.0
    lot.seed_treated = body.get("treated", False)
