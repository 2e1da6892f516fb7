"""One push: read, judged line by line, written, and a receipt for each line in its order."""

from __future__ import annotations

import datetime as dt
import logging
import uuid
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from django.db import DatabaseError, transaction

from homestead.household.models import Household
from homestead.ledger.books import Books, open_books
from homestead.ledger.envelope import when_of
from homestead.ledger.followers import Follower, Touched, followers, followers_after_commit
from homestead.ledger.gate import Author, Gate
from homestead.ledger.keeping import keep_derived, keep_lines
from homestead.ledger.kinds import Refused
from homestead.ledger.page import Item, Page
from homestead.ledger.reading import Candidate, EditContent

logger = logging.getLogger(__name__)


@dataclass(frozen=True)
class Receipt:
    """What became of one pushed line. `result` is accepted, duplicate or refused."""

    id: str | None
    result: str
    seq: int | None = None
    code: str | None = None
    message: str | None = None
    permanent: bool | None = None
    facts: Mapping[str, Any] = field(default_factory=dict)
    conflicts: tuple[Mapping[str, Any], ...] = ()
    rev: int | None = None


def refusal(given_id: str | None, problem: Refused) -> Receipt:
    return Receipt(
        given_id,
        "refused",
        code=problem.code,
        message=problem.message,
        permanent=problem.permanent,
        facts=problem.facts,
    )


NOT_SETTLED = Refused(
    "not_settled",
    "The server could not write this entry down. That is a fault of the program. It waits on the phone.",
    permanent=False,
)


class Posting:
    """A push being posted, inside the transaction that holds the household's lock."""

    def __init__(
        self, household: Household, batch: Sequence[Candidate], author: Author, now: dt.datetime
    ) -> None:
        self.now = now
        self.author = author
        self.books: Books = open_books(household, batch)
        self.gate = Gate(self.books, author, now)
        self.page = Page(self.books)
        self._batch = batch
        self._outcomes: list[Receipt | Item] = []

    def post(self, clock_skew_ms: int) -> list[Receipt]:
        """Judge and write every line; afterwards the ledger's tables are kept and followers told."""
        for candidate in self._batch:
            self._outcomes.append(self._take(candidate, clock_skew_ms))
        self.page.flush()
        if self.page.written:
            keep_lines(self.books.household, self.page.written)
            keep_derived(self.books.household, self.page)
            self.books.household.save(update_fields=["next_seq", "next_code"])
            tell_followers(self.page.touched())
        return [
            self._receipt(candidate, outcome)
            for candidate, outcome in zip(self._batch, self._outcomes, strict=True)
        ]

    def _take(self, candidate: Candidate, clock_skew_ms: int) -> Receipt | Item:
        try:
            known = self._known(candidate)
            if known is not None:
                return known
            if candidate.problem:
                raise candidate.problem
            return self._admit(candidate, clock_skew_ms)
        except Refused as problem:
            return self._refuse(candidate, problem)
        except DatabaseError:
            raise
        except Exception:
            logger.exception("A line could not be judged.")
            return self._refuse(candidate, NOT_SETTLED)

    def _refuse(self, candidate: Candidate, problem: Refused) -> Receipt:
        if candidate.pushed.id:
            self.gate.refused[candidate.pushed.id] = problem.permanent
        if isinstance(candidate.content, EditContent):
            self.gate.refused.setdefault(candidate.content.record, problem.permanent)
        return refusal(candidate.pushed.given_id, problem)

    def _known(self, candidate: Candidate) -> Receipt | None:
        """A line that is here already, or never may be, is judged no further."""
        pushed = candidate.pushed
        if pushed.id is None or pushed.hash is None:
            return None
        if pushed.id in self.books.erased:
            raise Refused("erased", "This line was erased by the household. It is not taken again.")
        if pushed.id not in self.books.lines:
            return None
        self.page.flush()
        known = self.books.lines.get(pushed.id)
        if known is None:
            return None
        if known.hash != pushed.hash:
            sentence = "Another line has this id already. Write it anew, under an id of its own."
            raise Refused("id_reused", sentence, seq=known.seq)
        return Receipt(pushed.given_id, "duplicate", seq=known.seq)

    def _admit(self, candidate: Candidate, clock_skew_ms: int) -> Item:
        pushed, content = candidate.pushed, candidate.content
        assert pushed.line is not None
        assert content is not None
        envelope, recovered = pushed.line.envelope, pushed.recovered
        own = envelope.device == self.author.device
        item = Item(
            line=pushed.line,
            content=content,
            received_at=self.now,
            clock_skew_ms=recovered.clock_skew_ms if recovered else clock_skew_ms,
            recovered_by=self.author.device if recovered and not own else None,
        )
        if isinstance(content, EditContent):
            self.page.flush()
            self.gate.check_edit(pushed.line, content, recovered is not None)
            self.page.take_edit(item)
            return item
        told = self.page.tell(item)
        when = when_of(envelope.happened_at, envelope.dated, item.clock_skew_ms)
        self.gate.check_entry(pushed.line, content, when, recovered is not None)
        told.kind.check(told.entry)
        self.page.take_entry(item)
        return item

    def _receipt(self, candidate: Candidate, outcome: Receipt | Item) -> Receipt:
        if isinstance(outcome, Receipt):
            return outcome
        if outcome.failed:
            return refusal(candidate.pushed.given_id, NOT_SETTLED)
        merged = outcome.described.merged if outcome.described else None
        edited = merged if isinstance(outcome.content, EditContent) else None
        return Receipt(
            candidate.pushed.given_id,
            "accepted",
            seq=outcome.seq,
            conflicts=tuple(dict(one) for one in edited.conflicts) if edited else (),
            rev=edited.rev if edited else None,
        )

    def copied_store(self) -> bool:
        """Did a line of this phone bear a number that another line of it has? Then its store was copied."""
        envelopes = [candidate.pushed.line.envelope for candidate in self._batch if candidate.pushed.line]
        return any(
            self.books.number_was_taken(one.device, one.device_no, one.id)
            for one in envelopes
            if one.device == self.author.device and one.id in self.books.lines
        )


def lock(household: uuid.UUID) -> Household:
    """The household's row, locked to the end of the transaction: whoever holds it gives the numbers.

    On SQLite the transaction itself has the only write lock (BEGIN IMMEDIATE).
    """
    return Household.objects.select_for_update().get(pk=household)


def tell_followers(touched: Touched, *, after_commit: bool = True) -> None:
    for follower in followers():
        follower(touched)
    for later in followers_after_commit() if after_commit else ():
        transaction.on_commit(_telling(later, touched), robust=True)


def _telling(later: Follower, touched: Touched) -> Callable[[], None]:
    """A function with a name: what Django logs of a robust hook that failed asks for it."""

    def tell() -> None:
        later(touched)

    return tell
