"""Amounts in words, for the sentences that tell what happened. Metric; the phone words them in its units."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel

from homestead.store.amounts import MaybeAmount


def weight(grams: float) -> str:
    """`850 g`, `2.4 kg`."""
    return f"{grams:g} g" if grams < 1000 else f"{grams / 1000:g} kg"


def number(pieces: float) -> str:
    return "1 piece" if pieces == 1 else f"{pieces:g} pieces"


def how_much(amount: MaybeAmount) -> str:
    """`40 pieces, 4 kg`; empty where nothing is told."""
    told = [] if amount.pieces is None else [number(amount.pieces)]
    if amount.grams is not None:
        told.append(weight(amount.grams))
    return ", ".join(told)


def facts(body: BaseModel, *left_out: str) -> dict[str, Any]:
    """The body's fields as on the wire, for a sentence made on the phone."""
    return body.model_dump(mode="json", by_alias=True, exclude_none=True, exclude=set(left_out))
