"""What goes to no animal, on every path a line can take; what is kept in, what is held back. The refusals of
push."""

from __future__ import annotations

from typing import Any

import pytest

from homestead.store.models import Went
from tests.factories import DeviceFactory, Home


class Yard:
    """A lot of carrots, a suspect carrot, and hens."""

    def __init__(self, home: Home) -> None:
        self.home = home
        self.cellar, self.hens = home.space(), home.animals()
        self.carrot = home.lot(self.cellar, pieces=100, grams=10_000)
        suspect = {"lot": self.carrot, "findings": ["black_mould"], "lies": "set_apart"}
        self.suspect = home.write("suspect", suspect)

    def to_hens(self, **more: Any) -> dict[str, Any]:
        return {"step": "animals", "animals": self.hens} | more

    def out(self, finding: str) -> dict[str, Any]:
        return {"pieces": 1, "findings": [finding], "went": [self.to_hens()]}

    def trimmed(self, finding: str) -> dict[str, Any]:
        cut = {"grams": 90, "cut_in": "store", "part": "peel"}
        return self.to_hens(**cut) | {"findings": [finding]}

    def paths(self, finding: str) -> dict[str, tuple[str, dict[str, Any]]]:
        """Every way a line can say that something went to the hens."""
        looked = {"lot": self.carrot, "space": self.cellar, "way": "sample", "looked": 20, "counted": False}
        cut = {"pieces": 1, "findings": [finding], "cut": self.to_hens(grams=60, cut_in="store", part="peel")}
        from_lot = [{"lot": self.carrot, "grams": 900}]
        bags = {"method": "freeze", "crop": "frozen", "label": "Carrot", "pack": "freezer_bag", "pieces": 2}
        scraps = [self.to_hens(grams=300, cut_in="yard", part="root")]
        return {
            "cull": ("cull", {"lot": self.carrot} | self.out(finding)),
            "trim": ("trim", {"lot": self.carrot} | cut),
            "take": (
                "take",
                {"lot": self.carrot, "grams": 900, "for": "eat", "trimmed": self.trimmed(finding)},
            ),
            "put by": (
                "put_by",
                {"from": from_lot, "space": self.cellar, "trimmed": self.trimmed(finding)} | bags,
            ),
            "out on a round": ("inspection", looked | {"seen": [], "out": [self.out(finding)]}),
            "trimmed on a round": ("inspection", looked | {"seen": [], "trims": [cut]}),
            "decided on the spot": (
                "decision",
                {"suspect": self.suspect, "do": "compost", "out": self.out(finding)},
            ),
            "decided": ("decision", {"suspect": self.suspect, "do": "animals", "animals": self.hens}),
            "scraps": ("scrap", {"crop": "carrot", "findings": [finding], "went": scraps}),
            "mixed scraps": ("scrap", {"findings": [finding], "went": scraps}),
        }


PATHS = (
    *("cull", "trim", "take", "put by", "out on a round", "trimmed on a round"),
    *("decided on the spot", "decided", "scraps", "mixed scraps"),
)


@pytest.fixture
def yard(home: Home) -> Yard:
    return Yard(home)


@pytest.mark.parametrize("path", PATHS)
def test_mould_goes_to_no_animal_on_any_path(yard: Yard, path: str) -> None:
    """An old client's line comes back with the reason, for good, and leaves nothing behind."""
    kind, body = yard.paths("black_mould")[path]
    receipt = yard.home.refused(kind, body)
    assert (receipt.code, receipt.permanent) == ("never", True)
    assert receipt.facts["reason"] == "rot_or_mould"
    assert receipt.facts["rows"]
    assert not Went.rows.of(yard.home.id).filter(way="animals").exists()


def test_a_chore_done_sends_no_mould_to_the_hens_either(yard: Yard) -> None:
    decision = yard.home.write("decision", {"suspect": yard.suspect, "do": "compost"})
    receipt = yard.home.refused("chore_done", {"chore": decision, "out": yard.out("black_mould")})
    assert receipt.facts["reason"] == "rot_or_mould"


@pytest.mark.parametrize("path", [path for path in PATHS if path not in ("decided", "mixed scraps")])
def test_the_same_seen_sound_may_go(yard: Yard, path: str) -> None:
    """So that the refusals above are for the mould, and for nothing else in the line."""
    kind, body = yard.paths("sound")[path]
    assert yard.home.write(kind, body)


def test_what_was_refused_may_be_written_as_an_accident_and_as_nothing_milder(yard: Yard) -> None:
    _, body = yard.paths("black_mould")["scraps"]
    for as_if in ({"findings": []}, {"findings": ["unsure"]}):
        assert yard.home.refused("scrap", body | as_if)
    accident = [went | {"accident": True} for went in body["went"]]
    entry = yard.home.write("scrap", body | {"went": accident})
    [row] = Went.rows.of(yard.home.id).filter(entry=entry)
    assert (row.accident, row.way, row.grams) == (True, "animals", 300)


def test_birds_are_kept_in_while_a_housing_order_is_on(yard: Yard) -> None:
    _, sound = yard.paths("sound")["scraps"]
    yard.home.edit("household", {"housing_order": True}, str(yard.home.id))
    receipt = yard.home.refused("scrap", sound)
    assert receipt.facts["reason"] == "housing_order"
    assert receipt.facts["rows"] == ["kitchen_safety:housing_order"]
    yard.home.edit("animals", {"housed": True}, yard.hens)
    assert yard.home.write("scrap", sound)


def test_a_housing_order_says_nothing_of_pigs(yard: Yard) -> None:
    pigs = yard.home.animals("Pigs", "pig")
    yard.home.edit("household", {"housing_order": True}, str(yard.home.id))
    went = [{"step": "animals", "animals": pigs, "grams": 300, "cut_in": "yard", "part": "root"}]
    assert yard.home.write("scrap", {"crop": "carrot", "findings": ["sound"], "went": went})


def test_animals_that_are_ill_get_no_scraps(yard: Yard) -> None:
    _, sound = yard.paths("sound")["scraps"]
    yard.home.edit("animals", {"withheld": True}, yard.hens)
    receipt = yard.home.refused("scrap", sound)
    assert receipt.facts["reason"] == "withheld"
    assert receipt.facts["rows"] == ["kitchen_safety:treated_birds"]


def test_eggs_are_no_food_until_the_day_the_label_or_the_vet_gave(yard: Yard) -> None:
    """Laid they were: the count is taken. Put away as food they are not."""
    yard.home.edit("animals", {"eggs_held_until": "2026-11-27"}, yard.hens)
    eggs = {"crop": "egg", "space": yard.cellar, "pieces": 12}
    assert yard.home.write("lay", {"animals": yard.hens, "day": "2026-11-26", "eggs": 6}, day=1)
    receipt = yard.home.refused("put_away", eggs, day=2)
    assert (receipt.code, receipt.permanent) == ("eggs_held", True)
    assert receipt.facts["until"] == "2026-11-27"
    assert yard.home.write("put_away", eggs, day=3)


def test_eggs_of_other_birds_may_be_put_away_meanwhile(yard: Yard) -> None:
    yard.home.edit("animals", {"eggs_held_until": "2026-11-27"}, yard.hens)
    yard.home.animals("Ducks", "duck")
    assert yard.home.write("put_away", {"crop": "egg", "space": yard.cellar, "pieces": 12}, day=1)


@pytest.mark.parametrize(
    ("role", "result"),
    [("keeper", "accepted"), ("adult", "accepted"), ("rounds", "refused"), ("child", "refused")],
)
def test_only_a_grown_person_judges_a_pail(yard: Yard, role: str, result: str) -> None:
    person = (
        yard.home.person(role, role, may_decide=True) if role == "rounds" else yard.home.person(role, role)
    )
    phone = DeviceFactory(household=yard.home.household, people=[person])
    receipt = yard.home.push_one(phone, "pail", {"animals": yard.hens, "mixed": False})
    assert receipt.result == result


def test_a_small_child_carries_a_pail_that_was_looked_into(yard: Yard) -> None:
    look = yard.home.write("pail", {"animals": yard.hens, "mixed": False})
    child = yard.home.person("Pip", "child")
    phone = DeviceFactory(household=yard.home.household, people=[child])
    carried = yard.home.push_one(phone, "chore_done", {"chore": f"pail/{look}/2026-11-25"})
    assert carried.result == "accepted"


def test_only_what_is_known_goes_on_a_heap(home: Home) -> None:
    heap = home.edit("heap", {"name": "Left heap", "fills_from": "2026-09-01"})
    added = {"heap": heap, "did": "added", "material": "straw", "grams": 1_350}
    assert home.write("heap", added)
    assert home.refused("heap", added | {"material": "moon_dust"}).code == "material_unknown"
