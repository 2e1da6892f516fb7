"""One thing that is wrong with a table."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Amiss:
    """`code` is what kind of fault it is; `table`, `line` and `column` find the cell; `why` is for people."""

    code: str
    table: str
    line: int
    column: str
    why: str

    def __str__(self) -> str:
        return f"{self.table}.csv, line {self.line}, column {self.column}: {self.why} ({self.code})"
