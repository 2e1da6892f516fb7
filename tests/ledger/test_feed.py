"""The feed: what is pulled behind a cursor, and the sheets in it."""

from __future__ import annotations

import datetime as dt
import json
import uuid

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from homestead.household.errors import CannotDo
from homestead.household.models import Household
from homestead.ledger.actions import Sheet, begin_epoch, drop_sheets, write_sheet, write_sheets
from homestead.ledger.reads import FeedPage, head_of, pull, sheets_of
from tests.lines import NOW, Family

DAY = dt.timedelta(days=1)


def page(family: Family, after: int = 0, limit: int = 500, epoch: int = 1) -> FeedPage:
    return pull(Household.objects.get(pk=family.household.pk), epoch, after, limit)


def seqs(got: FeedPage) -> list[int]:
    return [json.loads(row)["seq"] for row in got.rows]


def sheet(key: str = "roster/cellar", content: int = 1) -> Sheet:
    return Sheet(key, "roster", as_of=3, inputs={"tables": "a"}, content={"days": content})


def test_rows_before_and_after_any_cursor_are_all_rows(family: Family, lot: str) -> None:
    """invariant 6"""
    whole = seqs(page(family))
    assert whole == list(range(1, head_of(family.household.pk) + 1))
    for cursor in range(len(whole) + 1):
        assert whole[:cursor] + seqs(page(family, cursor)) == whole


def test_pages_follow_each_other_to_the_head(family: Family, lot: str) -> None:
    found, after = [], 0
    while True:
        got = page(family, after, limit=3)
        assert len(got.rows) <= 3
        found += seqs(got)
        after = got.last
        if not got.more:
            break
    assert found == seqs(page(family))
    assert after == got.head == found[-1]


def test_a_pull_is_one_look_in_the_index(family: Family, lot: str) -> None:
    household = Household.objects.get(pk=family.household.pk)
    with CaptureQueriesContext(
        connection,
    ) as queries:
        pull(household, 1, 2)
    feed = [query["sql"] for query in queries if "ledger_feed" in query["sql"]]
    assert len(feed) == 1
    assert len(queries) == 2


def test_nothing_new_gives_an_empty_page_at_the_same_cursor(family: Family) -> None:
    head = head_of(family.household.pk)
    got = page(family, head)
    assert (list(got.rows), got.last, got.more, got.head) == ([], head, False, head)


def test_a_cursor_of_another_epoch_or_beyond_the_head_is_reset(family: Family) -> None:
    """hazard 12"""
    head = head_of(family.household.pk)
    for epoch, after in ((2, 0), (1, head + 1)):
        with pytest.raises(CannotDo) as caught:
            page(family, after, epoch=epoch)
        assert (caught.value.code, caught.value.facts) == ("reset", {"epoch": 1, "head": head})


def test_a_sheet_takes_a_number_and_its_predecessor_leaves(family: Family, lot: str) -> None:
    """invariant 4, invariant 6: of sheets the newest of each key, all else without a gap."""
    first = write_sheet(family.household.pk, sheet(content=1), now=NOW)
    second = write_sheet(family.household.pk, sheet(content=2), now=NOW)
    other = write_sheet(family.household.pk, sheet("roster/loft"), now=NOW)
    assert first is not None
    assert second is not None
    assert other is not None
    assert first < second < other
    got = page(family)
    assert seqs(got) == [n for n in range(1, other + 1) if n != first]
    row = json.loads(got.rows[-2])
    assert row["type"] == "sheet"
    assert row["sheet"] == {
        "key": "roster/cellar",
        "kind": "roster",
        "as_of": 3,
        "made_at": "2026-11-25T09:30:00.000Z",
        "inputs": {"tables": "a"},
        "content": {"days": 2},
    }


def test_an_unchanged_sheet_is_written_anew_once_a_day_at_most(family: Family) -> None:
    assert write_sheet(family.household.pk, sheet(), now=NOW) is not None
    assert write_sheet(family.household.pk, sheet(), now=NOW + DAY / 2) is None
    assert write_sheet(family.household.pk, sheet(), now=NOW + DAY) is not None
    assert len(sheets_of(family.household.pk, "roster")) == 1


def test_several_sheets_are_written_together(family: Family) -> None:
    numbers = write_sheets(family.household.pk, [sheet("a"), sheet("b"), sheet("a")], now=NOW)
    head = head_of(family.household.pk)
    assert numbers == [head - 1, head, None]


def test_a_sheet_whose_subject_is_gone_leaves_the_feed(family: Family) -> None:
    write_sheets(family.household.pk, [sheet("a"), sheet("b")], now=NOW)
    drop_sheets(family.household.pk, ["a"])
    assert [one["key"] for one in sheets_of(family.household.pk)] == ["b"]
    assert len([row for row in page(family).rows if '"sheet"' in row]) == 1


def test_a_new_epoch_drops_the_sheets_and_keeps_the_lines(family: Family, lot: str) -> None:
    """hazard 12"""
    lines = seqs(page(family))
    write_sheet(family.household.pk, sheet(), now=NOW)
    assert begin_epoch(family.household.pk) == 2
    assert seqs(page(family, epoch=2)) == lines
    assert sheets_of(family.household.pk) == []


def test_each_household_has_numbers_of_its_own(family: Family, lot: str) -> None:
    from tests.lines import make_family

    other = make_family("Nether End")
    assert seqs(page(other)) == list(range(1, 7))
    told = {json.loads(row)["written"]["household"] for row in page(other).rows}
    assert told == {str(other.household.pk)}
    assert uuid.UUID(told.pop()) == other.household.pk
