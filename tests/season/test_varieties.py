"""Which variety kept better: what finished lots say, side by side, and whether that is enough to tell."""

from __future__ import annotations

from typing import Any

import numpy as np

from homestead.science.guesses import HAZ
from homestead.science.household import Labels, Saying
from homestead.season.facts import household_facts
from homestead.season.varieties import varieties_sheet
from tests.bodies import out
from tests.factories import MORNING, Home

DAY = MORNING.date()
#: lots by variety: pieces culled of a hundred
CULLED = {"Brown Tallis": 4, "Red Maudlin": 40}


def grown(home: Home, *, together: bool = True) -> None:
    """A net of each variety, looked over after a month and eaten up."""
    loft, cellar = home.space("Loft"), home.space()
    for number, (variety, culled) in enumerate(CULLED.items()):
        space = loft if together or number == 0 else cellar
        lot = home.lot(space, "onion", variety=variety, pieces=100, grams=10_000, day=0)
        look = {"lot": lot, "space": space, "way": "all", "looked": 100, "counted": True}
        home.write("inspection", look | {"out": [out(pieces=culled)]}, day=60)
        home.write("count", {"lot": lot, "pieces": 0, "gone": "eaten"}, day=90)


def word(variety: str, season: int, off: float) -> Saying:
    variance, told = np.full(12, np.inf), np.zeros(12)
    variance[HAZ], told[HAZ] = 0.04, off
    return Saying(Labels("onion", f"onion/{variety.lower()}", "loft", season), told, variance)


def words(winters: int, worse: float) -> list[Saying]:
    """A lot of each in every winter, the second variety worse by so much."""
    pair = {"Brown Tallis": 0.0, "Red Maudlin": worse}
    return [word(name, year, off) for year in range(winters) for name, off in pair.items()]


def sheet(home: Home, said: list[Saying]) -> dict[str, Any]:
    [crop] = varieties_sheet(household_facts(home.id).kept, said, DAY)["crops"]
    return dict(crop)


def test_varieties_stand_side_by_side_with_their_lots(home: Home) -> None:
    grown(home)
    told = sheet(home, [word("Brown Tallis", 1, 0.0), word("Red Maudlin", 1, 0.8)])
    assert [one["name"] for one in told["varieties"]] == ["Brown Tallis", "Red Maudlin"]
    assert told["varieties"][0] | {"shrink": None} == {
        "name": "Brown Tallis", "lots": 1, "put_away_grams": 10_000, "shrink": None,
    }  # fmt: skip
    assert all(low < middle < high for low, middle, high in (one["shrink"] for one in told["varieties"]))
    assert (told["winters"], told["side_by_side"]) == (1, True)


def test_one_winter_is_not_enough_to_tell_and_six_are(home: Home) -> None:
    grown(home)
    once = [word("Brown Tallis", 1, 0.0), word("Red Maudlin", 1, 0.5)]
    assert sheet(home, once)["pairs"][0]["verdict"] == "not enough to tell"
    often = words(6, 0.9)
    [pair] = sheet(home, often)["pairs"]
    assert (pair["better"], pair["than"]) == ("Brown Tallis", "Red Maudlin")
    assert pair["verdict"] in ("probably", "clearly")


def test_the_more_winters_the_narrower_the_interval(home: Home) -> None:
    grown(home)

    def width(winters: int) -> int:
        said = [
            word(v, year, off)
            for year in range(winters)
            for v, off in (("Brown Tallis", 0), ("Red Maudlin", 1))
        ]
        low, _, high = sheet(home, said)["varieties"][0]["shrink"]
        return int(high - low)

    assert width(8) < width(1)


def test_lots_that_never_lay_together_are_said_to(home: Home) -> None:
    grown(home, together=False)
    assert sheet(home, [])["side_by_side"] is False


def test_lots_still_in_store_and_nameless_ones_are_left_out(home: Home) -> None:
    grown(home)
    home.lot(home.space("Shed"), "onion", variety="Pale Wenn", pieces=10, grams=1_000, day=0)
    told = sheet(home, [])
    assert len(told["varieties"]) == 2


def test_one_variety_alone_is_compared_with_nothing(home: Home) -> None:
    home.lot(home.space(), "onion", variety="Pale Wenn", pieces=10, grams=1_000, day=0)
    assert varieties_sheet(household_facts(home.id).kept, [], DAY)["crops"] == []
