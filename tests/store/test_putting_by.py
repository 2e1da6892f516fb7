"""The push asks the rule of putting by again: an older client's line, or one that knew less than the server.

Only sound pieces: common practice of preserving. That patulin outlives heat: US FDA, the row
`mould_apple_patulin` of kitchen_safety.csv.
"""

from __future__ import annotations

from typing import Any

import pytest

from homestead.store.models import Lot
from tests.factories import Home


def put_by(home: Home, lot: str, **told: Any) -> dict[str, Any]:
    """2 kg of the lot into jars; `findings` and `pieces` of these pieces, the rest of the body."""
    some = {name: told.pop(name) for name in ("findings", "pieces") if name in told}
    amount = {} if "pieces" in some else {"grams": 2_000}
    return {
        "from": [{"lot": lot} | amount | some],
        "method": "jar",
        "crop": "jar",
        "label": "Carrots in jars",
        "space": home.space("Pantry"),
        "pack": "jar",
        "pieces": 4,
    } | told


def look(home: Home, lot: str, space: str, *seen: dict[str, Any], day: int, looked: int = 40) -> str:
    told = {"way": "all", "counted": False, "looked": looked, "seen": list(seen), "out": [], "trims": []}
    return home.write("inspection", {"lot": lot, "space": space} | told, day=day)


@pytest.fixture
def cellar(home: Home) -> str:
    return home.space()


@pytest.mark.parametrize("told", [{}, {"findings": ["sound"]}, {"findings": ["shrivelled"]}])
def test_sound_and_limp_ones_are_put_by(home: Home, cellar: str, told: dict[str, Any]) -> None:
    entry = home.write("put_by", put_by(home, home.lot(cellar), **told))
    assert Lot.rows.of(home.id).filter(uuid=entry, stands=True).exists()


@pytest.mark.parametrize(
    ("crop", "finding", "reason"),
    [
        ("carrot", "black_mould", "spoilt"),
        ("carrot", "soft_rot", "spoilt"),
        ("carrot", "unsure", "unsure"),
        ("carrot", "gnawed", "not_sound"),
        ("apple", "bruise", "patulin"),
    ],
)
def test_what_is_told_as_not_sound_is_refused_with_the_reason(
    home: Home, cellar: str, crop: str, finding: str, reason: str
) -> None:
    body = put_by(home, home.lot(cellar, crop), findings=[finding])
    receipt = home.refused("put_by", body)
    assert (receipt.code, receipt.permanent) == ("not_to_put_by", True)
    assert (receipt.facts["reason"], receipt.facts["crop"]) == (reason, crop)
    assert not Lot.rows.of(home.id).filter(born_by="put_by").exists()


def test_what_mould_was_trimmed_from_is_never_put_by(home: Home, cellar: str) -> None:
    trimmed = {"step": "compost", "grams": 300}
    lot = home.lot(cellar)
    assert home.write("put_by", put_by(home, lot, trimmed=trimmed))
    assert home.write("put_by", put_by(home, lot, trimmed=trimmed | {"findings": ["sound"]}))
    receipt = home.refused("put_by", put_by(home, lot, trimmed=trimmed | {"findings": ["black_mould"]}))
    assert receipt.facts["reason"] == "spoilt"
    assert "kitchen_safety:mould_firm_produce" in receipt.facts["rows"]


def test_what_the_fold_knows_of_the_lot_is_asked_too(home: Home, cellar: str) -> None:
    lot = home.lot(cellar, pieces=40)
    look(home, lot, cellar, {"finding": "black_mould", "pieces": 3}, day=2)
    assert home.refused("put_by", put_by(home, lot, pieces=38, findings=["sound"]), day=3)
    assert home.write("put_by", put_by(home, lot, pieces=37, findings=["sound"]), day=3)


def test_mould_nobody_numbered_asks_for_a_word_on_these_pieces(home: Home, cellar: str) -> None:
    lot = home.lot(cellar, pieces=40)
    look(home, lot, cellar, {"finding": "black_mould"}, day=2)
    assert home.refused("put_by", put_by(home, lot, pieces=10), day=3).facts["reason"] == "spoilt"
    assert home.write("put_by", put_by(home, lot, pieces=10, findings=["sound"]), day=3)


def test_what_was_seen_later_is_held_against_no_jar_filled_before(home: Home, cellar: str) -> None:
    lot = home.lot(cellar, pieces=40)
    look(home, lot, cellar, {"finding": "black_mould", "pieces": 40}, day=5)
    assert home.write("put_by", put_by(home, lot, pieces=10), day=3)
    assert home.refused("put_by", put_by(home, lot, pieces=10), day=6).code == "not_to_put_by"


def test_an_own_crop_is_judged_as_the_one_it_is_like(home: Home, cellar: str) -> None:
    own = home.edit("crop", {"name": "Old russet", "like": "apple"})
    body = put_by(home, home.lot(cellar, own), findings=["bruise"])
    assert home.refused("put_by", body).facts["reason"] == "patulin"
