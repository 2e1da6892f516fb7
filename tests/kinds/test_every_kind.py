"""What holds for every kind: settle, undo, settle again; replay; foreign ids; names; roles."""

from __future__ import annotations

import copy
import datetime as dt
import random
import uuid
from typing import Any

import pytest

from homestead.ledger.kinds import all_kinds
from homestead.ledger.reads import all_lines, entries_of, life_of_lot
from homestead.ledger.replay import replay
from homestead.store.models import Lot, Went
from homestead.store.setting import setting_of
from homestead.storekeeping.fold import fold_all, state_at
from homestead.storekeeping.state import Line
from tests.factories import MORNING, Home, HomeFactory, new_id
from tests.kinds.winter import Winter, counting_tables_of, tables_of

KINDS = (
    *("put_away", "take", "cull", "trim", "move", "count", "set_aside", "put_by", "reading"),
    *("round", "inspection", "suspect", "decision", "claim", "offer", "chore_done", "scrap", "lay"),
    *("pail", "heap"),
)
#: for each kind the fields of its body that name something, dotted
REFERENCES = {
    "put_away": ["space"],
    "take": ["lot"],
    "cull": ["lot"],
    "trim": ["lot", "cut.animals"],
    "move": ["lot", "space"],
    "count": ["lot"],
    "set_aside": ["lot"],
    "put_by": ["from.0.lot", "space"],
    "reading": ["space"],
    "round": ["space"],
    "inspection": ["lot", "space"],
    "suspect": ["lot"],
    "decision": ["suspect"],
    "claim": ["chore"],
    "offer": ["chore"],
    "chore_done": ["chore"],
    "scrap": ["lot", "went.0.animals"],
    "lay": ["animals"],
    "pail": ["animals"],
    "heap": ["heap"],
}
NAMING = [(kind, field) for kind, fields in REFERENCES.items() for field in fields]


@pytest.fixture
def winter(home: Home) -> Winter:
    return Winter(home)


def write_all_but(winter: Winter, kind: str) -> dict[str, Any]:
    """Write what the kind needs and all that does not hang on it; returns its line, not yet sent."""
    lines = winter.lines()
    of_decision = {"claim", "offer", "chore_done"}
    needs_it = {"suspect": {"decision", *of_decision}, "decision": of_decision}
    left_out = {kind} | needs_it.get(kind, set())
    receipts = winter.home.write_lines([line for name, line in lines.items() if name not in left_out])
    assert [receipt.result for receipt in receipts] == ["accepted"] * len(receipts)
    line: dict[str, Any] = lines[kind]
    return line


def test_the_winter_has_every_kind_there_is() -> None:
    assert set(KINDS) | {"strike"} == set(all_kinds())


@pytest.mark.parametrize("kind", KINDS)
def test_striking_leaves_the_tables_as_if_it_had_never_been(winter: Winter, kind: str) -> None:
    """invariant 9: striking, and striking the strike, any number of times."""
    line = write_all_but(winter, kind)
    before = counting_tables_of(winter.home)
    [receipt] = winter.home.write_lines([line])
    assert receipt.result == "accepted", receipt
    assert counting_tables_of(winter.home) != before

    strike = winter.home.strike(line["id"])
    assert counting_tables_of(winter.home) == before
    winter.home.strike(line["id"])
    assert counting_tables_of(winter.home) == before

    back = winter.home.strike(strike)
    assert counting_tables_of(winter.home) == before, "another strike still names it"
    winter.home.strike(back)
    assert counting_tables_of(winter.home) == before


@pytest.mark.parametrize("kind", KINDS)
def test_striking_the_strike_brings_every_row_back(winter: Winter, kind: str) -> None:
    line = write_all_but(winter, kind)
    winter.home.write_lines([line])
    written = tables_of(winter.home)
    strike = winter.home.strike(line["id"])
    winter.home.strike(strike)
    assert tables_of(winter.home) == written


@pytest.mark.parametrize("kind", KINDS)
def test_a_strike_that_comes_first_leaves_the_same_tables(winter: Winter, kind: str) -> None:
    """invariant 9: a strike may arrive before what it strikes."""
    line = write_all_but(winter, kind)
    before = counting_tables_of(winter.home)
    winter.home.strike(line["id"])
    [receipt] = winter.home.write_lines([line])
    assert receipt.result == "accepted"
    assert counting_tables_of(winter.home) == before
    assert replay(winter.home.id, check=True) == []


@pytest.mark.parametrize("kind", ["put_away", "suspect", "decision", "move", "put_by"])
def test_what_names_something_struck_is_still_taken(winter: Winter, kind: str) -> None:
    """F4: it counts nothing there, and stays readable."""
    lines = winter.lines()
    winter.home.write_lines(
        [line for name, line in lines.items() if name not in ("claim", "offer", "chore_done")]
    )
    named = lines[kind]["id"]
    winter.home.strike(named)
    body = {
        "suspect": ("decision", {"suspect": named, "do": "keep"}),
        "decision": ("chore_done", {"chore": named}),
    }.get(kind, ("take", {"lot": named, "grams": 100, "for": "eat"}))
    winter.home.write(*body)
    assert replay(winter.home.id, check=True) == []


@pytest.mark.parametrize("seed", range(8))
def test_any_order_of_arrival_ends_with_the_same_tables(winter: Winter, seed: int) -> None:
    """invariant 8: lines come in any order that lets each find what it names, in any grouping."""
    home = winter.home
    told = winter.lines()
    struck = [home.line("strike", {}, strikes=told[kind]["id"]) for kind in ("cull", "trim")]
    lines = [*told.values(), *struck, home.line("strike", {}, strikes=struck[1]["id"])]
    home.write_lines(lines)

    other = HomeFactory()
    other.write_lines([line | {"household": str(other.id)} for line in home.written])
    arrive_anyhow(other, [line | {"household": str(other.id)} for line in lines], random.Random(seed))
    assert tables_of(other) == tables_of(home)


def arrive_anyhow(home: Home, lines: list[dict[str, Any]], chance: random.Random) -> None:
    """Send the lines shuffled, in pieces of one to five; what waits for another line is sent again."""
    chance.shuffle(lines)
    for _ in range(10 * len(lines)):
        size = chance.randint(1, 5)
        batch, rest = lines[:size], lines[size:]
        receipts = home.write_lines(batch)
        waits = [line for line, receipt in zip(batch, receipts, strict=True) if receipt.result == "refused"]
        assert all(receipt.permanent is not True for receipt in receipts)
        lines = rest + waits
        if not lines:
            return
    raise AssertionError(f"{len(lines)} lines were never taken")


def test_a_replay_equals_the_tables_kept_step_by_step(winter: Winter) -> None:
    """Throwing the tables away and working them out again changes nothing."""
    home = winter.home
    lines = winter.lines()
    for line in lines.values():
        home.write_lines([line])
    strike = home.strike(lines["inspection"]["id"])
    home.strike(lines["move"]["id"])
    home.strike(strike)
    home.edit("lot", {"variety": "Late Ember", "notes": "by the door"}, winter.carrot)
    home.edit("space", {"name": "Old cellar"}, winter.cellar)
    home.edit("figure", {"table": "piece_weights", "key": "cabbage", "column": "piece_g", "value": 1900})
    kept = tables_of(home)
    assert replay(home.id, check=True) == []
    assert replay(home.id, check=False) == []
    assert tables_of(home) == kept


def test_lots_folded_by_themselves_are_as_in_the_fold_of_all(winter: Winter) -> None:
    """invariant 8: the server folds only what a push touched, a phone folds everything it holds."""
    home = winter.home
    lines = winter.lines()
    for line in lines.values():
        home.write_lines([line])
    home.strike(lines["put_by"]["id"])
    home.write("count", {"lot": winter.carrot, "grams": 20_000}, at=MORNING + dt.timedelta(minutes=90))

    kept = [
        Line(written=line, seq=line["seq"], clock_skew_ms=line["clock_skew_ms"])
        for line in all_lines(home.id)
    ]
    whole = state_at(fold_all(kept, setting_of(home.id)), "2027-01-31")
    rows = {str(row.uuid): row for row in Lot.rows.of(home.id)}
    assert {lot for lot, row in rows.items() if row.stands} == set(whole["lots"])
    for lot, state in whole["lots"].items():
        row = rows[lot]
        assert (row.pieces, row.grams, row.ratio) == (state["pieces"], state["grams"], state["ratio"])
        assert (row.seed_pieces, row.held_pieces) == (state["seed"]["pieces"], state["held"]["pieces"])
        assert row.tallies == state["tallies"]
    went = [(str(row.entry), row.way, row.grams) for row in Went.rows.of(home.id)]
    assert sorted(went, key=repr) == sorted(
        [(row["entry"], row["way"], row["grams"]) for row in whole["went"]], key=repr
    )


def test_a_household_that_moves_to_another_zone_has_its_days_set_anew(winter: Winter) -> None:
    home = winter.home
    late = {"crop": "onion", "space": winter.cellar, "grams": 9_000}
    lot = home.write("put_away", late, happened_at="2026-11-25T23:30:00.000+01:00")
    home.write("scrap", winter._scrap(), happened_at="2026-11-25T23:40:00.000+01:00")
    home.write_lines(list(winter.lines().values()))
    home.edit("household", {"zone": "Pacific/Auckland"}, str(home.id))
    assert str(home.row(lot).put_away_day) == "2026-11-26"
    assert replay(home.id, check=True) == []


def with_field(body: dict[str, Any], field: str, value: str) -> dict[str, Any]:
    """The body with one field, named by a dotted path, set to another value."""
    changed = copy.deepcopy(body)
    *path, last = field.split(".")
    inner: Any = changed
    for step in path:
        inner = inner[int(step) if step.isdigit() else step]
    inner[last] = value
    return changed


@pytest.mark.parametrize(("kind", "field"), NAMING)
def test_an_id_of_another_family_answers_as_one_nobody_knows(winter: Winter, kind: str, field: str) -> None:
    """invariant 36, hazard 31: no difference tells that the id exists elsewhere."""
    stranger = Winter(HomeFactory())
    theirs = stranger.lines()
    stranger.home.write_lines(list(theirs.values()))
    foreign = {
        "lot": stranger.carrot,
        "space": stranger.cellar,
        "animals": stranger.hens,
        "heap": stranger.heap,
        "suspect": theirs["suspect"]["id"],
        "chore": theirs["decision"]["id"],
    }[field.split(".")[-1]]
    line = write_all_but(winter, kind)
    answers = []
    for named in (foreign, new_id()):
        body = with_field(line["body"], field, named)
        receipt = winter.home.refused(kind, body)
        facts = {name: value for name, value in receipt.facts.items() if name != "id"}
        answers.append((receipt.code, receipt.permanent, receipt.message, facts))
    assert answers[0] == answers[1]
    assert answers[0][:2] == ("unknown_reference", False)


@pytest.mark.parametrize("kind", KINDS)
def test_it_says_what_happened_in_a_sentence(winter: Winter, kind: str) -> None:
    lines = winter.lines()
    winter.home.write_lines(list(lines.values()))
    key = uuid.UUID(lines[kind]["id"])
    sentence = all_kinds()[kind].say(entries_of(winter.home.id, [key])[key])
    assert sentence.english.endswith(".")
    assert sentence.english[0].isupper() or sentence.english[0].isdigit()
    assert sentence.facts


def test_the_life_of_a_lot_is_told_in_order_with_what_was_struck(winter: Winter) -> None:
    home = winter.home
    cull = home.write(
        "cull", {"lot": winter.carrot, "pieces": 5, "findings": ["wet"], "went": [{"step": "bin"}]}
    )
    home.write("take", {"lot": winter.carrot, "grams": 1_500, "for": "give"})
    home.strike(cull)
    told = [
        (one["kind"], one["struck"], one["say"]["english"])
        for one in life_of_lot(home.id, uuid.UUID(winter.carrot))
    ]
    assert told[:3] == [
        ("put_away", False, "Put away 24 kg of carrot Long Ember."),
        ("cull", True, "Took out 5 pieces: wet."),
        ("take", False, "Took 1.5 kg to give away."),
    ]


GROWN = {"keeper", "adult"}
WALKERS = GROWN | {"rounds"}


@pytest.mark.parametrize(
    ("kinds", "roles"),
    [
        (
            ("put_away", "take", "cull", "trim", "move", "count", "set_aside", "decision", "scrap", "heap"),
            WALKERS,
        ),
        (("put_by", "pail"), GROWN),
        (("reading", "round", "inspection"), WALKERS | {"minder"}),
        (("lay", "suspect", "chore_done"), WALKERS | {"child", "minder"}),
        (("claim", "offer"), WALKERS | {"child"}),
    ],
)
def test_each_kind_names_the_roles_that_may_push_it(kinds: tuple[str, ...], roles: set[str]) -> None:
    for kind in kinds:
        assert all_kinds()[kind].roles == roles, kind
