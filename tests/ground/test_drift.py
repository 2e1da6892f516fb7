"""Made files that are kept in the tree are what they would be if made now."""

from __future__ import annotations

from pathlib import Path

from homestead.jobs.checking.drift import differing


def write(folder: Path, **files: str) -> Path:
    folder.mkdir(exist_ok=True)
    for name, text in files.items():
        (folder / f"{name}.json").write_text(text)
    return folder


def test_files_as_they_would_be_made_are_no_drift(tmp_path: Path) -> None:
    kept = write(tmp_path / "kept", a="1\n", of_others="x\n")
    assert list(differing(kept, write(tmp_path / "fresh", a="1\n"), alone=False)) == []


def test_a_file_made_differently_is_named_with_what_differs(tmp_path: Path) -> None:
    kept = write(tmp_path / "kept", a="one\ntwo\n")
    told = list(differing(kept, write(tmp_path / "fresh", a="one\nthree\n"), alone=False))
    assert len(told) == 1
    assert told[0].startswith("kept/a.json is out of date:")
    assert "-two" in told[0]
    assert "+three" in told[0]


def test_a_file_that_is_not_kept_is_drift(tmp_path: Path) -> None:
    (tmp_path / "kept").mkdir()
    assert len(list(differing(tmp_path / "kept", write(tmp_path / "fresh", a="1\n"), alone=False))) == 1


def test_a_file_that_would_not_be_made_any_more_is_drift_where_nothing_else_may_stand(tmp_path: Path) -> None:
    kept = write(tmp_path / "kept", a="1\n", gone="2\n")
    assert len(list(differing(kept, write(tmp_path / "fresh", a="1\n"), alone=True))) == 1
