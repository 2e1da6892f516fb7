"""The tables as they stand in the tree, and what the check finds when one is spoilt."""

from __future__ import annotations

import csv
import dataclasses
import shutil
from pathlib import Path

import pytest

from homestead.reference import (
    animal_kinds,
    crop_ids,
    figures_for_fold,
    finding_ids,
    findings_in,
    in_hand_ids,
    pack_ids,
    tables,
)
from homestead.reference.reading import TableError
from homestead.reference.tables import FOLDER, KEYS, ROW_TYPES, Tables, load_tables, row_name


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the tables, to be spoilt."""
    copy = tmp_path / "reference"
    shutil.copytree(FOLDER, copy)
    return copy


def spoil(folder: Path, table: str, line: int, **cells: str) -> None:
    """Writes other text into cells of one line (the header is line 1, and no cell holds a line break)."""
    path = folder / f"{table}.csv"
    with path.open(encoding="utf-8", newline="") as text:
        rows = list(csv.reader(text))
    for column, content in cells.items():
        rows[line - 1][rows[0].index(column)] = content
    with path.open("w", encoding="utf-8", newline="") as text:
        csv.writer(text, lineterminator="\n").writerows(rows)


def line_of(table: str, **wanted: str) -> int:
    return next(
        row.line
        for row in tables().rows(table)
        if all(str(vars(row)[column]) == content for column, content in wanted.items())
    )


def codes(folder: Path) -> set[tuple[str, str, int, str]]:
    found = findings_in(load_tables(folder))
    return {(amiss.code, amiss.table, amiss.line, amiss.column) for amiss in found}


def test_the_tables_are_in_order() -> None:
    assert [str(amiss) for amiss in findings_in(tables())] == []


def test_every_file_of_the_folder_is_read() -> None:
    assert {path.stem for path in FOLDER.glob("*.csv")} == set(ROW_TYPES)


def test_every_row_has_source_and_evidence() -> None:
    for table in ROW_TYPES:
        for row in tables().rows(table):
            assert row.source, row_name(table, row)
            assert row.evidence in ("seen", "derived", "common practice", "memory")


@pytest.mark.parametrize(
    ("table", "cells", "code", "column"),
    [
        ("packs", {"source": ""}, "no_source", "source"),
        ("packs", {"evidence": "certain"}, "evidence", "evidence"),
        ("packs", {"evidence": "seen", "source_where": "(memory)"}, "claims_more", "evidence"),
        ("packs", {"crop_id": "potatoe"}, "unknown_id", "crop_id"),
        ("storage", {"crop_id": "any_fish"}, "unknown_id", "crop_id"),
        ("ladder", {"condition": "sad"}, "unknown_id", "condition"),
        ("ladder", {"kitchen_topic": "no_such_topic"}, "unknown_id", "kitchen_topic"),
        ("ladder", {"animals_avoid": "hen"}, "unknown_id", "animals_avoid"),
        ("ladder", {"feed_rows": "potato/tuber/lovely"}, "unknown_id", "feed_rows"),
        ("ladder", {"steps_down": "cook > pigs > compost"}, "unknown_id", "steps_down"),
        ("look_fors", {"finding_id": "gone"}, "unknown_id", "finding_id"),
        ("look_fors", {"use_basis": "kitchen_safety: nowhere"}, "unknown_id", "use_basis"),
        ("findings", {"broader": "decay"}, "unknown_id", "broader"),
        ("crops", {"feed_crop_id": "spud"}, "unknown_id", "feed_crop_id"),
        ("dishes", {"uses": "cabbage:rot:0.5"}, "unknown_id", "uses"),
        ("dishes", {"uses": "half a cabbage"}, "unknown_id", "uses"),
        ("eaters", {"steps": "eat"}, "unknown_id", "steps"),
        ("feeding_law", {"kitchen": "perhaps"}, "unknown_id", "kitchen"),
        ("feed_safety", {"verdict": "fine"}, "unknown_id", "verdict"),
        ("storage", {"rh_low_pct": "140"}, "unit", "rh_low_pct"),
        ("storage", {"temp_low_c": "99", "temp_high_c": "99"}, "unit", "temp_low_c"),
        ("storage", {"life_low_days": "300", "life_high_days": "30"}, "unit", "life_low_days"),
        ("looking_over", {"late_from_month": "13"}, "unit", "late_from_month"),
        ("animals", {"unit": "lb"}, "unit", "unit"),
        ("preserve_yields", {"unit": "bushel"}, "unit", "unit"),
        ("compost_materials", {"c_to_n": "plenty"}, "unit", "c_to_n"),
    ],
)
def test_it_finds_what_is_amiss(
    folder: Path, table: str, cells: dict[str, str], code: str, column: str
) -> None:
    spoil(folder, table, 2, **cells)
    assert (code, table, 2, column) in codes(folder)


@pytest.mark.parametrize(
    ("key", "cells", "column"),
    [
        # offered, where feed_safety says never: sprouted potato to pigs
        (
            ("potato", "tuber", "sprouting"),
            {"animals_offered": "pig", "animals_never": "", "steps_down": "cook > animals > compost"},
            "animals_offered",
        ),
        # offered, where feed_safety has no row at all
        (
            ("celeriac", "root", "sound"),
            {"animals_offered": "duck", "steps_down": "raw > cook > pot > animals > compost"},
            "animals_offered",
        ),
        # offered without the limit that feed_safety sets: carrots to cattle
        (("carrot", "root", "sound"), {"animals_limited": "goat sheep rabbit"}, "animals_limited"),
        # both offered and to be avoided
        (("carrot", "root", "sound"), {"animals_avoid": "pig"}, "animals_avoid"),
        # mould without never
        (("carrot", "root", "black_mould"), {"animals_never": "laying_hen"}, "animals_never"),
        # milder than the look-for of the same finding
        (("potato", "tuber", "rot"), {"best_step": "compost", "steps_down": "compost > bin"}, "best_step"),
    ],
)
def test_it_finds_a_contradiction_between_tables(
    folder: Path, key: tuple[str, str, str], cells: dict[str, str], column: str
) -> None:
    crop, part, condition = key
    line = line_of("ladder", crop_id=crop, part=part, condition=condition)
    spoil(folder, "ladder", line, **cells)
    assert ("contradiction", "ladder", line, column) in codes(folder)


def test_it_finds_a_look_for_milder_than_the_ladder(folder: Path) -> None:
    line = line_of("look_fors", crop_id="apple", finding_id="blue_mould")
    spoil(folder, "look_fors", line, sound_part_step="cook")
    assert ("contradiction", "look_fors", line, "sound_part_step") in codes(folder)


def test_it_finds_a_dish_that_takes_what_the_ladder_took_away(folder: Path) -> None:
    line = line_of("dishes", dish_id="apple_sauce")
    spoil(folder, "dishes", line, uses="apple:mould:1.2")
    assert ("contradiction", "dishes", line, "uses") in codes(folder)


def test_it_finds_a_crop_without_a_rung_or_a_looking_over(folder: Path) -> None:
    line = line_of("crops", crop_id="carrot")
    spoil(folder, "crops", line, crop_id="carrots", stored_part="stick")
    found = codes(folder)
    assert {("missing", "crops", line, "crop_id"), ("missing", "crops", line, "stored_part")} <= found


@pytest.mark.parametrize(
    ("cells", "column", "words"),
    [
        ({"rank": "first"}, "rank", "invalid literal"),
        ({"temp_low_c": "cold"}, "temp_low_c", "could not convert"),
    ],
)
def test_it_names_file_line_and_column_of_a_cell_it_cannot_read(
    folder: Path, cells: dict[str, str], column: str, words: str
) -> None:
    spoil(folder, "storage", 7, **cells)
    with pytest.raises(TableError, match=words) as told:
        load_tables(folder)
    assert (told.value.file.name, told.value.line, told.value.column) == ("storage.csv", 7, column)
    assert "storage.csv, line 7" in str(told.value)


def test_it_refuses_a_word_that_is_none_of_the_allowed(folder: Path) -> None:
    spoil(folder, "looking_over", 3, way="some")
    with pytest.raises(TableError, match="'some' is none of all, sample"):
        load_tables(folder)


def test_it_says_which_column_is_missing(folder: Path) -> None:
    path = folder / "findings.csv"
    path.write_text(path.read_text(encoding="utf-8").replace("broader", "wider", 1), encoding="utf-8")
    with pytest.raises(TableError, match="broader, wider"):
        load_tables(folder)


def test_it_says_where_a_row_has_too_few_cells(folder: Path) -> None:
    path = folder / "findings.csv"
    path.write_text(path.read_text(encoding="utf-8") + "rot,Rot\n", encoding="utf-8")
    with pytest.raises(TableError, match="2 cells for"):
        load_tables(folder)


def test_every_table_has_a_key_of_its_own_columns() -> None:
    for table, columns in KEYS.items():
        names = {field.name for field in dataclasses.fields(ROW_TYPES[table])}
        assert set(columns) <= names


def test_rules_have_one_row_a_name() -> None:
    """Rows that an answer names must be one: the ladder, feed safety, law, those at table."""
    for table in ("ladder", "feed_safety", "feeding_law", "eaters", "look_fors", "looking_over"):
        names = [row_name(table, row) for row in tables().rows(table)]
        assert len(names) == len(set(names)), table


def test_ids_that_entries_may_name_are_those_of_the_tables() -> None:
    assert {"carrot", "jar", "egg"} <= crop_ids() < in_hand_ids()
    assert {"rhubarb", "avocado", "bread"} <= in_hand_ids() - crop_ids()
    assert {"rot", "sound", "unsure", "thawed"} <= finding_ids()
    assert {"sand", "freezer_bag"} <= pack_ids()
    assert "laying_hen" in animal_kinds()


def test_the_fold_gets_a_garden_figure_before_a_shops() -> None:
    figures = figures_for_fold()
    assert figures["potato"]["piece_g"] == 130  # 80 to 180 g from a garden; a shop's is 213
    assert figures["cabbage"]["piece_g"] == 2250
    assert figures["apple"]["piece_g"] == 202  # none from a garden


def test_the_fold_gets_refuse_by_months_of_store() -> None:
    assert figures_for_fold()["cabbage"]["refuse_stored"] == [
        {"months": 3.0, "pct": 15.0},
        {"months": 5.0, "pct": 27.5},
    ]
    assert "refuse_stored" not in figures_for_fold()["egg"]


def test_the_fold_gets_no_weight_where_none_is_known() -> None:
    assert "piece_g" not in figures_for_fold()["grain"]
    assert "piece_g" not in figures_for_fold()["mushroom_dried"]  # weighed by the mushroom, kept by the jar


def test_the_tables_are_read_once() -> None:
    assert tables() is tables()
    assert isinstance(tables(), Tables)
