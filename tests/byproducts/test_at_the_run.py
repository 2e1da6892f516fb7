"""At the run: bird disease near, animals that get nothing now. What comes back to the tray."""

from __future__ import annotations

from typing import Any

import pytest

from tests.factories import DeviceFactory, Home


class Run:
    """Hens with a pail that was looked into, a small child's phone, and the household's mark."""

    def __init__(self, home: Home) -> None:
        self.home = home
        self.hens = home.animals()
        self.look = home.write("pail", {"animals": self.hens, "mixed": False})
        self.child = home.person("Pip", "child")
        self.phone = DeviceFactory(household=home.household, people=[self.child])
        home.edit("household", {"outbreak": True}, str(home.id))

    def entries(self) -> dict[str, tuple[str, dict[str, Any]]]:
        return {
            "eggs": ("lay", {"animals": self.hens, "day": "2026-11-25", "eggs": 6}),
            "pail": ("chore_done", {"chore": f"pail/{self.look}/2026-11-25"}),
            "take up": ("chore_done", {"chore": f"take_up/{self.look}/2026-11-25"}),
        }


@pytest.fixture
def run(home: Home) -> Run:
    return Run(home)


@pytest.mark.parametrize("entry", ["eggs", "pail", "take up"])
def test_a_small_childs_entry_of_the_run_is_not_taken(run: Run, entry: str) -> None:
    kind, body = run.entries()[entry]
    receipt = run.home.push_one(run.phone, kind, body)
    assert (receipt.result, receipt.code, receipt.permanent) == ("refused", "outbreak", True)
    assert receipt.facts["rows"] == ["kitchen_safety:bird_outbreak"]


@pytest.mark.parametrize("entry", ["eggs", "pail", "take up"])
def test_nor_is_an_adults_that_took_the_child_along(run: Run, entry: str) -> None:
    kind, body = run.entries()[entry]
    assert run.home.refused(kind, body, **{"with": [run.child]}).code == "outbreak"
    assert run.home.write(kind, body)


@pytest.mark.parametrize("entry", ["eggs", "pail", "take up"])
def test_without_the_mark_it_is_taken(run: Run, entry: str) -> None:
    run.home.edit("household", {"outbreak": False}, str(run.home.id))
    kind, body = run.entries()[entry]
    assert run.home.push_one(run.phone, kind, body).result == "accepted"


def test_a_pail_to_the_pigs_is_carried_by_whom_one_likes(run: Run) -> None:
    pigs = run.home.animals("Pigs", "pig")
    look = run.home.write("pail", {"animals": pigs, "mixed": False})
    carried = run.home.push_one(run.phone, "chore_done", {"chore": f"pail/{look}/2026-11-25"})
    assert carried.result == "accepted"


@pytest.mark.parametrize(
    ("values", "of"),
    [
        ({"withheld": True}, "hens"),
        ({"withheld_until": "2026-12-01"}, "hens"),
        ({"housing_order": True}, "home"),
    ],
)
def test_a_pail_is_carried_to_no_animals_that_get_nothing_now(
    run: Run, values: dict[str, Any], of: str
) -> None:
    """It was looked into while they still might have it; what lies there may still be taken up."""
    run.home.edit("household", {"outbreak": False}, str(run.home.id))
    told = ("animals", values, run.hens) if of == "hens" else ("household", values, str(run.home.id))
    run.home.edit(*told)
    kind, body = run.entries()["pail"]
    receipt = run.home.refused(kind, body)
    assert (receipt.code, receipt.permanent) == ("pail_barred", True)
    assert receipt.facts["rows"]
    assert run.home.write(*run.entries()["take up"])
