"""What the phone holds of the tables is what the tables say."""

from __future__ import annotations

import gzip
import json
from pathlib import Path

import pytest

from homestead.reference import rules, tables, version
from homestead.reference.phone import FOLDER, as_text, built, write
from homestead.reference.words import LANGUAGES, Translation, said


def test_the_built_files_are_those_of_the_tables() -> None:
    """Drift: run `python -m homestead.reference.phone`."""
    files = built(tables())
    in_tree = {path.relative_to(FOLDER).as_posix() for path in FOLDER.rglob("*.json")}
    assert in_tree == set(files)
    for name, content in files.items():
        assert (FOLDER / name).read_text(encoding="utf-8") == as_text(content), name


def test_the_phone_judges_by_the_rules_of_the_server() -> None:
    phone = json.loads((FOLDER / "rules.json").read_text(encoding="utf-8"))
    assert phone == rules()
    assert json.loads((FOLDER / "rows.json").read_text(encoding="utf-8"))["version"] == version()


def test_it_writes_only_what_changed(tmp_path: Path) -> None:
    assert len(write(tmp_path)) == len(built(tables()))
    assert write(tmp_path) == []
    (tmp_path / "rules.json").write_text("{}", encoding="utf-8")
    assert write(tmp_path) == [tmp_path / "rules.json"]


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_text_has_a_word_in_every_language(language: str) -> None:
    assert Translation(language).missing(tables()) == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_translation_is_left_of_a_text_that_is_gone(language: str) -> None:
    assert Translation(language).idle(tables()) == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_text_names_a_file_or_calls_out(language: str) -> None:
    """Screens show these: no file names, no cheering, and nothing is called safe."""
    translation = Translation(language)
    for context, english in said(tables()):
        for text in (english, translation.of(context, english)):
            assert ".csv" not in text
            assert "!" not in text
            assert not text.lower().startswith("safe")


def test_the_first_load_stays_small() -> None:
    """Rules, rows and one language under 40 kB together, gzipped: the Rounds' share of the first load."""
    for language in ("en", *LANGUAGES):
        names = ("rules.json", "rows.json", f"words.{language}.json")
        assert sum(len(gzip.compress((FOLDER / name).read_bytes())) for name in names) < 42_000


def test_every_row_points_to_its_source() -> None:
    for path in sorted((FOLDER / "sources").glob("*.json")):
        kept = json.loads(path.read_text(encoding="utf-8"))
        for rows in kept["rows"].values():
            for number, evidence, _ in rows:
                source, where = kept["sources"][number]
                assert source
                assert where
                assert evidence in ("seen", "derived", "common practice", "memory")
