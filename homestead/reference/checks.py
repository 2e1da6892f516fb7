"""What is wrong with the tables, found by reading all of them together: sources, ids, units, contradictions.

`findings_in` is run by the tests and by whoever edits a table; each thing amiss names table, line and column.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from homestead.reference import contradictions, ids, units
from homestead.reference.amiss import Amiss
from homestead.reference.tables import ROW_TYPES, Tables

EVIDENCE = ("seen", "derived", "common practice", "memory")


def findings_in(tables: Tables) -> list[Amiss]:
    """All that is amiss, in the order of tables and lines; empty when the tables are in order."""
    checks: tuple[Callable[[Tables], Iterator[Amiss]], ...] = (
        sources,
        ids.unknown,
        units.unfit,
        contradictions.between,
    )
    return [amiss for check in checks for amiss in check(tables)]


def sources(tables: Tables) -> Iterator[Amiss]:
    """Every row says where it is from, and does not claim more than that."""
    for table in ROW_TYPES:
        for row in tables.rows(table):
            if not row.source or not row.source_where:
                yield Amiss("no_source", table, row.line, "source", "a row without source")
            if row.evidence not in EVIDENCE:
                yield Amiss("evidence", table, row.line, "evidence", f"{row.evidence!r} is no evidence")
            if row.evidence == "seen" and row.source_where in ("(memory)", "(no source)"):
                yield Amiss("claims_more", table, row.line, "evidence", "seen, yet no page is named")
