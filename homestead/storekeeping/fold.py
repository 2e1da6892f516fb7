"""Entries to stock: the fold (docs/fold.md). Pure, whatever the order of arrival.

Twin: `frontend/src/storekeeping/fold.ts`.

    folded = fold_all(lines, setting)          # everything held
    touched = fold_on(folded, line)            # one line more, or changed; lots whose state may differ
    lot_at(folded, lot_id, today)              # one lot, as plain JSON
    state_at(folded, today)                    # all of it, as plain JSON

`today` is a day of the household, `YYYY-MM-DD`: what hangs on it (presumed, edible) is worked out on asking.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from homestead.storekeeping.state import FoldState, Line, LotRecord, LotState, Setting, Went


class Folded:
    """All entries held and the lots made of them. Ask by the functions below; write nothing in it."""

    setting: Setting


def lot_ids(folded: Folded) -> Sequence[str]:
    """Lots that were born and stand, in order of birth."""
    raise NotImplementedError


def fold_all(lines: Iterable[Line], setting: Setting) -> Folded:
    """Fold everything. Edits, unknown kinds, refused lines are left out; a line given twice counts once."""
    raise NotImplementedError


def fold_on(folded: Folded, line: Line) -> set[str]:
    """Add a line, or give a known one its `seq`, its skew or its refusal.

    Returns the ids of lots whose state may differ now. The result equals folding all.
    """
    raise NotImplementedError


def describe_lots(folded: Folded, lots: dict[str, LotRecord]) -> None:
    """The lots' records changed: nothing is folded again."""
    raise NotImplementedError


def lot_at(folded: Folded, lot: str, today: str) -> LotState | None:
    """One lot, None where no such lot stands."""
    raise NotImplementedError


def went_of(folded: Folded, lot: str) -> list[Went]:
    """What left a lot and where it went, in order."""
    raise NotImplementedError


def state_at(folded: Folded, today: str) -> FoldState:
    """All lots, tallies, chores and claims."""
    raise NotImplementedError


def moment_of(line: Line, zone: str) -> tuple[int, str]:
    """`when` [ms since 1970, UTC] and day of a line (F1): for the server's tables and the screens too."""
    raise NotImplementedError
