"""Merges an edit into a record, field by field. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, TypedDict


class Stand(TypedDict):
    """What last set a field. `when_ms` is the edit's time corrected by its skew, `no` its device_no."""

    rev: int
    when_ms: int
    device: str
    no: int
    person: str
    line: str
    at: str


class Conflict(TypedDict):
    """Two edits of one field: `standing` stands, `other` is in the history and shown once to both people."""

    field: str
    standing: Any
    other: Any
    other_edit: str
    other_person: str
    other_at: str
    standing_person: str


@dataclass(frozen=True)
class Edit:
    """An edit as far as merging asks. `base_rev` is the revision its writer had before them."""

    base_rev: int
    set: Mapping[str, Any]
    when_ms: int
    device: str
    no: int
    person: str
    line: str
    at: str

    def stand(self, rev: int) -> Stand:
        return {
            "rev": rev,
            "when_ms": self.when_ms,
            "device": self.device,
            "no": self.no,
            "person": self.person,
            "line": self.line,
            "at": self.at,
        }


@dataclass(frozen=True)
class Merged:
    """The record after the edit. `passed_over` are the fields whose value in the edit does not stand."""

    rev: int
    values: dict[str, Any]
    fields: dict[str, Stand]
    passed_over: frozenset[str]
    conflicts: tuple[Conflict, ...]


def merge(rev: int, values: Mapping[str, Any], fields: Mapping[str, Stand], edit: Edit) -> Merged:
    """Each field by itself, whatever the order of arrival of edits of other fields.

    A field untouched since `base_rev`: the edit sets it. Set to the same value: nothing to do. Set by the
    same phone: the later of its own edits stands, silently. Set by another: the later edit stands (on a tie
    that of the higher device id), the other is a conflict. A `base_rev` beyond `rev` counts as `rev`: after
    a restore from a backup phones know revisions that the server does not.
    """
    base, new_rev = min(edit.base_rev, rev), rev + 1
    new_values, new_fields = dict(values), dict(fields)
    passed_over: set[str] = set()
    conflicts: list[Conflict] = []
    for field, value in edit.set.items():
        stand = fields.get(field)
        if stand is not None and stand["rev"] > base and values.get(field) != value:
            later = _is_later(edit, stand)
            if edit.device != stand["device"]:
                conflicts.append(_conflict(field, values.get(field), stand, value, edit, later))
            if not later:
                passed_over.add(field)
                continue
        elif stand is not None and stand["rev"] > base and not _is_later(edit, stand):
            continue
        new_values[field] = value
        new_fields[field] = edit.stand(new_rev)
    return Merged(new_rev, new_values, new_fields, frozenset(passed_over), tuple(conflicts))


def _is_later(edit: Edit, stand: Stand) -> bool:
    if edit.device == stand["device"]:
        return edit.no > stand["no"]
    return (edit.when_ms, edit.device) > (stand["when_ms"], stand["device"])


def _conflict(field: str, old: Any, stand: Stand, new: Any, edit: Edit, new_stands: bool) -> Conflict:
    if new_stands:
        standing, other, loser = new, old, stand
    else:
        standing, other, loser = old, new, edit.stand(0)
    return {
        "field": field,
        "standing": standing,
        "other": other,
        "other_edit": loser["line"],
        "other_person": loser["person"],
        "other_at": loser["at"],
        "standing_person": edit.person if new_stands else stand["person"],
    }
