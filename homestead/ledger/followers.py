"""Who is told when the ledger grew. Registered from `AppConfig.ready`; called in the order of registering."""

from __future__ import annotations

import uuid
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from homestead.ledger.kinds import Entry


@dataclass(frozen=True)
class Touched:
    """What one transaction changed in one household.

    `lots` are all whose fold may differ now: named, born, or touched by a strike of an older entry.
    `entries` are the new ones that count, `records` the records made or changed, as (type, id).
    """

    household: uuid.UUID
    head: int
    lots: frozenset[uuid.UUID]
    entries: tuple[Entry[Any], ...] = ()
    records: frozenset[tuple[str, uuid.UUID]] = frozenset()


Follower = Callable[[Touched], None]

_in_transaction: list[Follower] = []
_after_commit: list[Follower] = []


def follow(follower: Follower) -> None:
    """Call it in the push's transaction, after the typed tables are written: the store folds its lots there.

    What it raises undoes the whole push; the phones keep everything and try again.
    """
    _in_transaction.append(follower)


def follow_after_commit(follower: Follower) -> None:
    """Call it once the transaction is committed: jobs are queued there. What it raises is only logged."""
    _after_commit.append(follower)


def followers() -> tuple[Follower, ...]:
    return tuple(_in_transaction)


def followers_after_commit() -> tuple[Follower, ...]:
    return tuple(_after_commit)
