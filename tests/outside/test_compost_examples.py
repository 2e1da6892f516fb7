"""The worked sums of the compost tables, done again by the published formulas.

Moisture: Cornell, Calculating moisture content (Richard & Trautmann), copy at jerrysplantsonline.com.
Carbon to nitrogen: Cornell Waste Management Institute, https://compost.css.cornell.edu/calc/2.html (symbols
seen on the page; the equation there is an image and is written here from memory) and
http://compost.css.cornell.edu/calc/cn_ratio.html.
"""

from __future__ import annotations

import json
from typing import Any

import pytest

from homestead.reference import tables


def example(name: str) -> tuple[dict[str, Any], dict[str, Any]]:
    row = next(row for row in tables().compost_examples if row.id == name)
    return json.loads(row.inputs), json.loads(row.expected)


def c_to_n(kg: list[float], carbon: list[float], nitrogen: list[float], moisture: list[float]) -> float:
    """Ratio of a mix: carbon and nitrogen in % of dry matter, moisture in %."""
    dry = [q * (100 - m) for q, m in zip(kg, moisture, strict=True)]
    return sum(d * c for d, c in zip(dry, carbon, strict=True)) / sum(
        d * n for d, n in zip(dry, nitrogen, strict=True)
    )


def moisture_of(kg: list[float], moisture: list[float]) -> float:
    return sum(q * m for q, m in zip(kg, moisture, strict=True)) / sum(kg)


def test_moisture_of_a_dried_sample() -> None:
    given, expected = example("moist_sample_grass")
    dry_g = given["container_plus_dry_g"] - given["container_g"]
    assert dry_g == pytest.approx(expected["dry_g"])
    assert 100 * (given["wet_g"] - dry_g) / given["wet_g"] == pytest.approx(expected["moisture_pct"])


def test_leaves_needed_to_bring_grass_to_the_moisture_sought() -> None:
    """Q2 = (Q1 G - Q1 M1) / (M2 - G); printed to one decimal."""
    given, expected = example("moist_balance_grass_leaves")
    q1, m1, m2, goal = (given[name] for name in ("Q1_kg", "M1_pct", "M2_pct", "goal_pct"))
    assert (q1 * goal - q1 * m1) / (m2 - goal) == pytest.approx(expected["Q2_kg"], abs=0.05)


def test_moisture_of_the_mix_that_came_of_it() -> None:
    given, expected = example("moist_mix_check")
    assert moisture_of(given["Q_kg"], given["M_pct"]) == pytest.approx(expected["moisture_pct"], abs=0.05)


def test_leaves_needed_to_bring_grass_to_the_ratio_sought() -> None:
    """Q2 = Q1 N1 (R - C1/N1)(100 - M1) / (N2 (C2/N2 - R)(100 - M2)); printed 3.5."""
    given, expected = example("cn_balance_grass_leaves")
    c1, c2, n1, n2 = (given[name] for name in ("C1_pct", "C2_pct", "N1_pct", "N2_pct"))
    m1, m2, q1, goal = (given[name] for name in ("M1_pct", "M2_pct", "Q1_kg", "goal_R"))
    q2 = q1 * n1 * (goal - c1 / n1) * (100 - m1) / (n2 * (c2 / n2 - goal) * (100 - m2))
    assert q2 == pytest.approx(expected["Q2_kg"], abs=0.05)
    assert c_to_n([q1, q2], [c1, c2], [n1, n2], [m1, m2]) == pytest.approx(goal)


@pytest.mark.parametrize("name", ["cn_of_moisture_balanced_mix", "three_material_cabbage_henmanure_straw"])
def test_ratio_and_moisture_of_a_mix(name: str) -> None:
    given, expected = example(name)
    ratio = c_to_n(given["Q_kg"], given["C_pct"], given["N_pct"], given["M_pct"])
    assert ratio == pytest.approx(expected["C_to_N"], abs=0.05)
    assert moisture_of(given["Q_kg"], given["M_pct"]) == pytest.approx(expected["moisture_pct"], abs=0.05)


def test_ratio_of_a_mix_whose_figures_are_on_weight_as_handled() -> None:
    """Compost handout, copy at docslib.org/doc/12269573: hay, scraps, coffee."""
    given, expected = example("cn_as_is_hay_scraps_coffee")
    names = list(given["lb"])
    kg = [given["lb"][name] for name in names]
    carbon = [given["C_pct_as_is"][name] for name in names]
    nitrogen = [given["N_pct_as_is"][name] for name in names]
    ratio = c_to_n(kg, carbon, nitrogen, [0] * len(names))
    assert ratio == pytest.approx(expected["C_to_N"], abs=0.05)


def test_ratios_of_materials_do_not_average() -> None:
    given, expected = example("why_ratios_do_not_average")
    ratio = c_to_n(given["dry_kg"], given["C_pct"], given["N_pct"], [0, 0])
    assert ratio == pytest.approx(expected["C_to_N"])
    assert sum(given["cn_each"]) / 2 == expected["naive_mean"]


def test_carbon_from_ash() -> None:
    """%C = (100 - %ash) / 1.8, the New Zealand formula as given by Cornell (from memory)."""
    given, expected = example("carbon_from_ash")
    assert (100 - given["ash_pct"]) / 1.8 == pytest.approx(expected["C_pct"], abs=0.05)


def test_every_worked_sum_is_done_again_or_is_a_formula() -> None:
    done = {
        *("moist_sample_grass", "moist_balance_grass_leaves", "moist_mix_check", "cn_balance_grass_leaves"),
        *(
            "cn_of_moisture_balanced_mix",
            "three_material_cabbage_henmanure_straw",
            "cn_as_is_hay_scraps_coffee",
        ),
        *("why_ratios_do_not_average", "carbon_from_ash"),
    }
    formulas = {row.id for row in tables().compost_examples if "formula" in json.loads(row.expected).values()}
    counter_examples = {"cn_naive_litter_straw", "cn_naive_volume_grass_leaves"}
    assert done | formulas | counter_examples == {row.id for row in tables().compost_examples}
