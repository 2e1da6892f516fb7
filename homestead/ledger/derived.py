"""Which tables are worked out from the lines, so that `replay` can throw them away and make them again."""

from __future__ import annotations

from collections.abc import Iterable

from homestead.household.rows import OfHousehold

_tables: dict[type[OfHousehold], frozenset[str]] = {}


def register_tables(*models: type[OfHousehold], leave_out: Iterable[str] = ()) -> None:
    """Called from `AppConfig.ready`, tables that others point at first; they are cleared in reverse.

    `leave_out` names fields that may differ after a replay: counters of the database, moments of writing.
    A primary key that the database counts up is left out anyway.
    """
    for model in models:
        _tables[model] = frozenset(leave_out)


def derived_tables() -> dict[type[OfHousehold], frozenset[str]]:
    return dict(_tables)
