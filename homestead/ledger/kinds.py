"""What an entry kind is: one class, in the room that owns it, registered once.

Registering gives it validation, push, OpenAPI schema and TypeScript type, change feed, replay, export and the
"what happened" sentence. The registry knows no room; rooms know the registry.
"""

from __future__ import annotations

import datetime as dt
import re
import uuid
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Annotated, Any, ClassVar, Generic, Literal, TypeVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, GetCoreSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError

Thing = Literal["lot", "space", "animals", "heap", "vessel", "suspect", "decision", "person", "round"]


@dataclass(frozen=True)
class RefersTo:
    """Marks a field whose id must be known in the same household: `Annotated[UUID, RefersTo("lot")]`.

    `must_exist` is false for a round, whose closing line may come later or never.
    """

    thing: Thing
    must_exist: bool = True


_SPELLING = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")


def _one_spelling(written: Any) -> Any:
    """The fold compares ids as text, so an id in capitals or without dashes would be another one there."""
    if isinstance(written, str) and not _SPELLING.fullmatch(written):
        raise PydanticCustomError("id", "An id is written in small letters with its four dashes.")
    return written


Id = Annotated[uuid.UUID, BeforeValidator(_one_spelling)]
LotId = Annotated[Id, RefersTo("lot")]
SpaceId = Annotated[Id, RefersTo("space")]
AnimalsId = Annotated[Id, RefersTo("animals")]
HeapId = Annotated[Id, RefersTo("heap")]
VesselId = Annotated[Id, RefersTo("vessel")]
SuspectId = Annotated[Id, RefersTo("suspect")]
DecisionId = Annotated[Id, RefersTo("decision")]
PersonId = Annotated[Id, RefersTo("person")]
RoundId = Annotated[Id, RefersTo("round", must_exist=False)]


class _Absent:
    """Takes null out of an optional field: on the wire a field is there or it is not."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        nullable = handler(source)
        inner: CoreSchema = nullable["schema"]
        return inner


T = TypeVar("T")
#: a field that may be absent, never null: `grams: Maybe[Grams] = None`
Maybe = Annotated[T | None, _Absent()]


def leave_out_defaults(schema: dict[str, Any]) -> None:
    """An absent field has no default in the schema, or generated types would call it always present."""
    for shape in schema.get("properties", {}).values():
        shape.pop("default", None)


class Body(BaseModel):
    """A body as written on the phone: an unknown field is refused, never dropped; nothing is coerced."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, json_schema_extra=leave_out_defaults)


B = TypeVar("B", bound=Body)


@dataclass(frozen=True)
class Entry(Generic[B]):
    """One thing that happened, as a kind sees it: the envelope read, the body typed, time corrected."""

    household: uuid.UUID
    id: uuid.UUID
    seq: int
    device: uuid.UUID
    device_no: int
    person: uuid.UUID
    kind: str
    schema: int
    happened_at: dt.datetime
    when: dt.datetime  # happened_at corrected by the clock's skew (fold F1)
    day: dt.date  # `when` in the household's zone
    body: B
    with_people: tuple[uuid.UUID, ...] = ()
    strikes: uuid.UUID | None = None
    photos: tuple[str, ...] = ()


class Refused(Exception):
    """The server does not write this line. `code` is for the phone, `facts` fill its sentence.

    `permanent` false means: keep it in the outbox and send it again (a reference may still arrive).
    """

    def __init__(self, code: str, message: str, *, permanent: bool = True, **facts: Any) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.permanent = permanent
        self.facts = facts


@dataclass(frozen=True)
class Sentence:
    """What happened, for people: a key into the word lists of the phone, its facts, and plain English."""

    key: str
    english: str
    facts: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class Beginning:
    """A record made by an entry. The type's code field left None is given a number by the ledger."""

    type: str
    record: uuid.UUID
    values: Mapping[str, Any]


class EntryKind(Generic[B]):
    """Base of every kind. Subclass, set the class fields, override what the kind needs, then `register`."""

    name: ClassVar[str]
    schema: ClassVar[int] = 1
    body: type[B]
    #: from an older schema to the next one; every schema ever released stays here
    upcasters: ClassVar[Mapping[int, Callable[[dict[str, Any]], dict[str, Any]]]] = {}
    #: roles that may push it, see `household.roles`
    roles: ClassVar[frozenset[str]] = frozenset({"keeper", "adult"})
    #: does it change what the fold says of a lot?
    changes_stock: ClassVar[bool] = False
    #: `check` must see the rows of the entry just before, even of the same kind (see `settle_all`)
    one_by_one: ClassVar[bool] = False

    def asks_switch(self, body: B) -> bool:
        """Does an older child need the person's switch for this one: a decision, something for animals?"""
        return False

    def lots(self, entry: Entry[B]) -> Iterable[uuid.UUID]:
        """Lots this entry touches, born ones included; each is folded again in the same transaction."""
        return ()

    def births(self, entry: Entry[B]) -> Iterable[tuple[Thing, uuid.UUID]]:
        """Things that exist from this entry on: a lot, a suspect, a decision."""
        return ()

    def begins(self, entry: Entry[B]) -> Beginning | None:
        """The record this entry makes, with its first values: a lot's code and variety."""
        return None

    def check(self, entry: Entry[B]) -> None:
        """Raise `Refused` for what shape and references cannot tell, such as a `never` feeding rule."""

    def settle(self, entry: Entry[B]) -> None:
        """Write this entry's rows in the typed tables. Called in the ledger's transaction."""

    def settle_all(self, entries: Sequence[Entry[B]]) -> None:
        """Settle entries of this kind that stand next to each other in a push; override to write in bulk.

        All of them were checked before the first is settled, unless the kind says `one_by_one`.
        """
        for entry in entries:
            self.settle(entry)

    def undo(self, entry: Entry[B]) -> None:
        """Take those rows away again: the entry is struck out.

        A row that other entries may name (a lot, a suspect, a decision) stays and is marked as not counting.
        An entry struck before it arrived is settled and undone at once.
        """

    def say(self, entry: Entry[B]) -> Sentence:
        """One sentence for people."""
        raise NotImplementedError


_kinds: dict[str, EntryKind[Any]] = {}


def register(kind: EntryKind[Any]) -> None:
    """Called once a kind, from the owning room's `AppConfig.ready`."""
    if kind.name in _kinds:
        raise ValueError(f"The entry kind {kind.name!r} is registered twice.")
    _kinds[kind.name] = kind


def kind_named(name: str) -> EntryKind[Any] | None:
    return _kinds.get(name)


def all_kinds() -> Mapping[str, EntryKind[Any]]:
    return dict(sorted(_kinds.items()))
