"""The feed's rows as phones get them, rendered once, when they are written."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any

from homestead.ledger.envelope import canonical


def stamp(moment: dt.datetime) -> str:
    """A moment as the wire has it: UTC, milliseconds."""
    return moment.astimezone(dt.UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def as_text(value: Any) -> str:
    return canonical(value).decode()


def render_line(
    seq: int,
    row: str,
    text: str,
    body_hash: str,
    received_at: dt.datetime,
    clock_skew_ms: int,
    outcome: Mapping[str, Any] | None,
) -> str:
    """A line as written, with what the server knows of it; `row` is entry or edit."""
    ending = f',"outcome":{as_text(outcome)}}}' if outcome else "}"
    return (
        f'{{"seq":{seq},"type":"{row}","written":{text},"body_hash":"{body_hash}",'
        f'"received_at":"{stamp(received_at)}","clock_skew_ms":{clock_skew_ms}{ending}'
    )


def render_sheet(seq: int, sheet: Mapping[str, Any]) -> str:
    return f'{{"seq":{seq},"type":"sheet","sheet":{as_text(sheet)}}}'
