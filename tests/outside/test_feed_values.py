"""Dry matter, protein, calcium and energy of what goes to the hens, against published composition.

Composition per 100 g: USDA National Nutrient Database for Standard Reference, release 28, abbreviated file,
read by NDB number in a copy (GitHub jhchen6/parallel-coordinates, ABBREV.csv); the figures read stand in
published/usda_sr28_abbreviated.csv.
Energy: formula of the World's Poultry Science Association, as in feed_values.csv (seen at ltz.de, hatchery
guide), starch taken as carbohydrate less fibre less sugar.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from homestead.reference import figures_for_fold, tables

PUBLISHED = Path(__file__).parent / "published" / "usda_sr28_abbreviated.csv"


def published() -> list[dict[str, str]]:
    with PUBLISHED.open(encoding="utf-8", newline="") as text:
        return list(csv.DictReader(text))


FEEDSTUFFS = [food for food in published() if food["feedstuff"]]
CROPS = [food for food in published() if food["crop_id"]]


def ndb(food: dict[str, str]) -> str:
    return f"NDB {food['ndb']}"


def row_of(food: dict[str, str]) -> tuple[float, float, float, float]:
    """Dry matter %, protein and calcium % of it, energy MJ/kg of it, as the table has them."""
    row = next(r for r in tables().feed_values if r.feedstuff == food["feedstuff"])
    assert row.calcium_pct_dm is not None
    assert row.metabolisable_energy_mj_per_kg_dm_poultry is not None
    energy = row.metabolisable_energy_mj_per_kg_dm_poultry
    return float(row.dry_matter_pct), float(row.crude_protein_pct_dm), row.calcium_pct_dm, energy


@pytest.mark.parametrize("food", FEEDSTUFFS, ids=ndb)
def test_dry_matter_and_protein_are_those_of_the_food_table(food: dict[str, str]) -> None:
    """Printed to one decimal of a percent, so half of the last digit may be lost in each."""
    dry_g = 100 - float(food["water_g"])
    dry_matter, protein, _, _ = row_of(food)
    assert dry_matter == pytest.approx(dry_g, abs=0.051)
    assert protein == pytest.approx(100 * float(food["protein_g"]) / dry_g, abs=0.06)


@pytest.mark.parametrize("food", FEEDSTUFFS, ids=ndb)
def test_calcium_is_that_of_the_food_table(food: dict[str, str]) -> None:
    dry_g = 100 - float(food["water_g"])
    assert row_of(food)[2] == pytest.approx(float(food["calcium_mg"]) / 10 / dry_g, abs=0.0051)


@pytest.mark.parametrize("food", FEEDSTUFFS, ids=ndb)
def test_energy_follows_the_formula_from_the_food_table(food: dict[str, str]) -> None:
    """MJ/kg = 0.01551 CP + 0.03431 fat + 0.01669 starch + 0.01301 sugar, each in g/kg dry matter."""
    dry_g = 100 - float(food["water_g"])
    per_kg = {name: 1000 * float(food[f"{name}_g"]) / dry_g for name in ("protein", "fat", "sugar")}
    starch_g = float(food["carbohydrate_g"]) - float(food["fibre_g"]) - float(food["sugar_g"])
    energy = (
        0.01551 * per_kg["protein"]
        + 0.03431 * per_kg["fat"]
        + 0.01669 * 1000 * max(starch_g, 0) / dry_g
        + 0.01301 * per_kg["sugar"]
    )
    assert row_of(food)[3] == pytest.approx(energy, abs=0.06)


@pytest.mark.parametrize("food", CROPS, ids=ndb)
def test_refuse_and_dry_matter_of_pieces_are_those_of_the_food_table(food: dict[str, str]) -> None:
    weights = [w for w in tables().piece_weights if w.crop_id == food["crop_id"] and w.evidence == "derived"]
    assert weights
    for weight in weights:
        assert weight.refuse_pct == float(food["refuse_pct"])
        assert weight.dry_matter_pct == pytest.approx(100 - float(food["water_g"]), abs=0.051)


@pytest.mark.parametrize("food", CROPS, ids=ndb)
def test_the_fold_peels_a_fresh_piece_as_the_food_table_does(food: dict[str, str]) -> None:
    assert figures_for_fold()[food["crop_id"]]["refuse_pct"] == float(food["refuse_pct"])


def test_hens_get_about_a_tenth_of_their_dry_matter_in_scraps() -> None:
    """Worked: 6 hens, 110 g of feed at 90 % dry matter, 1 kg cabbage trimmings (NDB 11109: 7.82 g dry in
    100 g).

    78.2 g of 672.2 g dry is 11.6 %, the row of feed_values; the limit of about 10 % is common practice, no
    source.
    """
    scraps_g = 1000 * (100 - 92.18) / 100
    share = scraps_g / (6 * 110 * 0.90 + scraps_g)
    worked = next(r for r in tables().feed_values if r.feedstuff == "scrap share on dry matter")
    assert f"{100 * share:.1f} %" in worked.unit
