"""States of one guess, step by step.

Source of data/one_guess.json: worked by the project's designers, independent of this code.
"""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from homestead.science.guesses import LEVELS, MEAN, NAMES, SPREADS, traits
from homestead.science.walk import said_of_use, stretches, walk
from homestead.season.cases import read_line

WORKED = json.loads((Path(__file__).parent / "data" / "one_guess.json").read_text())
WITHIN = {"rel": 0.005, "abs": 0.002}


def walked(check: dict[str, Any]) -> dict[str, float]:
    line = {"case": "x", "household": "h", "year": 0, "as_of": check["as_of"], "temps": []}
    lot = read_line(json.dumps(line | {"lot": WORKED["lots"][check["lot"]]})).lot
    as_of = dt.date.fromisoformat(check["as_of"])
    path = stretches(lot.before(as_of), [4.0] * 400, as_of)
    plain = traits(np.array([[WORKED["guess"][name] for name in NAMES]]))
    end = walk(lot.before(as_of), path, plain)
    said = end.said + said_of_use(lot.before(as_of), plain, end.day)
    at_end = end.pieces
    return {
        "steps": len(path), "F": at_end.fresh[0], "W": at_end.weak[0], "G1": at_end.early[0],
        "G2": at_end.late[0], "R": at_end.rotten[0], "count_variance": at_end.variance[0],
        "effective_age": end.age_days[0], "log_likelihood": said[0], "day": end.day,
    }  # fmt: skip


@pytest.mark.parametrize("check", WORKED["checks"], ids=lambda c: f"{c['lot']} {c['as_of']}")
def test_it_walks_a_lot_as_worked_by_the_designers(check: dict[str, Any]) -> None:
    expected = {k: v for k, v in check.items() if k not in ("lot", "as_of") and v is not None}
    got = walked(check)
    assert {name: got[name] for name in expected} == pytest.approx(expected, **WITHIN)


def test_its_prior_is_the_one_the_designers_worked_with() -> None:
    for name, mean, row in zip(NAMES, MEAN, SPREADS, strict=True):
        assert WORKED["guess"][name] == pytest.approx(mean)
        assert WORKED["prior_sd"][name] == pytest.approx(dict(zip(LEVELS, row, strict=True)))
