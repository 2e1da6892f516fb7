"""Several writers at once, with a reader that follows by its cursor."""

from __future__ import annotations

import json
import random
import threading
import time
import uuid
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from typing import Any
from unittest import mock

import pytest
from django.db import DatabaseError, OperationalError, connection, transaction

from homestead.household.models import Household
from homestead.ledger import posting, reads
from homestead.ledger.followers import Touched
from tests import small_kinds
from tests.ledger.conftest import cellar, lot_in
from tests.lines import Family, make_family

pytestmark = pytest.mark.django_db(transaction=True)

WRITERS = 4
SECONDS = 3.0
#: transactions are held open so long after their numbers were given, as a slow disk would
HELD_MS = 10


@pytest.fixture
def family() -> Family:
    return make_family()


@contextmanager
def held_open(rng: random.Random) -> Iterator[None]:
    """Each push keeps its transaction open for a random while before it commits."""
    tell = posting.tell_followers

    def tell_and_wait(*args: Any, **kwargs: Any) -> None:
        tell(*args, **kwargs)
        time.sleep(rng.uniform(0, HELD_MS) / 1000)

    with mock.patch.object(posting, "tell_followers", tell_and_wait):
        yield


def at_once(*work: Callable[[], None]) -> list[BaseException]:
    """Run all in threads of their own, each with a connection of its own; returns what they raised."""
    raised: list[BaseException] = []

    def one(act: Callable[[], None]) -> None:
        try:
            act()
        except BaseException as failure:
            raised.append(failure)
        finally:
            connection.close()

    threads = [threading.Thread(target=one, args=(act,)) for act in work]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return raised


def test_a_reader_following_its_cursor_misses_nothing(family: Family) -> None:
    """hazard 2, hazard 32, invariant 6: 4 writers hold transactions 0 to 10 ms; none lost, none locked."""
    lot = lot_in(family, cellar(family))
    phones = [family.phone("adult") for _ in range(WRITERS)]
    until = time.monotonic() + SECONDS
    pushed: list[set[str]] = [set() for _ in phones]
    seen: list[tuple[int, str]] = []
    done = threading.Event()

    def write(place: int) -> None:
        rng = random.Random(place)
        while time.monotonic() < until:
            lines = [
                phones[place].write("looked", {"lot": lot, "count": 1}) for _ in range(rng.randint(1, 5))
            ]
            receipts = phones[place].push(*lines).receipts
            pushed[place] |= {str(one.id) for one in receipts if one.result == "accepted"}

    def read() -> None:
        after = 0
        last_round = False
        while True:
            page = reads.pull(Household.objects.get(pk=family.household.pk), 1, after)
            seen.extend((json.loads(row)["seq"], json.loads(row)["written"]["id"]) for row in page.rows)
            after = page.last
            if last_round and not page.rows:
                return
            last_round = done.is_set()

    with held_open(random.Random(1)):
        reader = threading.Thread(target=lambda: at_once(read))
        reader.start()
        raised = at_once(*(partial(write, place) for place in range(WRITERS)))
        done.set()
        reader.join()
    assert raised == []
    everything = set().union(*pushed)
    assert len(everything) > 50
    assert everything - {line for _, line in seen} == set()
    assert [seq for seq, _ in seen] == list(range(1, len(seen) + 1))


@pytest.fixture
def identity_table() -> Iterator[str]:
    """A table as one would make it without a counter: the database gives the numbers."""
    number = "bigint GENERATED ALWAYS AS IDENTITY" if connection.vendor == "postgresql" else "integer"
    with connection.cursor() as cursor:
        cursor.execute(f"CREATE TABLE numbered (seq {number} PRIMARY KEY, id varchar(36) NOT NULL)")
    yield "numbered"
    with connection.cursor() as cursor:
        cursor.execute("DROP TABLE numbered")


def test_numbers_given_without_the_households_lock_are_lost_to_a_reader(identity_table: str) -> None:
    """hazard 2: the same test on an identity column must lose rows, or the test above proves nothing.

    On SQLite a second writer cannot even begin (the file has one write lock), so there the numbers are taken
    before the transaction, as a counter outside the lock would be.
    """
    taken = iter(range(1, 10**9))
    until = time.monotonic() + SECONDS
    written: list[set[str]] = [set() for _ in range(WRITERS)]
    seen: set[str] = set()
    done = threading.Event()
    sqlite = connection.vendor == "sqlite"

    def write(place: int) -> None:
        rng = random.Random(place)
        while time.monotonic() < until:
            line = str(uuid.uuid4())
            number = next(taken)
            if sqlite:
                time.sleep(rng.uniform(0, HELD_MS) / 1000)
            with transaction.atomic(), connection.cursor() as cursor:
                if sqlite:
                    cursor.execute("INSERT INTO numbered (seq, id) VALUES (%s, %s)", [number, line])
                else:
                    cursor.execute("INSERT INTO numbered (id) VALUES (%s)", [line])
                    time.sleep(rng.uniform(0, HELD_MS) / 1000)
            written[place].add(line)

    def read() -> None:
        after, last_round = 0, False
        while True:
            with connection.cursor() as cursor:
                cursor.execute("SELECT seq, id FROM numbered WHERE seq > %s ORDER BY seq", [after])
                rows = cursor.fetchall()
            seen.update(line for _, line in rows)
            after = rows[-1][0] if rows else after
            if last_round and not rows:
                return
            last_round = done.is_set()

    reader = threading.Thread(target=lambda: at_once(read))
    reader.start()
    raised = at_once(*(partial(write, place) for place in range(WRITERS)))
    done.set()
    reader.join()
    assert raised == []
    assert set().union(*written) - seen


def test_one_household_does_not_wait_for_another(family: Family) -> None:
    """The lock is the household's own; on SQLite, where the file has one, both are written all the same."""
    other = make_family("Nether End")
    lots = [lot_in(one, cellar(one)) for one in (family, other)]
    order: list[str] = []
    first_is_in = threading.Event()
    tell = posting.tell_followers

    def wait_in_the_first(told: Touched, **more: Any) -> None:
        if told.household == family.household.pk:
            first_is_in.set()
            time.sleep(0.5)
        tell(told, **more)

    def push(house: Family, lot: str, name: str) -> None:
        if house is other:
            first_is_in.wait(5)
        phone = house.phones["adult"]
        phone.push(phone.write("looked", {"lot": lot, "count": 1}))
        order.append(name)

    with mock.patch.object(posting, "tell_followers", wait_in_the_first):
        slow, quick = partial(push, family, lots[0], "slow"), partial(push, other, lots[1], "quick")
        assert at_once(slow, quick) == []
        expected = ["quick", "slow"] if connection.vendor == "postgresql" else ["slow", "quick"]
    assert order == expected


def test_what_a_follower_raises_undoes_the_whole_push(family: Family) -> None:
    lot = lot_in(family, cellar(family))
    phone = family.phones["adult"]
    head = reads.head_of(family.household.pk)
    line = phone.write("looked", {"lot": lot, "count": 1})
    with (
        mock.patch.object(posting, "followers", return_value=(_fail,)),
        pytest.raises(RuntimeError, match="cannot fold"),
    ):
        phone.push(line)
    assert reads.head_of(family.household.pk) == head
    [receipt] = phone.push(line).receipts
    assert (receipt.result, receipt.seq) == ("accepted", head + 1)


def _fail(*_: Any) -> None:
    raise RuntimeError("cannot fold")


def test_a_database_that_is_busy_is_no_fault_of_a_line(family: Family) -> None:
    """The push fails as a whole and is sent again; no line is refused for it."""
    lot = lot_in(family, cellar(family))
    phone = family.phones["adult"]
    with (
        mock.patch.object(small_kinds.Looked, "settle", side_effect=OperationalError("locked")),
        pytest.raises(DatabaseError),
    ):
        phone.push(phone.write("looked", {"lot": lot, "count": 1}))


def test_what_follows_a_commit_may_fail_without_harm(family: Family) -> None:
    lot = lot_in(family, cellar(family))
    phone = family.phones["adult"]
    called: list[int] = []
    both = (_fail, lambda told: called.append(told.head))
    with mock.patch.object(posting, "followers_after_commit", return_value=both):
        [receipt] = phone.push(phone.write("looked", {"lot": lot, "count": 1})).receipts
    assert receipt.result == "accepted"
    assert called == [receipt.seq]
