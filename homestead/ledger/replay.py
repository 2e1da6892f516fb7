"""Works the typed tables, records and feed of a household out again from its lines, and says what differs."""

from __future__ import annotations

import json
import uuid
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django.db import models, transaction

from homestead.household.models import Household
from homestead.household.rows import OfHousehold
from homestead.ledger.books import Books
from homestead.ledger.derived import derived_tables
from homestead.ledger.entries import read_stored
from homestead.ledger.keeping import keep_derived
from homestead.ledger.models import Feed, Line, Sheet
from homestead.ledger.page import Item, Page
from homestead.ledger.posting import lock, tell_followers
from homestead.ledger.reading import EditContent, read_content

Rows = dict[str, dict[str, Any]]


@dataclass(frozen=True)
class Difference:
    """A row that replay makes otherwise. `kept` is what the table held, `worked_out` what the lines say."""

    table: str
    row: str
    kept: dict[str, Any] | None
    worked_out: dict[str, Any] | None

    def __str__(self) -> str:
        if self.kept is None:
            return f"{self.table} {self.row}: not kept, though the lines say {self.worked_out}"
        if self.worked_out is None:
            return f"{self.table} {self.row}: kept, though no line says so: {self.kept}"
        fields = sorted(name for name in self.kept if self.kept[name] != self.worked_out.get(name, object()))
        told = ", ".join(f"{name} {self.kept[name]!r} -> {self.worked_out.get(name)!r}" for name in fields)
        return f"{self.table} {self.row}: {told}"


def replay(household: uuid.UUID, *, check: bool) -> list[Difference]:
    """Throw the derived tables away, make them anew, tell what differed. `check`: and put everything back."""
    with transaction.atomic():
        locked = lock(household)
        before = {model: _dump(model, locked) for model in _tables()}
        for model in reversed(_tables()):
            _clear(model, locked)
        _write_again(locked)
        differences = [
            difference
            for model in _tables()
            for difference in _compare(model._meta.label_lower, before[model], _dump(model, locked))
        ]
        if check:
            transaction.set_rollback(True)
    return differences


def _tables() -> list[type[OfHousehold]]:
    return [*derived_tables(), Feed]


def _clear(model: type[OfHousehold], household: Household) -> None:
    """By plain DELETE: a cascade would take rows that are not worked out."""
    rows = _rows(model, household)
    rows._raw_delete(rows.db)


def _rows(model: type[OfHousehold], household: Household) -> models.QuerySet[Any]:
    """Of the feed all but its sheets, which jobs work out."""
    if model is Feed:
        return Feed.rows.of(household).exclude(seq__in=Sheet.rows.of(household).values("seq"))
    return model.rows.of(household)


def _write_again(household: Household) -> None:
    """As the lines came, one page for all: each is settled, none is judged."""
    books = Books(household)
    books.load_people()
    page = Page(books, replaying=True)
    for item in _items(household):
        if isinstance(item.content, EditContent):
            books.load_records([(item.content.type.name, item.content.record)])
            page.take_edit(item)
        else:
            page.tell(item)
            page.take_entry(item)
    page.flush()
    keep_derived(household, page)
    tell_followers(page.touched(), after_commit=False)


def _items(household: Household) -> Iterator[Item]:
    for line in Line.rows.of(household).order_by("seq").iterator(chunk_size=1000):
        read = read_stored(line)
        yield Item(
            line=read,
            content=read_content(read),
            received_at=line.received_at,
            clock_skew_ms=line.clock_skew_ms,
            recovered_by=line.recovered_by,
            given=json.loads(line.given) if line.given else {},
            seq=line.seq,
        )


def _dump(model: type[OfHousehold], household: Household) -> Rows:
    """Rows by what names them: the key where it is worked out, else all their fields."""
    left_out = derived_tables().get(model, frozenset())
    key = model._meta.pk
    counted = isinstance(key, models.AutoField)
    names = [field.attname for field in model._meta.concrete_fields if field.name not in left_out]
    if counted:
        names.remove(key.attname)
    found: Rows = {}
    seen: Counter[str] = Counter()
    for values in _rows(model, household).values(*names):
        name = _name_of(model, values) if counted else str(values[key.attname])
        seen[name] += 1
        found[name if seen[name] == 1 else f"{name} ({seen[name]})"] = values
    return found


def _name_of(model: type[OfHousehold], values: dict[str, Any]) -> str:
    """The fields of the table's first unique constraint; without one, all."""
    for constraint in model._meta.constraints:
        if isinstance(constraint, models.UniqueConstraint) and constraint.fields:
            names = [name for name in constraint.fields if name != "household"]
            return "/".join(str(values.get(name, values.get(f"{name}_id"))) for name in names)
    return json.dumps(values, default=str, sort_keys=True)


def _compare(table: str, kept: Rows, worked_out: Rows) -> Iterator[Difference]:
    for row in sorted(kept.keys() | worked_out.keys()):
        if kept.get(row) != worked_out.get(row):
            yield Difference(table, row, kept.get(row), worked_out.get(row))
