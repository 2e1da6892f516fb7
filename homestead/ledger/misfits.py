"""Turns a misfit found by pydantic into a refusal: a code for the phone, a sentence, and where it was."""

from __future__ import annotations

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from homestead.ledger.kinds import Refused


def refusal_of(misfit: ValidationError, inside: str = "") -> Refused:
    """The first misfit tells enough: one thing is mended at a time. `inside` names the part that was read."""
    first = misfit.errors(include_url=False, include_input=False)[0]
    where = ".".join(str(step) for step in ((inside,) if inside else ()) + first["loc"])
    told = first.get("ctx", {})
    if first["type"] == "wrong":
        return Refused(str(told["code"]), str(told["sentence"]), where=where)
    return Refused("shape", _sentence(first, where), where=where, misfit=first["type"])


def _sentence(first: ErrorDetails, where: str) -> str:
    place = where or "the line"
    if first["type"] == "missing":
        return f"The field {place} is missing: write it."
    if first["type"] == "extra_forbidden":
        return f"The field {place} is not known here: take it out."
    return f"The field {place} cannot be read: {first['msg']}."
