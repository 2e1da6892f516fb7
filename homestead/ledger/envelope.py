"""Reads a line as a phone wrote it: shape, numbers, canonical text (RFC 8785) and its hash (SHA-256).

Nothing here asks the database, so that it is done before the household's lock is taken.
"""

from __future__ import annotations

import datetime as dt
import hashlib
import json
import re
import uuid
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Literal

import rfc8785
from pydantic import AfterValidator, AwareDatetime, BaseModel, ConfigDict, Field, ValidationError

from homestead.ledger.kinds import Id, Maybe, PersonId, Refused, leave_out_defaults
from homestead.ledger.misfits import refusal_of

#: a line may be so long in its canonical text
LONGEST_LINE = 64_000
DEEPEST = 12
EDIT = "edit"
STRIKE = "strike"

_MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,3})?(Z|[+-]\d\d:\d\d)")
_UUID = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")
_BROKEN = re.compile("[\x00\ud800-\udfff]")
_YEARS = range(1900, 2200)
#: no clock is farther off than those years are long
FARTHEST_MS = 10_000_000_000_000


def _within_years(moment: dt.datetime) -> dt.datetime:
    if moment.year not in _YEARS:
        raise ValueError(f"the year {moment.year} is not one a calendar on a wall has")
    return moment


Sha256 = Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
Moment = Annotated[AwareDatetime, AfterValidator(_within_years)]


class Said(BaseModel):
    """What every line says about itself, whatever it tells."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, json_schema_extra=leave_out_defaults)

    id: Id = Field(description="UUIDv7 (RFC 9562) made on the phone; it shows when, it is no order")
    household: Id
    device: Id
    device_no: int = Field(ge=1, lt=1_000_000_000, description="1, 2, 3 ... on one phone, never back")
    person: PersonId = Field(description="who wrote it")
    with_: Maybe[tuple[PersonId, ...]] = Field(
        default=None, alias="with", max_length=20, description="others who were there"
    )
    schema_: int = Field(alias="schema", ge=1, le=1000)
    happened_at: Moment = Field(description="with offset; at most milliseconds")
    dated: Literal["clock", "person"] = Field(
        description="by the phone's clock, or a day the person named (then 12:00)"
    )
    photos: Maybe[tuple[Sha256, ...]] = Field(default=None, max_length=6, description="SHA-256 of each photo")


class Envelope(Said):
    """A line as far as the ledger itself reads it; the body is its kind's."""

    kind: str = Field(max_length=40, pattern=r"^[a-z][a-z0-9_]*$")
    body: dict[str, Any]
    strikes: Maybe[Id] = Field(default=None, description="the entry struck out; of kind strike only")


class Recovered(BaseModel):
    """A line brought back after a reset: it keeps the skew it first had, so nothing changes place."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)

    clock_skew_ms: int = Field(
        ge=-FARTHEST_MS, le=FARTHEST_MS, description="server less phone [ms], as pulled the first time"
    )


@dataclass(frozen=True)
class ReadLine:
    """A line whose shape is right. `text` is canonical, `hash` its SHA-256 in hex."""

    envelope: Envelope
    text: str
    hash: str


@dataclass(frozen=True)
class Pushed:
    """One item of a push, read as far as it could be; `problem` says why not further."""

    given_id: str | None
    id: uuid.UUID | None = None
    hash: str | None = None
    line: ReadLine | None = None
    recovered: Recovered | None = None
    problem: Refused | None = None


def canonical(value: Any) -> bytes:
    """RFC 8785 canonical JSON, as UTF-8."""
    return rfc8785.dumps(value)


def body_hash(written: Mapping[str, Any]) -> str:
    """SHA-256 (FIPS 180-4) in hex over the canonical JSON of all the phone wrote."""
    return hashlib.sha256(canonical(written)).hexdigest()


def is_plain(value: Any) -> bool:
    """Does `check_plain` let it through? Looked at level by level, which is quick: almost all is plain."""
    level, depth = [value], 0
    while level:
        if depth > DEEPEST:
            return False
        texts: list[str] = []
        deeper: list[Any] = []
        for one in level:
            if isinstance(one, str):
                texts.append(one)
            elif isinstance(one, dict):
                texts.extend(one)
                deeper.extend(one.values())
            elif isinstance(one, list):
                deeper.extend(one)
            elif isinstance(one, int | float) and not isinstance(one, bool) and _too_fine(one):
                return False
        if _BROKEN.search("".join(texts)):
            return False
        level, depth = deeper, depth + 1
    return True


def check_plain(value: Any, where: str = "", depth: int = 0) -> None:
    """Raise `Refused` for what two languages would not write alike, or no database keeps.

    Numbers are below 1e9 with at most 3 decimals; text has no NUL and no half characters.
    """
    if depth > DEEPEST:
        raise Refused("too_deep", f"The line is nested deeper than {DEEPEST} levels.", where=where)
    if isinstance(value, dict):
        for name, inner in value.items():
            _check_text(name, where)
            check_plain(inner, f"{where}.{name}" if where else name, depth + 1)
    elif isinstance(value, list):
        for place, inner in enumerate(value):
            check_plain(inner, f"{where}.{place}", depth + 1)
    elif isinstance(value, str):
        _check_text(value, where)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        _check_number(value, where)


def _check_text(text: str, where: str) -> None:
    if _BROKEN.search(text):
        raise Refused("text", f"The text in {where or 'a field name'} has a broken character.", where=where)


def _check_number(number: float, where: str) -> None:
    if _too_fine(number):
        sentence = f"The number in {where} is not below 1,000,000,000 with at most 3 decimals."
        raise Refused("number", sentence, where=where)


def _too_fine(number: float) -> bool:
    return not abs(number) < 1e9 or round(number, 3) != number


def read_pushed(raw: object) -> Pushed:
    """Read one item `{"written": {...}, "recovered"?: {...}}`; never raises."""
    written = raw.get("written") if isinstance(raw, dict) else None
    given = written.get("id") if isinstance(written, dict) else None
    given_id = given[:64] if isinstance(given, str) else None
    key = uuid.UUID(given_id) if given_id and _UUID.fullmatch(given_id) else None
    found_hash: str | None = None
    try:
        fits = isinstance(raw, dict) and not raw.keys() - {"written", "recovered"}
        if not fits or not isinstance(raw, dict) or not isinstance(written, dict):
            raise Refused("shape", "A pushed item is an object with the written line in it.", where="written")
        if not is_plain(written):
            check_plain(written)
        text = canonical(written)
        found_hash = hashlib.sha256(text).hexdigest()
        line = _read_line(written, text, found_hash)
        return Pushed(given_id, key, found_hash, line, _read_recovered(raw.get("recovered")))
    except Refused as problem:
        return Pushed(given_id, key, found_hash, problem=problem)


def _read_line(written: Mapping[str, Any], text: bytes, found_hash: str) -> ReadLine:
    if len(text) > LONGEST_LINE:
        raise Refused("too_large", f"The line is longer than {LONGEST_LINE} bytes.", most=LONGEST_LINE)
    happened_at = written.get("happened_at")
    if isinstance(happened_at, str) and not _MOMENT.fullmatch(happened_at):
        sentence = "The moment is not written like 2026-11-25T10:24:53.123+01:00."
        raise Refused("shape", sentence, where="happened_at")
    try:
        return ReadLine(Envelope.model_validate_json(text), text.decode(), found_hash)
    except ValidationError as misfit:
        raise refusal_of(misfit) from misfit


def _read_recovered(raw: object) -> Recovered | None:
    if raw is None:
        return None
    try:
        return Recovered.model_validate_json(json.dumps(raw))
    except ValidationError as misfit:
        raise refusal_of(misfit, "recovered") from misfit


def when_of(happened_at: dt.datetime, dated: str, clock_skew_ms: int) -> dt.datetime:
    """Fold F1: the phone's clock, corrected by a skew over 2 minutes unless a person named the day."""
    if dated == "clock" and abs(clock_skew_ms) > 120_000:
        return happened_at + dt.timedelta(milliseconds=clock_skew_ms)
    return happened_at
