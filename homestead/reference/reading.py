"""Reads one table into typed rows: a dataclass is the table's header, its field types are the columns'
types."""

from __future__ import annotations

import csv
import dataclasses
import types
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints


class TableError(Exception):
    """A table that can't be read. Names file, line and column, so that the place is found at once."""

    def __init__(self, file: Path, line: int, column: str, why: str) -> None:
        super().__init__(f"{file.name}, line {line}, column {column}: {why}")
        self.file, self.line, self.column, self.why = file, line, column, why


@dataclasses.dataclass(frozen=True, kw_only=True)
class TableRow:
    """What every row ends in, and the line it stands on (the header is line 1)."""

    source: str
    source_where: str
    evidence: str
    notes: str
    line: int


R = TypeVar("R", bound=TableRow)


def _one_of(words: tuple[str, ...]) -> Callable[[str], str]:
    def read(text: str) -> str:
        if text not in words:
            raise ValueError(f"{text!r} is none of {', '.join(words)}")
        return text

    return read


class Ids(tuple[str, ...]):
    """Ids in one cell, parted by blanks."""

    @classmethod
    def read(cls, text: str) -> Ids:
        return cls(text.split())


class Names(tuple[str, ...]):
    """Words in one cell, parted by `; `."""

    @classmethod
    def read(cls, text: str) -> Names:
        return cls(part.strip() for part in text.split(";") if part.strip())


def _yes_no(text: str) -> bool:
    if text not in ("yes", "no"):
        raise ValueError(f"{text!r} is neither yes nor no")
    return text == "yes"


_READERS: dict[Any, Callable[[str], Any]] = {
    str: str,
    int: int,
    float: float,
    bool: _yes_no,
    Ids: Ids.read,
    Names: Names.read,
}


def _reader(hint: Any) -> Callable[[str], Any]:
    """How a column of this type is read; an empty cell of an optional column is None."""
    if get_origin(hint) in (Union, types.UnionType):
        inner = _reader(next(arg for arg in get_args(hint) if arg is not types.NoneType))
        return lambda text: inner(text) if text else None
    if get_origin(hint) is Literal:
        return _one_of(get_args(hint))
    return _READERS[hint]


def columns_of(row_type: type[TableRow]) -> list[str]:
    """The table's columns in order: its own, then where each row is from."""
    own = [f.name for f in dataclasses.fields(row_type) if f.name not in _LAST and f.name != "line"]
    return own + _LAST


_LAST = ["source", "source_where", "evidence", "notes"]


def read_rows(file: Path, row_type: type[R]) -> tuple[R, ...]:
    """All rows of a file. Raises TableError at the first cell that doesn't fit."""
    return tuple(_rows(file, row_type))


def _rows(file: Path, row_type: type[R]) -> Iterator[R]:
    columns = columns_of(row_type)
    hints = get_type_hints(row_type)
    readers = [(column, _reader(hints[column])) for column in columns]
    with file.open(encoding="utf-8", newline="") as text:
        lines = csv.reader(text, strict=True)
        header = next(lines, [])
        if sorted(header) != sorted(columns):
            amiss = sorted(set(header) ^ set(columns)) or ["a column twice"]
            raise TableError(file, 1, ", ".join(amiss), "the header has not the columns of this table")
        for cells in lines:
            if len(cells) != len(header):
                raise TableError(file, lines.line_num, "all", f"{len(cells)} cells for {len(header)} columns")
            yield _row(file, lines.line_num, dict(zip(header, cells, strict=True)), readers, row_type)


def _row(
    file: Path,
    line: int,
    cells: dict[str, str],
    readers: list[tuple[str, Callable[[str], Any]]],
    row_type: type[R],
) -> R:
    values: dict[str, Any] = {"line": line}
    for column, read in readers:
        try:
            values[column] = read(cells[column])
        except ValueError as misfit:
            raise TableError(file, line, column, str(misfit)) from misfit
    return row_type(**values)
