"""Finds the ids a body or a record's fields refer to, from their `RefersTo` marks, however deep they lie."""

from __future__ import annotations

import types
import uuid
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel

from homestead.ledger.kinds import RefersTo, Thing


@dataclass(frozen=True)
class Reference:
    """An id named in `where` (dotted path), which must be a known `thing` of the household."""

    thing: Thing
    id: uuid.UUID
    where: str


Walk = Callable[[Any, str], Iterator[Reference]]


def references_in(model: BaseModel, where: str = "") -> Iterator[Reference]:
    """References that must exist; those with `must_exist` false are left out."""
    for name, alias, walk in _fields_of(type(model)):
        value = getattr(model, name)
        if value is not None:
            yield from walk(value, f"{where}.{alias}" if where else alias)


@cache
def _fields_of(model: type[BaseModel]) -> tuple[tuple[str, str, Walk], ...]:
    found = []
    for name, field in model.model_fields.items():
        walk = _walk_of(field.annotation, tuple(field.metadata))
        if walk:
            found.append((name, field.alias or name, walk))
    return tuple(found)


def _walk_of(annotation: Any, marks: Sequence[Any]) -> Walk | None:
    for mark in marks:
        if isinstance(mark, RefersTo):
            return _one(mark) if mark.must_exist else None
    origin, inner = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        return _walk_of(inner[0], inner[1:])
    if origin in (Union, types.UnionType):
        return _any_of([walk for part in inner if (walk := _walk_of(part, ()))])
    if origin in (list, tuple, Sequence, set, frozenset):
        each = _walk_of(inner[0], ())
        return _each(each) if each else None
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return _inside
    return None


def _one(mark: RefersTo) -> Walk:
    def walk(value: Any, where: str) -> Iterator[Reference]:
        if isinstance(value, uuid.UUID):
            yield Reference(mark.thing, value, where)

    return walk


def _each(inner: Walk) -> Walk:
    def walk(value: Any, where: str) -> Iterator[Reference]:
        for place, one in enumerate(value):
            yield from inner(one, f"{where}.{place}")

    return walk


def _any_of(walks: Sequence[Walk]) -> Walk | None:
    """Of a union each member is tried; those that do not fit find nothing."""

    def walk(value: Any, where: str) -> Iterator[Reference]:
        for one in walks:
            yield from one(value, where)

    return walk if len(walks) > 1 else walks[0] if walks else None


def _inside(value: Any, where: str) -> Iterator[Reference]:
    if isinstance(value, BaseModel):
        yield from references_in(value, where)
