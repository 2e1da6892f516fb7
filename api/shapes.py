"""Shapes of what is asked and answered, but for the lines themselves (`api.wire`). They make the OpenAPI."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Annotated, Any, Literal

from pydantic import AwareDatetime, BaseModel, ConfigDict, Field

from api.reading import Asked
from homestead.ledger.envelope import Moment
from homestead.ledger.kinds import Id, Maybe, leave_out_defaults
from homestead.ledger.own_records import HouseholdFields


class Told(BaseModel):
    """Base of what an answer holds."""

    model_config = ConfigDict(extra="forbid", json_schema_extra=leave_out_defaults)


Name = Annotated[str, Field(min_length=1, max_length=100)]


class Problem(Told):
    """Problem details (RFC 9457), with a code for the phone and the facts for a sentence."""

    type: str = Field(description="a URI that names the sort of problem", json_schema_extra={"format": "uri"})
    title: str
    status: int
    detail: str
    code: str
    facts: dict[str, Any]


class Codes(Told):
    """A block of lot numbers, both ends included. One that the phone has already says nothing new."""

    from_: int = Field(alias="from", ge=1)
    to: int = Field(ge=1)


class LetInHousehold(Told):
    id: uuid.UUID
    name: str
    demo: bool = Field(description="invented, and marked so wherever it is shown")


class LetInDevice(Told):
    id: uuid.UUID
    name: str
    people: list[uuid.UUID] = Field(description="who may write on it, the holder first")


class LetIn(Told):
    """The phone, its household and its first lot numbers. Its token is in the cookie, nowhere else."""

    household: LetInHousehold
    device: LetInDevice
    minder: bool = Field(description="a minder's phone, which pulls nothing")
    codes: Codes
    last_no: int = Field(description="highest device_no the server has seen of this device")
    epoch: int


class May(Told):
    """What this server allows this asker."""

    open_demo: bool
    found_household: bool = Field(description="without a key")


class Session(Told):
    """Who is asking. `let_in` is absent where nobody is signed in."""

    let_in: Maybe[LetIn] = None
    may: May
    now: AwareDatetime


class PairAsked(Asked):
    """A code typed on the phone that wants in."""

    code: Annotated[str, Field(min_length=1, max_length=40)]
    name: Name = Field(description="what the family calls this phone")


class FoundAsked(Asked):
    """One's own household. `key` is what the server's start printed; not needed on that computer itself."""

    household: HouseholdFields
    keeper: Name
    phone: Name
    key: Maybe[Annotated[str, Field(max_length=40)]] = None


class DemoAsked(Asked):
    name: Maybe[Name] = None


class Nothing(Asked):
    """No fields."""


class CodeAsked(Asked):
    """Who will write on the phone to be let in, its holder first."""

    people: Annotated[list[Id], Field(min_length=1, max_length=20)]


class NewCode(Told):
    """A pairing code: 8 characters, 10 minutes, one use."""

    code: str
    ends_at: AwareDatetime


class Device(Told):
    id: uuid.UUID
    name: str
    people: list[uuid.UUID]
    this_one: bool
    last_seen: AwareDatetime | None
    revoked_at: AwareDatetime | None
    signed_out: bool
    clock_skew_ms: int = Field(description="server less phone, at its last push [ms]")


class Devices(Told):
    devices: list[Device]


class PeopleAsked(Asked):
    """Who may write on the phone, its holder first."""

    people: Annotated[list[Id], Field(min_length=1, max_length=20)]


class Done(Told):
    done: Literal[True]


class NumbersLeft(Asked):
    """Lot numbers by the phone's own word."""

    left: int = Field(ge=0, description="that it can give still; those on blank labels are used up")
    to: int = Field(ge=0, description="the last it was given")


class PushAsked(Asked):
    """Lines in the order they were written. Each is judged by itself, so their shape is not judged here."""

    device: Id
    sent_at: Moment = Field(description="the phone's clock, from which its skew is measured")
    build: Annotated[str, Field(max_length=40)]
    codes: Maybe[NumbersLeft] = None
    lines: list[Any]


class PushConflict(Told):
    """Two edits of one field: `standing` stands, `other` was passed over."""

    field: str
    standing: Any
    other: Any
    other_edit: uuid.UUID
    other_person: uuid.UUID
    other_at: dt.datetime
    standing_person: uuid.UUID


class Receipt(Told):
    """What became of one line. `seq` with accepted and duplicate; `code` to `facts` with refused."""

    id: str | None = Field(description="the line's id; null where it gave none that could be read")
    result: Literal["accepted", "duplicate", "refused"]
    seq: Maybe[int] = None
    code: Maybe[str] = None
    message: Maybe[str] = None
    permanent: Maybe[bool] = None
    facts: Maybe[dict[str, Any]] = None
    conflicts: Maybe[list[PushConflict]] = None
    rev: Maybe[int] = Field(default=None, description="an edit: the record's revision now")


class Renewed(Told):
    """This phone's store is a copy of another's: it goes on as this device; its token is in the cookie."""

    device: uuid.UUID


class PushTold(Told):
    receipts: list[Receipt]
    codes: Codes
    renew: Maybe[Renewed] = None
    clock_skew_ms: int
    now: AwareDatetime


class MissingAsked(Asked):
    ids: Annotated[list[Id], Field(max_length=1000)]


class Missing(Told):
    """Which of the lines the server lacks, and which of them it has erased for ever."""

    missing: list[uuid.UUID]
    erased: list[uuid.UUID]
