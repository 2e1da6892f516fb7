"""Strikes: which entries count. An entry counts when no counting strike names it.

A strike is an entry too, so striking a strike brings the first back. The order of arrival does not matter.
"""

from __future__ import annotations

import uuid
from collections import defaultdict
from collections.abc import Iterable, Iterator
from typing import Annotated

from pydantic import Field

from homestead.household.roles import EVERYONE
from homestead.ledger.kinds import Body, Entry, EntryKind, Maybe, Refused, Sentence, register
from homestead.ledger.models import Line

LONGEST_CHAIN = 40


class Strike(Body):
    """Why an entry is struck out, if anyone said."""

    why: Maybe[Annotated[str, Field(min_length=1, max_length=500)]] = None


class StrikeKind(EntryKind[Strike]):
    name = "strike"
    body = Strike
    roles = EVERYONE

    def say(self, entry: Entry[Strike]) -> Sentence:
        why = entry.body.why
        facts = {"strikes": str(entry.strikes)} | ({"why": why} if why else {})
        return Sentence("strike", f"Struck out: {why}." if why else "Struck out.", facts)


class Strikes:
    """The strikes of a household that bear on some entries, as edges strike -> struck."""

    def __init__(self) -> None:
        self._struck: dict[uuid.UUID, uuid.UUID] = {}
        self._by: defaultdict[uuid.UUID, set[uuid.UUID]] = defaultdict(set)

    def add(self, strike: uuid.UUID, struck: uuid.UUID) -> None:
        self._struck[strike] = struck
        self._by[struck].add(strike)

    def drop(self, strike: uuid.UUID) -> None:
        """Forget a strike that could not be written."""
        struck = self._struck.pop(strike, None)
        if struck is not None:
            self._by[struck].discard(strike)

    def counts(self, entry: uuid.UUID) -> bool:
        return not any(self.counts(strike) for strike in self._by.get(entry, ()))

    def chain(self, struck: uuid.UUID) -> Iterator[uuid.UUID]:
        """What a strike of `struck` bears on: it, what that strikes if it is a strike, and so on."""
        at: uuid.UUID | None = struck
        while at is not None:
            yield at
            at = self._struck.get(at)

    def check(self, strike: uuid.UUID, struck: uuid.UUID) -> None:
        """Raise `Refused` for a strike that closes a ring, or makes a chain longer than anyone follows."""
        below = list(self.chain(struck))
        if strike in below:
            raise Refused("strike_ring", "These strikes would strike each other out.", strikes=str(struck))
        if len(below) + self._height(strike) > LONGEST_CHAIN:
            raise Refused("strike_chain", f"More than {LONGEST_CHAIN} strikes in a row: write it anew.")

    def _height(self, entry: uuid.UUID) -> int:
        height, level = 0, {entry}
        while level:
            height, level = height + 1, {strike for one in level for strike in self._by.get(one, ())}
        return height

    def bearing_on(self, entries: Iterable[uuid.UUID]) -> set[uuid.UUID]:
        """All strikes that name the entries, or name one that does."""
        found: set[uuid.UUID] = set()
        frontier = set(entries)
        while frontier:
            frontier = {strike for entry in frontier for strike in self._by.get(entry, ())} - found
            found |= frontier
        return found


def load_strikes(
    household: uuid.UUID, new: Iterable[uuid.UUID], known: Iterable[uuid.UUID] = (), before: int | None = None
) -> Strikes:
    """Strikes connected with the lines, up and down the chain; one query where nothing is struck.

    `new` are not in the ledger yet, `known` may be. `before` leaves out lines with that seq and later ones.
    """
    lines = Line.rows.of(household).filter(strikes__isnull=False)
    if before is not None:
        lines = lines.filter(seq__lt=before)
    strikes, seen = Strikes(), set[uuid.UUID]()
    down = set(known)
    up = down | set(new)
    while up:
        seen |= up
        edges = list(lines.filter(strikes__in=up).values_list("uuid", "strikes"))
        if down:
            edges += lines.filter(uuid__in=down).values_list("uuid", "strikes")
        for strike, struck in edges:
            assert struck is not None
            strikes.add(strike, struck)
        up = down = {end for edge in edges for end in edge if end is not None} - seen
    return strikes


def register_strike() -> None:
    register(StrikeKind())
