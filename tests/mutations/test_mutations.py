"""Each deliberate mistake turns a vector red, in both twins; the twins as they are turn none."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from homestead.jobs.node import NODE
from tests.mutations.changes import CHANGES, Change, Patch

TREE = Path(__file__).parents[2]
PYTHON_TWIN = TREE / "homestead" / "storekeeping"
TYPESCRIPT_TWIN = TREE / "frontend" / "src" / "storekeeping"
AS_IT_IS = "as_it_is"

Red = dict[str, list[str]]


def patched(folder: Path, patch: Patch) -> None:
    file = folder / patch.file
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace(patch.before, patch.after), encoding="utf-8")


def copies(twin: Path, into: Path, inside: str, patch_of: Callable[[Change], Patch]) -> dict[str, Path]:
    """One copy of the twin for each change, and one without any."""
    made = {}
    for name, change in [(AS_IT_IS, None), *((change.rule, change) for change in CHANGES)]:
        folder = into / name / inside
        shutil.copytree(twin, folder, ignore=shutil.ignore_patterns("__pycache__", "*.test.ts"))
        if change is not None:
            patched(folder, patch_of(change))
        made[name] = into / name
    return made


def red_in(command: Sequence[str], made: dict[str, Path]) -> Red:
    folders = {str(folder): name for name, folder in made.items()}
    told = subprocess.run([*command, *folders], check=True, capture_output=True, text=True, cwd=TREE)
    return {folders[folder]: red for folder, red in json.loads(told.stdout).items()}


@pytest.fixture(scope="module")
def red_in_python(tmp_path_factory: pytest.TempPathFactory) -> Red:
    into = tmp_path_factory.mktemp("python_twin")
    made = copies(PYTHON_TWIN, into, "homestead/storekeeping", lambda change: change.python)
    for folder in made.values():
        (folder / "homestead" / "__init__.py").touch()
    return red_in([sys.executable, str(Path(__file__).with_name("run_vectors.py"))], made)


@pytest.fixture(scope="module")
def red_in_typescript(tmp_path_factory: pytest.TempPathFactory) -> Red:
    into = tmp_path_factory.mktemp("typescript_twin")
    made = copies(TYPESCRIPT_TWIN, into, ".", lambda change: change.typescript)
    return red_in([str(NODE), str(Path(__file__).with_name("run_vectors.ts"))], made)


def test_there_is_one_change_for_each_rule() -> None:
    assert [change.rule for change in CHANGES] == [f"F{number}" for number in range(1, 21)]


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: change.rule)
def test_the_change_still_finds_its_place(change: Change) -> None:
    for twin, patch in ((PYTHON_TWIN, change.python), (TYPESCRIPT_TWIN, change.typescript)):
        assert (twin / patch.file).read_text(encoding="utf-8").count(patch.before) == 1, patch


def test_the_twins_as_they_are_turn_no_vector_red(red_in_python: Red, red_in_typescript: Red) -> None:
    assert red_in_python[AS_IT_IS] == []
    assert red_in_typescript[AS_IT_IS] == []


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: f"{change.rule} {change.mistake}")
def test_a_mistake_turns_vectors_red_in_both_twins(
    change: Change, red_in_python: Red, red_in_typescript: Red
) -> None:
    assert red_in_python[change.rule] != []
    assert red_in_typescript[change.rule] == red_in_python[change.rule]
