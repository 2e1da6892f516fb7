"""Striking out, striking a strike, and the order in which they arrive."""

from __future__ import annotations

import itertools
import uuid

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from homestead.ledger.models import Line
from homestead.ledger.reads import life_of_lot, lines_of_lots, struck_of
from homestead.ledger.strikes import LONGEST_CHAIN
from tests.lines import Family, Written, new_id
from tests.small_kinds import settled, touched


def look(family: Family, lot: str) -> Written:
    return family.phones["adult"].write("looked", {"lot": lot, "count": 1})


def struck(family: Family, *lines: Written) -> list[bool]:
    ids = [uuid.UUID(line["id"]) for line in lines]
    found = struck_of(family.household.pk, ids)
    return [one in found for one in ids]


def test_a_struck_entry_is_undone_and_stays_readable(family: Family, lot: str) -> None:
    """invariant 9"""
    phone = family.phones["adult"]
    line = look(family, lot)
    phone.push(line)
    touched.clear()
    [receipt] = phone.push(phone.strike(line["id"])).receipts
    assert receipt.result == "accepted"
    assert settled[-1] == ("undo", line["id"])
    assert struck(family, line) == [True]
    assert touched[0].lots == {uuid.UUID(lot)}
    told = [(one["id"], one["struck"]) for one in life_of_lot(family.household.pk, uuid.UUID(lot))]
    assert (line["id"], True) in told


def test_striking_twice_is_harmless(family: Family, lot: str) -> None:
    """invariant 9"""
    phone = family.phones["adult"]
    line = look(family, lot)
    phone.push(line, phone.strike(line["id"]))
    settled.clear()
    [receipt] = phone.push(phone.strike(line["id"])).receipts
    assert receipt.result == "accepted"
    assert settled == []
    assert struck(family, line) == [True]


def test_striking_the_strike_brings_the_first_back(family: Family, lot: str) -> None:
    """invariant 9"""
    phone = family.phones["adult"]
    line = look(family, lot)
    strike = phone.strike(line["id"])
    phone.push(line, strike)
    phone.push(phone.strike(strike["id"]))
    assert settled[-1] == ("settle", line["id"])
    assert struck(family, line, strike) == [False, True]


def test_one_of_two_strikes_struck_leaves_the_entry_struck(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    line = look(family, lot)
    first, second = phone.strike(line["id"]), phone.strike(line["id"])
    phone.push(line, first, second, phone.strike(first["id"]))
    assert struck(family, line) == [True]


def test_a_strike_may_arrive_before_what_it_strikes(family: Family, lot: str) -> None:
    """invariant 9"""
    phone = family.phones["adult"]
    line = look(family, lot)
    phone.push(phone.strike(line["id"]))
    phone.push(line)
    assert [one for one in settled if one[1] == line["id"]] == [("settle", line["id"]), ("undo", line["id"])]
    assert struck(family, line) == [True]


def test_strikes_that_would_strike_each_other_are_refused(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    line = look(family, lot)
    first, second = phone.strike(line["id"]), phone.strike(line["id"])
    first["strikes"] = second["id"]
    second["strikes"] = first["id"]
    receipts = phone.push(line, first, second).receipts
    assert [one.result for one in receipts] == ["accepted", "accepted", "refused"]
    assert receipts[2].code == "strike_ring"


def test_a_strike_of_itself_is_refused(family: Family) -> None:
    phone = family.phones["adult"]
    line = phone.strike(new_id())
    line["strikes"] = line["id"]
    assert phone.push(line).receipts[0].code == "strike_ring"


def test_a_chain_of_strikes_has_an_end(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    lines = [look(family, lot)]
    for _ in range(LONGEST_CHAIN + 2):
        lines.append(phone.strike(lines[-1]["id"]))
    receipts = phone.push(*lines).receipts
    refused = [one.code for one in receipts if one.result == "refused"]
    assert refused[0] == "strike_chain"


def test_an_edit_is_not_struck_out(family: Family, space: str) -> None:
    phone = family.phones["keeper"]
    edit = phone.edit("space", space, {"name": "Loft"}, base=1)
    phone.push(edit)
    assert phone.push(phone.strike(edit["id"])).receipts[0].code == "strike_of_edit"


def test_grown_people_strike_anyones_and_children_their_own(family: Family, lot: str) -> None:
    adult, child = family.phones["adult"], family.phones["child"]
    theirs, own = look(family, lot), child.write("looked", {"lot": lot, "count": 1})
    adult.push(theirs)
    child.push(own)
    assert child.push(child.strike(theirs["id"])).receipts[0].code == "role"
    early = child.push(child.strike(new_id())).receipts[0]
    assert (early.code, early.permanent) == ("unknown_reference", False)
    assert child.push(child.strike(own["id"])).receipts[0].result == "accepted"
    assert adult.push(adult.strike(own["id"])).receipts[0].result == "accepted"


def test_the_lines_of_a_lot_come_with_the_strikes_that_bear_on_them(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    line = look(family, lot)
    strike = phone.strike(line["id"])
    again = phone.strike(strike["id"])
    phone.push(line, strike, again)
    found = [one["id"] for one in lines_of_lots(family.household.pk, [uuid.UUID(lot)])]
    assert found == [lot, line["id"], strike["id"], again["id"]]


GRAPHS = st.lists(st.integers(0, 5), min_size=1, max_size=5).flatmap(
    lambda targets: st.tuples(st.just(targets), st.permutations(range(len(targets) + 1)))
)


def counts(targets: list[int], entry: int = 0) -> bool:
    """From memory of the rule itself: an entry counts when no counting strike names it."""
    return not any(counts(targets, n + 1) for n, struck in enumerate(targets) if min(struck, n) == entry)


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(GRAPHS)
def test_any_order_of_arrival_leaves_the_same_entry_counting(
    family: Family, lot: str, graph: tuple[list[int], tuple[int, ...]]
) -> None:
    """invariant 9: line 0 is an entry, line n+1 strikes targets[n] or an earlier one; all orders agree."""
    targets, order = graph
    phone = family.phones["adult"]
    lines = [look(family, lot)]
    for n, target in enumerate(targets):
        lines.append(phone.strike(lines[min(target, n)]["id"]))
    settled.clear()
    for place in order:
        assert phone.push(lines[place]).receipts[0].result == "accepted"
    entry = [what for what, which in settled if which == lines[0]["id"]]
    assert (entry[-1] == "settle") == counts(targets) == (not struck(family, lines[0])[0])
    assert all(a != b for a, b in itertools.pairwise(entry))
    assert Line.rows.of(family.household).filter(uuid=lines[0]["id"]).exists()
