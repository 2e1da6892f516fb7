"""Numbers that do not fit their unit: a low above its high, a share over 100 %, a month that is none."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator

from homestead.reference.amiss import Amiss
from homestead.reference.reading import TableRow
from homestead.reference.tables import ROW_TYPES, Tables

#: column endings and the range their numbers lie in; the first that fits the column's name holds
RANGES: tuple[tuple[str, float, float], ...] = (
    ("_c", -40, 60),
    ("_pct", 0, 100),
    ("_pct_low", 0, 100),
    ("_pct_high", 0, 100),
    ("temp_low_c", -40, 60),
    ("_month", 1, 12),
    ("_factor", 0, 10),
    ("_days", 0, 4000),
    ("days", 1, 4000),
    ("_g_low", 0, 50_000),
    ("_g_high", 0, 50_000),
    ("_g", 0, 50_000),
    ("minutes", 0, 2000),
    ("_low", 0, 500_000),
    ("_high", 0, 500_000),
)

ANIMAL_UNITS = (
    *("g", "g/day", "kg", "kg/day", "l/day", "%", "% of dry matter", "% of best month", "% of live weight"),
    *("% of best", "% of first year", "% of diet", "eggs", "h", "h/day", "weeks", "minutes"),
    *("g per egg (mean of the dozen)", "times feed weight", "times dry matter"),
    *("ml/day per kg live weight", "g/day per kg live weight"),
)
YIELD_UNITS = ("", "kg prepared per kg dry", "US quart (0.95 L)", "US pint (0.47 L)")

_NUMBER = r"\d+(\.\d+)?"
#: a figure, a range with its usual value, several at as many temperatures
_SPREAD = re.compile(rf"(about |upper )?{_NUMBER}( ?[-/] ?{_NUMBER})*( \({_NUMBER}\))?( .*|;.*)?")


def unfit(tables: Tables) -> Iterator[Amiss]:
    """Every number stands in its unit's range, and no low above its high."""
    for table, row_type in ROW_TYPES.items():
        columns = [field.name for field in dataclasses.fields(row_type)]
        for row in tables.rows(table):
            yield from _out_of_range(table, row, columns)
            yield from _low_above_high(table, row, columns)
    yield from _units(tables)


def _out_of_range(table: str, row: TableRow, columns: list[str]) -> Iterator[Amiss]:
    for column in columns:
        value = getattr(row, column)
        if isinstance(value, bool) or not isinstance(value, int | float) or column == "line":
            continue
        for ending, low, high in RANGES:
            if column.endswith(ending):
                if not low <= value <= high:
                    yield Amiss("unit", table, row.line, column, f"{value} is outside {low} to {high}")
                break


def _low_above_high(table: str, row: TableRow, columns: list[str]) -> Iterator[Amiss]:
    for column in columns:
        other = column.replace("low", "high")
        if other == column or other not in columns:
            continue
        low, high = getattr(row, column), getattr(row, other)
        if low is not None and high is not None and low > high:
            yield Amiss("unit", table, row.line, column, f"{low} is above {other}, {high}")


def _units(tables: Tables) -> Iterator[Amiss]:
    for animal in tables.animals:
        if animal.unit not in ANIMAL_UNITS:
            yield Amiss("unit", "animals", animal.line, "unit", f"{animal.unit!r} is no unit of this table")
    for preserve in tables.preserve_yields:
        if preserve.unit not in YIELD_UNITS:
            yield Amiss(
                "unit", "preserve_yields", preserve.line, "unit", f"{preserve.unit!r} is none of ours"
            )
    for material in tables.compost_materials:
        for column in ("nitrogen_pct_dm", "c_to_n", "moisture_pct", "bulk_density_kg_m3"):
            text = getattr(material, column)
            if text and not _SPREAD.fullmatch(text):
                yield Amiss("unit", "compost_materials", material.line, column, f"{text!r} is no figure")
