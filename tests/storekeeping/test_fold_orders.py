"""Any order, any repetition, one by one or all at once: the same stock. Struck: as if never written."""

from __future__ import annotations

import copy
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from fixtures.vectors.fold_source.grammar import story
from homestead.storekeeping.fold import FoldState, fold_all, fold_on, lot_at, lot_ids, state_at, went_of
from tests.storekeeping.agreement import balances, disagreements, vectors
from tests.storekeeping.oracle import expectation_of

Json = dict[str, Any]
#: a slow machine fails nothing: time is for the bench
steady = settings(deadline=None)

VECTORS = vectors()
STORIES = st.sampled_from(VECTORS) | st.integers(10_000, 10_000_000).map(lambda seed: story(seed).to_json())


def state_of(vector: Json, lines: list[Json]) -> FoldState:
    return state_at(fold_all(lines, vector["setting"]), vector["today"])


def strike_of(struck: str, id_: str, when: str = "2027-06-01T12:00:00.000+02:00") -> Json:
    written = {
        "id": id_,
        "device": "Z",
        "device_no": int(id_.rsplit("-", 1)[1]),
        "person": "zoe",
        "kind": "strike",
        "happened_at": when,
        "dated": "person",
        "body": {},
        "strikes": struck,
    }
    return {"written": written}


def stock(state: FoldState) -> Json:
    """What a lot has, without the entries it had it from."""
    kept = copy.deepcopy(state)
    for lot in kept["lots"].values():
        lot["history"] = []
    parts = ("lots", "went", "chores", "chores_done", "claims", "offers", "facts")
    return {name: kept[name] for name in parts}  # type: ignore[literal-required]


@steady
@given(STORIES, st.data())
def test_any_order_and_any_repetition_gives_the_same(vector: Json, data: st.DataObject) -> None:
    lines = vector["lines"]
    again = data.draw(st.permutations(lines + data.draw(st.lists(st.sampled_from(lines), max_size=4))))
    assert state_of(vector, again) == state_of(vector, lines)


@steady
@given(STORIES, st.data())
def test_one_by_one_gives_what_all_at_once_gives(vector: Json, data: st.DataObject) -> None:
    lines = data.draw(st.permutations(vector["lines"]))
    folded = fold_all([], vector["setting"])
    for at, line in enumerate(lines, start=1):
        fold_on(folded, line)
        assert state_at(folded, vector["today"]) == state_of(vector, lines[:at])


@steady
@given(STORIES, st.data())
def test_a_lot_that_is_not_named_as_touched_is_as_it_was(vector: Json, data: st.DataObject) -> None:
    *before, last = data.draw(st.permutations(vector["lines"]))
    folded, today = fold_all(before, vector["setting"]), vector["today"]
    kept = {lot: (lot_at(folded, lot, today), went_of(folded, lot)) for lot in lot_ids(folded)}
    touched = fold_on(folded, last)
    now = {lot: (lot_at(folded, lot, today), went_of(folded, lot)) for lot in lot_ids(folded)}
    assert {lot for lot in kept | now if kept.get(lot) != now.get(lot)} <= touched


@steady
@given(STORIES, st.data())
def test_a_struck_entry_is_as_if_it_had_never_been(vector: Json, data: st.DataObject) -> None:
    lines = [line for line in vector["lines"] if line["written"]["kind"] != "strike"]
    struck = data.draw(st.sampled_from(lines))["written"]["id"]
    without = [line for line in lines if line["written"]["id"] != struck]
    assert stock(state_of(vector, [strike_of(struck, "no-1"), *lines])) == stock(state_of(vector, without))


@steady
@given(STORIES, st.data(), st.integers(1, 5))
def test_an_even_number_of_strikes_upon_strikes_brings_it_back(
    vector: Json, data: st.DataObject, strikes: int
) -> None:
    lines = vector["lines"]
    ids = [
        data.draw(st.sampled_from(lines))["written"]["id"],
        *(f"no-{at}" for at in range(1, 2 * strikes + 1)),
    ]
    chain = [strike_of(ids[at], ids[at + 1]) for at in range(2 * strikes)]
    now = stock(state_of(vector, data.draw(st.permutations([*lines, *chain]))))
    assert now == stock(state_of(vector, lines))


@steady
@given(STORIES, st.data())
def test_strikes_thrown_about_one_by_one_fold_as_all_at_once(vector: Json, data: st.DataObject) -> None:
    ids = [line["written"]["id"] for line in vector["lines"]] + [f"no-{at}" for at in range(4)]
    strikes = [strike_of(data.draw(st.sampled_from(ids)), f"no-{at}") for at in range(4)]
    folded = fold_all(vector["lines"], vector["setting"])
    for at, strike in enumerate(strikes, start=1):
        fold_on(folded, strike)
        assert state_at(folded, vector["today"]) == state_of(vector, vector["lines"] + strikes[:at])


@steady
@given(STORIES, st.data())
def test_a_waiting_line_sent_refused_or_mended_folds_as_if_it_had_come_so(
    vector: Json, data: st.DataObject
) -> None:
    lines = list({line["written"]["id"]: line for line in vector["lines"]}.values())
    at = data.draw(st.integers(0, len(lines) - 1))
    known = {"written": lines[at]["written"]}
    skew_ms = data.draw(st.sampled_from([0, 90_000, 500_000, -90_000_000]))
    mended = {**known["written"], "device_no": known["written"]["device_no"] + 100, "dated": "person"}
    comes = data.draw(
        st.sampled_from(
            [
                {**known, "seq": 99, "clock_skew_ms": skew_ms},
                {**known, "standing": "refused"},
                {"written": mended},
                known,
            ]
        )
    )
    folded = fold_all([*lines[:at], known, *lines[at + 1 :]], vector["setting"])
    fold_on(folded, comes)
    assert state_at(folded, vector["today"]) == state_of(vector, [*lines[:at], comes, *lines[at + 1 :]])


@steady
@given(STORIES, st.data())
def test_the_balance_holds_after_each_entry(vector: Json, data: st.DataObject) -> None:
    folded = fold_all([], vector["setting"])
    for line in data.draw(st.permutations(vector["lines"])):
        fold_on(folded, line)
        states = [lot_at(folded, lot, vector["today"]) for lot in lot_ids(folded)]
        assert all(state is not None and balances(state) for state in states)


@settings(steady, max_examples=300)
@given(st.integers(10_000_000, 1_000_000_000))
def test_the_oracle_reads_stories_nobody_has_seen_alike(seed: int) -> None:
    vector = story(seed).to_json()
    state = state_of(vector, vector["lines"])
    assert disagreements({"expect": expectation_of(vector)}, state) == []
