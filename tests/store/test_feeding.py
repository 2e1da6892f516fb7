"""F20: what may be written as gone to animals, by whom. The verdicts themselves are tried with the tables."""

from __future__ import annotations

from typing import Any

import pytest

from homestead.household.models import Device
from homestead.ledger.actions import Receipt
from homestead.store.models import Went
from tests.factories import DeviceFactory, Home


class Yard:
    """A lot of carrots and hens, and a phone for anyone."""

    def __init__(self, home: Home) -> None:
        self.home = home
        self.cellar, self.hens = home.space(), home.animals()
        self.carrot = home.lot(self.cellar, pieces=100, grams=10_000)

    def cull(self, finding: str, **went: Any) -> dict[str, Any]:
        to_hens = {"step": "animals", "animals": self.hens} | went
        return {"lot": self.carrot, "pieces": 2, "findings": [finding], "went": [to_hens]}

    def trim(self, **went: Any) -> dict[str, Any]:
        cut = {"step": "animals", "grams": 200, "animals": self.hens, "part": "peel"} | went
        return {"lot": self.carrot, "findings": ["sound"], "cut": cut}

    def phone(self, role: str, **values: Any) -> Device:
        person = self.home.person(role, role, **values)
        phone: Device = DeviceFactory(household=self.home.household, people=[person])
        return phone

    def send(self, role: str, kind: str, body: dict[str, Any], **values: Any) -> Receipt:
        return self.home.push_one(self.phone(role, **values), kind, body)


@pytest.fixture
def yard(home: Home) -> Yard:
    return Yard(home)


def test_sound_roots_may_go_to_hens(yard: Yard) -> None:
    entry = yard.home.write("cull", yard.cull("sound"))
    [row] = Went.rows.of(yard.home.id).filter(entry=entry)
    assert (row.way, str(row.animals), row.accident) == ("animals", yard.hens, False)


@pytest.mark.parametrize("finding", ["black_mould", "soft_rot", "unsure"])
def test_mould_rot_and_unsure_are_never(yard: Yard, finding: str) -> None:
    receipt = yard.home.refused("cull", yard.cull(finding))
    assert (receipt.code, receipt.permanent) == ("never", True)
    assert receipt.facts["crop"] == "carrot"
    assert receipt.facts["animals_kind"] == "laying_hen"
    assert "Write what really happened" in (receipt.message or "")
    assert not Went.rows.of(yard.home.id).exists()


def test_a_refusal_names_the_rows_it_rests_on(yard: Yard) -> None:
    """Mouldy matter goes to no hen: fixtures/reference/feed_safety.csv, read from a hen-keeping handbook."""
    receipt = yard.home.refused("cull", yard.cull("black_mould"))
    assert receipt.facts["reason"] == "rot_or_mould"
    assert "feed_safety:laying_hen/any_produce/any/mouldy" in receipt.facts["rows"]


def test_without_a_group_all_that_are_kept_are_asked_about(yard: Yard) -> None:
    body = yard.cull("sound")
    del body["went"][0]["animals"]
    yard.home.write("cull", body)
    yard.home.animals("Rabbits", "rabbit", withheld=True)
    assert yard.home.refused("cull", body).facts["animals_kind"] == "rabbit"


def test_animals_under_treatment_get_none_to_their_last_day(yard: Yard) -> None:
    yard.home.edit("animals", {"withheld_until": "2026-11-27"}, yard.hens)
    assert yard.home.refused("cull", yard.cull("sound"), day=2).facts["reason"] == "withheld"
    assert yard.home.write("cull", yard.cull("sound"), day=3)


def test_an_own_crop_is_judged_as_the_one_it_is_like(yard: Yard) -> None:
    own = yard.home.edit("crop", {"name": "Seed potato", "like": "potato"})
    lot = yard.home.lot(yard.cellar, own, pieces=20)
    receipt = yard.home.refused("cull", yard.cull("greening") | {"lot": lot})
    assert receipt.facts["crop"] == "potato"


def test_what_was_cut_in_a_kitchen_waits_for_the_country(yard: Yard) -> None:
    receipt = yard.home.refused("trim", yard.trim(cut_in="kitchen"))
    assert receipt.facts["reason"] == "country_not_set"
    assert yard.home.write("trim", yard.trim(cut_in="store"))


def test_a_cut_that_does_not_say_where_counts_as_the_kitchens(yard: Yard) -> None:
    assert yard.home.refused("trim", yard.trim()).facts["reason"] == "country_not_set"


def test_trimmings_of_a_take_and_of_what_is_put_by_are_judged_too(yard: Yard) -> None:
    trimmed = {"step": "animals", "grams": 90, "animals": yard.hens, "cut_in": "store", "part": "peel"}
    take = {"lot": yard.carrot, "grams": 900, "for": "eat"}
    assert yard.home.write("take", take | {"trimmed": trimmed | {"findings": ["sound"]}})
    mouldy = take | {"trimmed": trimmed | {"findings": ["black_mould"]}}
    assert yard.home.refused("take", mouldy).facts["reason"] == "rot_or_mould"


@pytest.mark.parametrize("role", ["keeper", "adult"])
def test_what_did_happen_a_grown_person_writes_as_an_accident(yard: Yard, role: str) -> None:
    receipt = yard.send(role, "cull", yard.cull("black_mould", accident=True))
    assert receipt.result == "accepted"
    assert Went.rows.of(yard.home.id).filter(accident=True, way="animals").count() == 1


def test_an_older_child_shows_an_accident_to_an_adult(yard: Yard) -> None:
    receipt = yard.send("rounds", "cull", yard.cull("black_mould", accident=True), may_decide=True)
    assert (receipt.result, receipt.code) == ("refused", "accident_by_grown")


def test_an_older_child_feeds_only_where_the_persons_switch_says_so(yard: Yard) -> None:
    for may_decide, result in ((False, "refused"), (True, "accepted")):
        assert yard.send("rounds", "cull", yard.cull("sound"), may_decide=may_decide).result == result
    to_compost = yard.cull("soft_rot") | {"went": [{"step": "compost"}]}
    assert yard.send("rounds", "cull", to_compost, may_decide=False).result == "accepted"


@pytest.mark.parametrize("kind", ["cull", "take", "trim"])
def test_a_small_child_takes_nothing_from_a_lot(yard: Yard, kind: str) -> None:
    body = {
        "cull": yard.cull("sound"),
        "trim": yard.trim(),
        "take": {"lot": yard.carrot, "grams": 1, "for": "eat"},
    }
    receipt = yard.send("child", kind, body[kind])
    assert (receipt.result, receipt.code) == ("refused", "role")


def test_the_country_and_the_keepers_word_open_the_kitchen_to_a_kind_of_animal(yard: Yard) -> None:
    """No federal ban for a home flock in the United States, state law may differ; a ban in the European Union
    (fixtures/reference/feeding_law.csv, from memory and from Regulation (EC) No 1069/2009 Art. 11)."""
    cut = yard.trim(cut_in="kitchen")

    def settle_law(**values: Any) -> None:
        yard.home.edit("household", values, str(yard.home.id))

    settle_law(country="US")
    assert yard.home.refused("trim", cut).facts["reason"] == "law_not_confirmed"
    settle_law(law_confirmed=True)
    assert yard.home.refused("trim", cut).facts["reason"] == "law_not_allowed"
    settle_law(kitchen_to=["laying_hen"])
    assert yard.home.write("trim", cut)
    settle_law(country="AT")
    assert yard.home.refused("trim", cut).facts["reason"] == "law_prohibited"
