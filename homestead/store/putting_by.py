"""Asks the rule of putting by (docs/ladder.md, L14 and L16) before a put-by is written."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from homestead.ledger.kinds import Entry, Refused
from homestead.reference import rules
from homestead.store.bodies import PutBy, PutByFrom
from homestead.store.feeding import crop_of_lot, table_crop
from homestead.store.kin import fold_lots_until
from homestead.storekeeping.fold import lot_without_past
from homestead.storekeeping.putting_by import may_be_trimmed_off, may_put_by_of_lot

_REASONS = {
    "unsure": "Nobody could say what is on it, and what is doubtful is not put by",
    "spoilt": "Rot or mould was on it: what was cut clear is cooked and eaten, never put by",
    "patulin": "No bruised, mouldy or rotten fruit is put by: its poison outlives heat",
    "not_sound": "It is not sound enough to be put by",
    "not_known": "No table tells of it in this state, so it is not put by",
}


def check_put_by(entry: Entry[PutBy]) -> None:
    """Raise `Refused` `not_to_put_by` where the pieces, or what the fold knows of their lot, are not sound.

    What is known is what the server holds from before the entry; what comes in the same push is not judged.
    """
    trimmed = entry.body.trimmed
    cut_off = (trimmed.findings or ()) if trimmed else ()
    for one in entry.body.from_:
        crop = crop_of_lot(entry.household, one.lot)
        if crop is None:
            continue
        judged = table_crop(entry.household, crop)
        for answer in (may_be_trimmed_off(rules(), judged, cut_off), _of_lot(entry, one, judged)):
            if not answer["allowed"]:
                raise _refusal(answer, judged)


def _of_lot(entry: Entry[PutBy], one: PutByFrom, crop: str) -> Mapping[str, Any]:
    lot = lot_without_past(
        fold_lots_until(entry.household, [one.lot], entry.when), str(one.lot), entry.day.isoformat()
    )
    nothing: dict[str, Any] = {"pieces": None, "grams": None, "ratio": None, "standing": []}
    amount = {"pieces": one.pieces, "grams": one.grams}
    return may_put_by_of_lot(rules(), crop, one.findings, amount, lot or nothing)


def _refusal(answer: Mapping[str, Any], crop: str) -> Refused:
    return Refused(
        "not_to_put_by",
        f"{_REASONS[answer['code']]}. This entry was not taken: write what really became of it.",
        reason=answer["code"],
        crop=crop,
        rows=list(answer["rows"]),
    )
