"""10,000 random questions against the tables themselves, read here anew as text, without the project's own
reader.

Never offered: what any table calls never. Never withheld without the name of the rule that does it.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from homestead.reference import rules
from homestead.storekeeping.feeding import check_went, may_feed
from homestead.storekeeping.ladder import uses_of
from tests.storekeeping.ladder_combinations import combinations

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "reference"
SEED, COUNT = 20_261_125, 10_000
STEPS = ("raw", "cook", "pot", "animals", "compost", "bin")
MOULD = {"mould", "white_mould", "grey_mould", "blue_mould", "black_mould"}
#: codes that rest on the question or the household's settings rather than on a row
WITHOUT_ROW = {"findings_needed", "unsure", "law_not_known"}

Line = Mapping[str, str]


@cache
def lines(table: str) -> tuple[Line, ...]:
    with (FOLDER / f"{table}.csv").open(encoding="utf-8", newline="") as text:
        return tuple(csv.DictReader(text))


@cache
def asked() -> tuple[dict[str, Any], ...]:
    return tuple(combinations(rules(), SEED, COUNT))


@cache
def feeds_as() -> dict[str, str]:
    stored = {line["crop_id"]: line["feed_crop_id"] for line in lines("crops")}
    return stored | {line["id"]: line["feed_crop_id"] for line in lines("in_hand")}


@cache
def rotten() -> set[str]:
    return {line["id"] for line in lines("findings") if line["kind"] == "rot"}


def never_by_feed_safety(question: Mapping[str, Any], animal: str) -> bool:
    """A never for this crop or any, this part or all, this state or any."""
    words = {"any"}
    for finding in question["findings"]:
        words |= {"mouldy"} if finding in MOULD else {"rotten"} if finding in rotten() else set()
        words |= {"greening": {"green"}, "sprouting": {"sprouted"}, "bitter": {"bitter"}}.get(finding, set())
        words |= {"rancid": {"rancid"}, "salted": {"salted"}}.get(finding, set())
        words |= {"sound": {"sound"}, "cooked": {"cooked"}}.get(finding, set())
    for line in lines("feed_safety"):
        if (line["animal"], line["verdict"]) != (animal, "never") or line["condition"] not in words:
            continue
        parts = {part.strip() for part in line["crop_part"].split(",")}
        every = parts & {"any", "all", "all parts", "whole"}
        if line["crop_id"] == "any_produce" and every:
            return True
        fed = feeds_as().get(question["crop"])
        if fed and line["crop_id"] == fed and (every or question["part"] in parts):
            return True
    return False


@cache
def ladder_lines() -> dict[tuple[str, str, str], Line]:
    return {(line["crop_id"], line["part"], line["condition"]): line for line in lines("ladder")}


def exact_line(question: Mapping[str, Any], finding: str) -> Line | None:
    """The row written for exactly this crop, part and state."""
    return ladder_lines().get((question["crop"], question["part"], finding))


@cache
def row_names() -> frozenset[str]:
    keys = {
        "ladder": ("crop_id", "part", "condition"),
        "feed_safety": ("animal", "crop_id", "crop_part", "condition"),
        "kitchen_safety": ("topic",),
        "eaters": ("id",),
        "feeding_law": ("jurisdiction", "citation", "animal"),
    }
    return frozenset(
        f"{table}:" + "/".join(line[column].replace("/", "-") for column in columns)
        for table, columns in keys.items()
        for line in lines(table)
    )


def answers() -> Iterator[tuple[dict[str, Any], Any, Any]]:
    for one in asked():
        for group in one["groups"]:
            yield one, group, may_feed(rules(), one["question"], group, one["law"])


def test_it_offers_no_animal_what_any_table_calls_never() -> None:
    offered = 0
    for one, group, answer in answers():
        if not answer["offered"]:
            continue
        offered += 1
        question, animal = one["question"], group["kind"]
        assert not rotten().intersection(question["findings"]), question
        assert not {"unsure", "spent", "treated"}.intersection(question["findings"]), question
        assert question["findings"], question
        assert not never_by_feed_safety(question, animal), (question, animal)
        for finding in question["findings"]:
            if line := exact_line(question, finding):
                assert animal not in line["animals_never"].split(), (question, animal)
    assert offered > COUNT / 50, "a ladder that offers nothing is no ladder"


def test_it_refuses_at_push_what_any_table_calls_never() -> None:
    refused = 0
    for one, group, answer in answers():
        question = one["question"]
        if rotten().intersection(question["findings"]) or never_by_feed_safety(question, group["kind"]):
            refused += 1
            assert answer["refused"], (question, group)
    assert refused > COUNT / 10


def test_it_names_the_rule_that_withholds_from_an_animal() -> None:
    for one, _, answer in answers():
        if answer["offered"]:
            continue
        assert answer["code"], one
        if answer["code"] in WITHOUT_ROW or (answer["code"] == "not_known" and not answer["rows"]):
            continue
        assert answer["rows"], (one, answer)
        known = {row for row in answer["rows"] if row in row_names()}
        assert known or answer["kind"] == "goose", (one, answer)


def test_it_withholds_from_no_animal_what_every_table_allows() -> None:
    """Exactly this part in exactly this state is offered by its row, no never stands against it, it was cut
    in the yard, and the group is well: then it is offered, or the row named says to avoid it."""
    allowed = 0
    for one, group, answer in answers():
        question, animal = one["question"], group["kind"]
        found = [exact_line(question, finding) for finding in dict.fromkeys(question["findings"])]
        plain = question["cut_in"] in ("store", "yard") and not group.get("withheld")
        old = question["age_days"] is not None and question["age_days"] > 20
        kitchen = {"animal", "preserve", "kitchen"}.intersection(
            {rules()["crops"].get(question["crop"], {}).get("kind")}
        )
        if not found or not plain or old or kitchen or "cooked" in question["findings"]:
            continue
        if all(line and animal in line["animals_offered"].split() for line in found):
            allowed += 1
            assert answer["offered"], (question, animal, answer)
    assert allowed > COUNT / 200


def test_it_leaves_people_no_step_that_the_row_of_the_piece_has_not() -> None:
    checked = 0
    for one in asked():
        question = one["question"]
        uses = uses_of(rules(), question)
        left = {allowed["step"] for allowed in uses["steps"]} - {"bin"}
        for finding in question["findings"]:
            line = exact_line(question, finding)
            if line and (finding != "sound" or set(question["findings"]) == {"sound"}):
                checked += 1
                assert left <= set(line["steps_down"].split(" > ")), (question, line)
    assert checked > COUNT / 10


def test_it_withholds_from_people_no_step_without_a_row_that_lacks_it() -> None:
    by_name = {
        f"ladder:{line['crop_id']}/{line['part']}/{line['condition']}": line for line in lines("ladder")
    }
    for one in asked():
        uses = uses_of(rules(), one["question"])
        for withheld in uses["withheld"]:
            if withheld["code"] == "table":
                assert withheld["rows"], (one, withheld)
                for row in withheld["rows"]:
                    assert withheld["step"] not in by_name[row]["steps_down"].split(" > ")
            if withheld["code"] == "begins_below":
                assert withheld["step"] not in by_name[withheld["rows"][0]]["steps_down"].split(" > ")


def test_it_withholds_from_people_no_step_that_every_row_of_the_piece_leaves() -> None:
    """Exactly this part in exactly these states has its rows, and no age makes it old: what all leave,
    from where the crop begins, is left."""
    checked = 0
    for one in asked():
        question = one["question"]
        states = [f for f in dict.fromkeys(question["findings"]) if f != "sound"] or ["sound"]
        found = [line for state in states if (line := exact_line(question, state))]
        young = question["age_days"] in (None, 10)
        if not question["findings"] or len(found) < len(states) or not young:
            continue
        common = set.intersection(*(set(line["steps_down"].split(" > ")) for line in found))
        wanted = common - {"animals", "bin"} - above_where_it_begins(question)
        left = {allowed["step"] for allowed in uses_of(rules(), question)["steps"]}
        checked += 1
        assert wanted <= left, (question, wanted, left)
    assert checked > COUNT / 10


def above_where_it_begins(question: Mapping[str, Any]) -> set[str]:
    """Steps above the one that the crop's sound stored part begins at, for a piece that is whole."""
    stored = {line["crop_id"]: line["stored_part"] for line in lines("crops")}
    stored |= {line["id"]: line["stored_part"] for line in lines("in_hand")}
    part = stored.get(question["crop"])
    line = ladder_lines().get((question["crop"], part or "", "sound"))
    if line is None or question["part"] not in (part, "sound part"):
        return set()
    return set(STEPS[: STEPS.index(line["best_step"])])


def test_it_names_everyone_at_table_who_must_not_have_it() -> None:
    named = 0
    for one in asked():
        question = one["question"]
        for allowed in uses_of(rules(), question)["steps"]:
            told = {(not_for["eater"], not_for["row"]) for not_for in allowed["not_for"]}
            wanted = set(barred_at_table(question, allowed["step"]))
            named += len(wanted)
            assert wanted <= told, (question, allowed["step"])
    assert named > COUNT / 100


def barred_at_table(question: Mapping[str, Any], step: str) -> Iterator[tuple[str, str]]:
    for line in lines("eaters"):
        crops, parts, states = (line[name].split() for name in ("crops", "parts", "conditions"))
        bears = (
            step in line["steps"].split()
            and (not crops or question["crop"] in crops)
            and (not parts or question["part"] in (*parts, "not_known"))
            and (not states or set(states) & set(question["findings"]))
        )
        for eater in line["eaters"].split():
            if bears and eater in question["eaters"]:
                yield eater, f"eaters:{line['id']}"


def test_those_who_bear_less_get_nothing_that_any_rot_was_cut_from() -> None:
    """All but a jar or a crock that works: nothing is cut from those."""
    [line] = [line for line in lines("eaters") if line["id"] == "trimmed_frail"]
    assert rotten() - {"working"} <= set(line["conditions"].split())


def test_the_form_and_the_push_agree() -> None:
    """What the phone's form offers the server takes; what the server refuses the form does not offer."""
    for one in asked():
        question = one["question"]
        for group in one["groups"]:
            went: dict[str, Any] = {
                "step": "animals",
                "animals": "g",
                "cut_in": question["cut_in"] or "kitchen",
            }
            if question["part"]:
                went["part"] = question["part"]
            refusal = check_went(
                rules(),
                went,
                crop=question["crop"],
                findings=question["findings"],
                whole=True,
                groups={"g": group},
                law=one["law"],
            )
            answer = may_feed(rules(), question | {"age_days": None}, group, one["law"])
            assert (refusal is not None) == answer["refused"], (one, refusal, answer)


@pytest.mark.parametrize("state", ["spent", "treated", "unsure"])
def test_the_questions_hold_every_kind_of_state(state: str) -> None:
    assert any(state in one["question"]["findings"] for one in asked())
