"""Each kind of the rounds writes the rows one expects."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from homestead.household.models import Device
from homestead.rounds.models import ChoreDone, Claim, Decision, FindingSeen, Inspection, Round, Suspect
from homestead.store.models import Went
from tests.bodies import out
from tests.factories import DeviceFactory, Home, new_id

DAY = dt.date(2026, 11, 25)


class Walk:
    """A cellar with 17 cabbages of 2 kg, and hens outside."""

    def __init__(self, home: Home) -> None:
        self.home = home
        self.cellar, self.hens = home.space(), home.animals()
        self.cabbage = home.lot(self.cellar, "cabbage", pieces=17, grams=34_000)

    def look(self, **told: Any) -> dict[str, Any]:
        body = {"lot": self.cabbage, "space": self.cellar, "way": "all", "looked": 17, "counted": False}
        return body | told

    def doubt(self, **told: Any) -> str:
        body = {"lot": self.cabbage, "findings": ["grey_mould"], "lies": "held"} | told
        return self.home.write("suspect", body, photos=["c" * 64])

    def decide(self, suspect: str, what: str, **told: Any) -> str:
        return self.home.write("decision", {"suspect": suspect, "do": what} | told)

    def phone(self, role: str, **values: Any) -> Device:
        person = self.home.person(role, role, **values)
        phone: Device = DeviceFactory(household=self.home.household, people=[person])
        return phone


@pytest.fixture
def walk(home: Home) -> Walk:
    return Walk(home)


def test_a_round_keeps_its_times_and_who_walked_along(walk: Walk) -> None:
    ana = walk.home.person("Ana", "rounds")
    times = {"began_at": "2026-11-25T10:24:53.123+01:00", "ended_at": "2026-11-25T10:41:02.000+01:00"}
    entry = walk.home.write("round", {"space": walk.cellar} | times, **{"with": [ana]})
    row = Round.rows.of(walk.home.id).get(uuid=entry)
    assert (str(row.space.uuid), str(row.person.uuid), row.with_people) == (
        walk.cellar,
        walk.home.keeper,
        [ana],
    )
    assert row.ended_at - row.began_at == dt.timedelta(minutes=16, seconds=8, milliseconds=877)


def test_an_inspection_keeps_each_finding_where_it_was_told(walk: Walk) -> None:
    entry = walk.home.write(
        "inspection",
        walk.look(
            round=new_id(),
            seen=[{"finding": "yellowing", "pieces": 4}, {"finding": "shrivelled"}],
            out=[out(pieces=2, findings=["soft_rot", "wet"]), out(pieces=1, findings=["gnawed"])],
            trims=[{"pieces": 1, "findings": ["grey_mould"], "cut": {"step": "compost", "grams": 300}}],
        ),
    )
    rows = FindingSeen.rows.of(walk.home.id).filter(inspection__uuid=entry)
    assert {(row.told_in, row.place, row.finding, row.pieces, row.grams) for row in rows} == {
        ("seen", 0, "yellowing", 4, None),
        ("seen", 1, "shrivelled", None, None),
        ("out", 0, "soft_rot", 2, None),
        ("out", 0, "wet", 2, None),
        ("out", 1, "gnawed", 1, None),
        ("trims", 0, "grey_mould", 1, 300),
    }
    left = Went.rows.of(walk.home.id).filter(entry=entry)
    assert sorted((row.way, row.pieces or 0, row.grams) for row in left) == [
        ("compost", 0, 300),
        ("compost", 1, 2_000),
        ("compost", 2, 4_000),
    ]
    assert walk.home.row(walk.cabbage).pieces == 14


def test_an_inspection_counts_only_where_the_number_was_touched(walk: Walk) -> None:
    """F11: one tap on "all 17 sound" counts nothing."""
    walk.home.write("inspection", walk.look(looked=16), day=2)
    assert (walk.home.row(walk.cabbage).pieces, walk.home.row(walk.cabbage).counted_on) == (17, DAY)
    walk.home.write("inspection", walk.look(looked=16, counted=True), day=3)
    assert walk.home.row(walk.cabbage).pieces == 16
    assert walk.home.row(walk.cabbage).counted_on == DAY + dt.timedelta(days=3)


def test_not_looked_at_is_kept_and_moves_no_last_look(walk: Walk) -> None:
    unseen = {
        "lot": walk.cabbage,
        "space": walk.cellar,
        "way": "none",
        "counted": False,
        "why_not": "no_time",
    }
    entry = walk.home.write("inspection", unseen, day=7)
    row = Inspection.rows.of(walk.home.id).get(uuid=entry)
    assert (row.way, row.why_not, row.looked) == ("none", "no_time", None)
    assert walk.home.row(walk.cabbage).last_look == DAY


def test_a_look_moves_the_last_look(walk: Walk) -> None:
    walk.home.write("inspection", walk.look(), day=7, photos=["d" * 64])
    assert walk.home.row(walk.cabbage).last_look == DAY + dt.timedelta(days=7)
    assert Inspection.rows.of(walk.home.id).get().photos == ["d" * 64]


def test_a_suspect_waits_and_is_no_food(walk: Walk) -> None:
    """F13, F19: its pieces are stock, not food until kept or gone."""
    row = Suspect.rows.of(walk.home.id).get(uuid=walk.doubt())
    assert (row.state, row.lies, row.pieces, row.findings) == ("open", "held", 1, ["grey_mould"])
    assert row.photos == ["c" * 64]
    assert (walk.home.row(walk.cabbage).pieces, walk.home.row(walk.cabbage).held_pieces) == (17, 1)


def test_a_decision_stands_until_it_is_done(walk: Walk) -> None:
    suspect = walk.doubt()
    decision = walk.decide(suspect, "compost", by="2026-11-28", doer=walk.home.keeper)
    row = Decision.rows.of(walk.home.id).get(uuid=decision)
    assert (row.do, row.stands, row.done, row.on_the_spot) == ("compost", True, False, False)
    assert (row.by, row.doer and str(row.doer.uuid)) == (dt.date(2026, 11, 28), walk.home.keeper)
    assert Suspect.rows.of(walk.home.id).get(uuid=suspect).state == "to_do"

    walk.home.write("chore_done", {"chore": decision, "minutes": 4})
    row.refresh_from_db()
    assert row.done
    assert Suspect.rows.of(walk.home.id).get(uuid=suspect).state == "gone"
    assert walk.home.row(walk.cabbage).pieces == 16
    done = ChoreDone.rows.of(walk.home.id).get()
    assert (done.decision, done.minutes, done.told_out) == (row, 4, False)


def test_of_two_decisions_the_lower_stands_and_both_stay(walk: Walk) -> None:
    """F19: keep and compost, both offline: compost stands; its chore done twice counts once."""
    suspect = walk.doubt()
    keep, compost = walk.decide(suspect, "keep"), walk.decide(suspect, "compost")
    stands = {str(row.uuid): row.stands for row in Decision.rows.of(walk.home.id)}
    assert stands == {keep: False, compost: True}
    walk.home.write("chore_done", {"chore": compost})
    walk.home.write("chore_done", {"chore": compost})
    assert walk.home.row(walk.cabbage).pieces == 16
    walk.home.strike(compost)
    assert Suspect.rows.of(walk.home.id).get().state == "kept"
    assert walk.home.row(walk.cabbage).pieces == 17


def test_a_decision_done_on_the_spot_needs_no_chore(walk: Walk) -> None:
    suspect = walk.doubt()
    walk.decide(suspect, "cook", out=out(pieces=1, findings=["grey_mould"], went=[{"step": "cook"}]))
    assert Suspect.rows.of(walk.home.id).get().state == "gone"
    [row] = Went.rows.of(walk.home.id)
    assert (row.way, row.bucket, row.pieces, row.grams) == ("cook", "eaten", 1, 2_000)


def test_a_struck_suspect_has_no_state_and_holds_nothing(walk: Walk) -> None:
    suspect = walk.doubt()
    walk.home.strike(suspect)
    assert Suspect.rows.of(walk.home.id).get(uuid=suspect).state == ""
    assert not walk.home.row(walk.cabbage).held_pieces


@pytest.mark.parametrize("finding", ["unsure", "grey_mould"])
def test_a_suspect_goes_to_animals_only_by_what_was_seen_of_it(walk: Walk, finding: str) -> None:
    """F20: unsure, rot and mould are never, also by way of a decision."""
    suspect = walk.doubt(findings=[finding])
    receipt = walk.home.refused("decision", {"suspect": suspect, "do": "animals", "animals": walk.hens})
    assert receipt.code == "never"


def test_who_decides_on_the_spot_says_anew_what_it_is(walk: Walk) -> None:
    suspect = walk.doubt(findings=["unsure"])
    told = out(pieces=1, findings=["yellowing"], went=[{"step": "animals", "animals": walk.hens}])
    assert walk.decide(suspect, "animals", animals=walk.hens, out=told)


def test_a_chore_that_a_decision_sent_to_the_hens_may_be_carried_by_a_child(walk: Walk) -> None:
    decision = walk.decide(walk.doubt(findings=["yellowing"]), "animals", animals=walk.hens)
    carried = out(pieces=1, findings=["yellowing"], went=[{"step": "animals", "animals": walk.hens}])
    receipt = walk.home.push_one(walk.phone("child"), "chore_done", {"chore": decision, "out": carried})
    assert receipt.result == "accepted"


@pytest.mark.parametrize("role", ["child", "minder"])
def test_a_child_or_minder_judges_nothing_for_animals(walk: Walk, role: str) -> None:
    decision = walk.decide(walk.doubt(findings=["yellowing"]), "compost")
    carried = out(pieces=1, findings=["yellowing"], went=[{"step": "animals", "animals": walk.hens}])
    receipt = walk.home.push_one(walk.phone(role), "chore_done", {"chore": decision, "out": carried})
    assert (receipt.result, receipt.code) == ("refused", "not_theirs_to_judge")


def test_a_minder_looks_and_takes_out_but_sends_nothing_to_animals(walk: Walk) -> None:
    phone = walk.phone("minder")
    to_hens = out(pieces=1, findings=["yellowing"], went=[{"step": "animals", "animals": walk.hens}])
    assert walk.home.push_one(phone, "inspection", walk.look(out=[to_hens])).code == "not_theirs_to_judge"
    assert walk.home.push_one(phone, "inspection", walk.look(out=[out(pieces=1)])).result == "accepted"


def test_an_older_child_decides_only_where_the_persons_switch_says_so(walk: Walk) -> None:
    for may_decide, result in ((False, "refused"), (True, "accepted")):
        phone = walk.phone("rounds", may_decide=may_decide)
        body = {"suspect": walk.doubt(), "do": "compost"}
        assert walk.home.push_one(phone, "decision", body).result == result


def test_a_claim_keeps_the_number_that_settles_who_was_first(walk: Walk) -> None:
    decision = walk.decide(walk.doubt(), "compost")
    first, second = (walk.home.write("claim", {"chore": decision}) for _ in range(2))
    rows = Claim.rows.of(walk.home.id).filter(chore=decision).order_by("seq")
    assert [str(row.uuid) for row in rows] == [first, second]
    assert rows[0].seq < rows[1].seq


def test_a_standing_chore_is_known_by_its_record_and_day(walk: Walk) -> None:
    chore = walk.home.edit("chore", {"name": "Shut the hens in", "weekdays": [6, 7], "minutes": 5})
    assert walk.home.write("chore_done", {"chore": f"{chore}/2026-11-28"})
    receipt = walk.home.refused("chore_done", {"chore": f"{new_id()}/2026-11-28"})
    assert (receipt.code, receipt.permanent, receipt.facts["thing"]) == ("unknown_reference", False, "chore")


def test_a_chore_of_the_roster_is_known_by_its_space_and_day(walk: Walk) -> None:
    walk.home.write("claim", {"chore": f"roster/{walk.cellar}/2026-11-28"})
    assert walk.home.write("chore_done", {"chore": f"roster/{walk.cellar}/2026-11-28", "minutes": 16})
    receipt = walk.home.refused("claim", {"chore": f"roster/{new_id()}/2026-11-28"})
    assert receipt.facts["thing"] == "space"


def test_a_lot_to_be_picked_over_is_known_by_the_look_that_saw_it(walk: Walk) -> None:
    """The look and the claim of picking over come in one push, and both may be struck."""
    look = walk.home.line("inspection", walk.look(seen=[{"finding": "grey_mould"}]))
    claim = walk.home.line("claim", {"chore": f"pick_over/{look['id']}/2026-11-28"})
    assert [receipt.result for receipt in walk.home.write_lines([look, claim])] == ["accepted"] * 2
    walk.home.strike(look["id"])
    assert walk.home.write("chore_done", {"chore": f"pick_over/{look['id']}/2026-11-28"})
    receipt = walk.home.refused("claim", {"chore": f"pick_over/{new_id()}/2026-11-28"})
    assert (receipt.permanent, receipt.facts["thing"]) == (False, "inspection")


def test_a_chore_of_another_sheet_names_nothing_else(walk: Walk) -> None:
    assert walk.home.write("claim", {"chore": "rooms/2026-11-28"})


def test_only_a_decisions_chore_says_what_left(walk: Walk) -> None:
    body = {"chore": f"roster/{walk.cellar}/2026-11-28", "out": out()}
    assert walk.home.refused("chore_done", body).code == "out_without_decision"
