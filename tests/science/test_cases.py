"""Questions in, answers out."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command

from homestead.season.cases import MalformedLine, answers

SEASONS = (Path(__file__).parent / "data" / "invented_seasons.jsonl").read_text().splitlines()
FEW = SEASONS[:24]
BANDS = ("sound_now", "sound_28", "sound_56", "lost_56", "run_out_day")


@pytest.fixture(scope="module")
def told() -> list[dict[str, Any]]:
    return list(answers(FEW))


def test_it_answers_every_question_in_order(told: list[dict[str, Any]]) -> None:
    asked = [json.loads(line)["case"] for line in FEW if "case" in json.loads(line)]
    assert [one["case"] for one in told] == asked


def test_bands_are_in_order_finite_and_not_negative(told: list[dict[str, Any]]) -> None:
    for one in told:
        for name in BANDS:
            low, middle, high = (one[name][key] for key in ("p10", "p50", "p90"))
            assert 0 <= low <= middle <= high < 1e6, one["case"]
        assert 0 < one["p_lasts"] < 1


@pytest.mark.parametrize("cut", [1, 9, 17, 23])
def test_nothing_looks_ahead(told: list[dict[str, Any]], cut: int) -> None:
    before = list(answers(FEW[:cut]))
    assert before == told[: len(before)]


def test_other_households_change_nothing(told: list[dict[str, Any]]) -> None:
    stranger = [json.dumps(json.loads(line) | {"household": "another"}) for line in FEW[8:12]]
    mine = [json.loads(line)["case"] for line in FEW if "case" in json.loads(line)]
    mixed = [one for one in answers(stranger + FEW)][-len(mine) :]
    assert mixed == told


def test_records_of_the_day_and_later_change_nothing(told: list[dict[str, Any]]) -> None:
    first = next(json.loads(line) for line in FEW if "case" in json.loads(line))
    day = first["as_of"]
    first["lot"]["uses"].append({"day": day, "pieces": 5, "kg": 1.0})
    first["lot"]["inspections"].append({"day": day, "mode": "all", "looked": 9, "culled": 9})
    first["temps"].append({"day": day, "c": 22.0})
    assert next(answers([json.dumps(first)])) == told[0]


def test_unknown_keys_are_ignored(told: list[dict[str, Any]]) -> None:
    line = next(line for line in FEW if "case" in json.loads(line))
    assert next(answers([json.dumps(json.loads(line) | {"weather": "fine"})])) == told[0]


@pytest.mark.parametrize(
    ("spoil", "word"),
    [
        (lambda line: line.pop("as_of"), "as_of"),
        (lambda line: line["lot"].update(pieces=-3), "pieces put away"),
        (lambda line: line["lot"].update(pieces="many"), "many"),
        (lambda line: line["temps"].append({"day": "2001-02-30", "c": 3}), "day"),
        (lambda line: line["temps"].append({"day": "2001-02-03", "c": 300}), "reading of the room"),
        (lambda line: line["lot"]["handbook"].update(life_days=[200, 100]), "handbook life"),
        (lambda line: line.update(lot=None), "NoneType"),
    ],
)
def test_a_malformed_line_is_told_by_its_number(spoil: Any, word: str) -> None:
    line = json.loads(next(line for line in FEW if "case" in json.loads(line)))
    spoil(line)
    with pytest.raises(MalformedLine, match="line 2: ") as caught:
        list(answers([FEW[0], json.dumps(line)]))
    assert caught.value.number == 2
    assert word in str(caught.value)


def test_the_command_stops_at_a_malformed_line(monkeypatch: pytest.MonkeyPatch) -> None:
    said, complaint = io.StringIO(), io.StringIO()
    monkeypatch.setattr(sys, "stdin", io.StringIO(FEW[0] + "\n{half a line\n"))
    with pytest.raises(SystemExit) as stopped:
        call_command("answer_cases", stdout=said, stderr=complaint)
    assert stopped.value.code == 1
    assert complaint.getvalue().startswith("line 2: ")
