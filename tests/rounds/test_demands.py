"""Who may take a chore on: no swap goes round age or needs, and the reason comes back with the line."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import connection

from homestead.household.models import Device
from homestead.ledger.actions import Receipt
from homestead.rounds.models import ChoreDone, Claim
from tests.factories import DeviceFactory, Home


def phone_of(home: Home, *people: str) -> Device:
    phone: Device = DeviceFactory(household=home.household, people=list(people))
    return phone


def claimed(home: Home, person: str, chore: str, **told: Any) -> Receipt:
    """A claim pushed from the parents' phone, on which the children write too."""
    phone = phone_of(home, home.keeper, person)
    return home.push_one(phone, "claim", {"chore": chore}, person=person, **told)


def refusal(home: Home, person: str, chore: str, **told: Any) -> Receipt:
    receipt = claimed(home, person, chore, **told)
    assert (receipt.result, receipt.code, receipt.permanent) == ("refused", "not_for_them", True)
    assert not Claim.rows.of(home.id).exists()
    return receipt


def standing(home: Home, **values: Any) -> str:
    return home.edit("chore", {"name": "Sweep the loft", "weekdays": [3]} | values) + "/2026-11-25"


def test_a_child_too_young_is_told_from_which_age_it_is(home: Home) -> None:
    pip = home.person("Pip", "child", born=2019)
    receipt = refusal(home, pip, standing(home, least_age=10))
    assert receipt.message == "Pip is too young for this: it is from 10 years on."
    assert receipt.facts["least_age"] == 10
    assert claimed(home, pip, standing(home, least_age=7)).result == "accepted"


@pytest.mark.parametrize("need", ["ladder", "knife", "lifting", "not_alone"])
def test_no_child_takes_on_what_its_needs_exclude(home: Home, need: str) -> None:
    pip = home.person("Pip", "child", born=2014)
    receipt = refusal(home, pip, standing(home, least_age=5, needs=[need]))
    assert (receipt.facts["why"], receipt.facts["needs"]) == ("needs", [need])


def test_a_chore_that_names_no_age_is_no_small_childs(home: Home) -> None:
    pip = home.person("Pip", "child", born=2014)
    assert refusal(home, pip, standing(home)).facts["why"] == "role"
    assert claimed(home, home.person("Ana", "rounds"), standing(home)).result == "accepted"


def test_what_someones_own_record_says_they_cannot_they_do_not_take_on(home: Home) -> None:
    tom = home.person("Tom", "adult", cannot=["ladder"])
    receipt = refusal(home, tom, standing(home, needs=["ladder"]))
    assert receipt.message == "This needs a ladder: that is not for Tom."


@pytest.mark.parametrize("caution", ["gas", "not_alone"])
def test_an_older_child_takes_no_walk_through_a_door_of_bad_air_unless_someone_grown_goes_too(
    home: Home, caution: str
) -> None:
    ana, tom = home.person("Ana", "rounds"), home.person("Tom", "adult")
    key = f"roster/{home.space(cautions=[caution])}/2026-11-25"
    refusal(home, ana, key)
    assert claimed(home, ana, key, **{"with": [tom]}).result == "accepted"


def test_an_offer_does_not_open_it_to_whom_it_excludes(home: Home) -> None:
    ana = home.person("Ana", "rounds")
    key = f"roster/{home.space(cautions=['gas'])}/2026-11-25"
    home.write("offer", {"chore": key})
    refusal(home, ana, key)


def test_deciding_is_a_grown_persons_or_an_older_childs_whose_switch_says_so(home: Home) -> None:
    lot = home.lot(home.space(), "squash", pieces=9)
    suspect = home.write("suspect", {"lot": lot, "findings": ["unsure"], "lies": "held"})
    refusal(home, home.person("Ana", "rounds"), suspect)
    assert claimed(home, home.person("Ben", "rounds", may_decide=True), suspect).result == "accepted"


def test_a_decision_to_trim_needs_a_knife(home: Home) -> None:
    lot = home.lot(home.space(), "squash", pieces=9)
    suspect = home.write("suspect", {"lot": lot, "findings": ["unsure"], "lies": "held"})
    decision = home.write("decision", {"suspect": suspect, "do": "trim"})
    receipt = refusal(home, home.person("Tom", "adult", cannot=["knife"]), decision)
    assert receipt.facts["needs"] == ["knife"]


@pytest.mark.parametrize(
    ("what", "result"), [("turn_heap", "refused"), ("frost", "refused"), ("pail", "accepted")]
)
def test_chores_of_other_rooms_say_what_they_need(home: Home, what: str, result: str) -> None:
    tom = home.person("Tom", "adult", cannot=["lifting"])
    heap = home.edit("heap", {"name": "Left heap", "fills_from": "2026-11-01"})
    assert claimed(home, tom, f"{what}/{heap}/2026-11-25").result == result


def test_a_room_to_be_aired_keeps_its_door(home: Home) -> None:
    refusal(home, home.person("Ana", "rounds"), f"air/{home.space(cautions=['gas'])}/2026-11-25")


def test_whoever_sees_that_a_lot_must_be_picked_over_may_say_so_and_another_takes_it_on(home: Home) -> None:
    """The first claim makes the chore: refused, nobody would pick the lot over."""
    ana = home.person("Ana", "rounds")
    cellar = home.space(cautions=["gas"])
    look = {"lot": home.lot(cellar), "space": cellar, "way": "sample", "looked": 20, "counted": False}
    key = f"pick_over/{home.write('inspection', look)}/2026-11-26"
    assert claimed(home, ana, key).result == "accepted"
    again = claimed(home, ana, key)
    assert (again.result, again.code) == ("refused", "not_for_them")


def test_done_on_a_suspect_nobody_decided_on_names_no_decision_and_takes_nothing_out(home: Home) -> None:
    """Its key is spelled as a decision's is; a row that named one of that id would undo the whole push."""
    lot = home.lot(home.space(), "squash", pieces=9)
    suspect = home.write("suspect", {"lot": lot, "findings": ["unsure"], "lies": "held"})
    home.write("chore_done", {"chore": suspect, "minutes": 3})
    connection.check_constraints()
    assert ChoreDone.rows.of(home.id).get().decision is None
    out = {"pieces": 1, "findings": ["rot"], "went": [{"step": "compost"}]}
    assert home.refused("chore_done", {"chore": suspect, "out": out}).code == "out_without_decision"
