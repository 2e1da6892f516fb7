"""Sheets: what jobs worked out, each in the feed under its key, the newest only."""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from homestead.household.models import Household
from homestead.ledger.envelope import canonical
from homestead.ledger.feed import render_sheet, stamp
from homestead.ledger.models import Feed, Sheet

#: an unchanged sheet is written anew after so long, so that phones see that the jobs are alive
ANEW_AFTER = dt.timedelta(days=1)


@dataclass(frozen=True)
class SheetText:
    """What a job worked out. `as_of` is the ledger's seq it was worked out at.

    `inputs` name the versions of what it was worked out from. Both are JSON: numbers below 2**53, no NaN.
    """

    key: str
    kind: str
    as_of: int
    inputs: Mapping[str, Any]
    content: Mapping[str, Any]


def keep_sheet(household: Household, text: SheetText, now: dt.datetime) -> int | None:
    """Under the household's lock; the caller saves `next_seq`. None: unchanged and fresh enough."""
    content_hash = hashlib.sha256(canonical([text.inputs, text.content])).hexdigest()
    sheet = Sheet.rows.of(household).filter(key=text.key).first()
    if sheet and sheet.content_hash == content_hash and now - sheet.made_at < ANEW_AFTER:
        return None
    if sheet is None:
        sheet = Sheet(household=household, key=text.key)
    else:
        Feed.rows.of(household).filter(seq=sheet.seq).delete()
    sheet.seq, sheet.as_of, sheet.made_at = household.next_seq, text.as_of, now
    sheet.kind, sheet.content_hash = text.kind, content_hash
    sheet.inputs, sheet.content = dict(text.inputs), dict(text.content)
    sheet.save()
    household.next_seq += 1
    Feed.everywhere.create(household=household, seq=sheet.seq, payload=render_sheet(sheet.seq, told(sheet)))
    return sheet.seq


def told(sheet: Sheet) -> dict[str, Any]:
    """A sheet as phones get it."""
    return {
        "key": sheet.key,
        "kind": sheet.kind,
        "as_of": sheet.as_of,
        "made_at": stamp(sheet.made_at),
        "inputs": sheet.inputs,
        "content": sheet.content,
    }
