"""Rules that hold for every file: where things lie, how long they are, what they never name."""

from __future__ import annotations

import ast
import re
import statistics
from pathlib import Path

import pytest

from tests.ground.tree import BASE, ignored, own_files

TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "manage.py", "homestead", "api", "frontend", "tests"}
TOP |= {"fixtures", "docs", ".ci", ".locks", ".gitignore", ".git"}

#: in pieces, so that this file does not hold what it looks for
HOSTS = [
    "regist" + r"ry\.np" + "m",
    r"\bnp" + r"mjs\.",
    r"\bpy" + r"pi\.(org|io)",
    "python" + "hosted",
    r"\bdeb\." + "debian",
    "files\\.python" + "hosted",
    r"\bregist" + r"ry\.yarn" + "pkg",
]
LOCK_ADDRESS = re.compile(
    r'"resolved":|^--(extra-)?index-url|https?://[^"\s]*\.(whl|tgz|tar\.gz)', re.MULTILINE
)


def readable(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except UnicodeDecodeError:
        return ""


def made_by_machine(path: Path) -> bool:
    return "migrations" in path.parts or path.name == "schema.d.ts"


def lines_of(path: Path) -> int:
    return len(path.read_text().splitlines())


def test_it_keeps_the_top_level_as_laid_out() -> None:
    found = {path.name for path in BASE.iterdir() if not ignored(path)} | {".git"}
    assert found == TOP


def test_no_file_names_the_host_of_a_package_registry() -> None:
    pattern = re.compile("|".join(HOSTS), re.IGNORECASE)
    named = {str(path.relative_to(BASE)) for path in own_files() if pattern.search(readable(path))}
    assert named == set()


def test_the_pattern_finds_a_host_when_there_is_one() -> None:
    pattern = re.compile("|".join(HOSTS), re.IGNORECASE)
    assert pattern.search("https://regist" + "ry.np" + "mjs.org/vite")
    assert pattern.search("https://files.python" + "hosted.org/packages/x.whl")


def test_no_lock_records_where_a_package_was_fetched() -> None:
    locks = [*(BASE / ".locks").iterdir(), BASE / "frontend" / "package-lock.json"]
    assert [path.name for path in locks if LOCK_ADDRESS.search(path.read_text())] == []


def test_every_python_lock_has_a_hash_for_every_package() -> None:
    for lock in (BASE / ".locks").glob("*.txt"):
        packages = re.split(r"\n(?=\S)", lock.read_text().strip())
        assert packages
        assert all("--hash=sha256:" in package for package in packages), lock.name


@pytest.mark.parametrize(
    ("suffixes", "most"), [((".py",), 400), ((".ts",), 400), ((".svelte",), 250)], ids=["py", "ts", "svelte"]
)
def test_no_module_is_longer_than_a_person_can_hold(suffixes: tuple[str, ...], most: int) -> None:
    told = BASE / "fixtures"  # what is told there is data: worked vectors, an invented household
    modules = [path for path in own_files(*suffixes) if told not in path.parents]
    lengths = {path: lines_of(path) for path in modules if not made_by_machine(path)}
    assert lengths
    too_long = {str(path.relative_to(BASE)): lines for path, lines in lengths.items() if lines > most}
    assert too_long == {}


def bodies(path: Path) -> list[int]:
    """Lines of each function's body, its docstring left out."""
    found = []
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            body = node.body[1:] if ast.get_docstring(node) else node.body
            found.append(body[-1].end_lineno - body[0].lineno + 1 if body else 0)
    return found


def test_functions_are_short() -> None:
    paths = [path for path in own_files(".py") if path.parts[len(BASE.parts)] in ("homestead", "api")]
    lengths = sorted(length for path in paths if not made_by_machine(path) for length in bodies(path))
    assert statistics.median(lengths) <= 10
    assert lengths[int(len(lengths) * 0.9)] <= 32


def test_no_test_is_left_out_in_silence() -> None:
    silent = re.compile(
        r"mark\." + r"(skip|xfail)|pytest\." + r"(skip|xfail|importorskip)\(|"
        r"\b(it|test|describe)\." + r"(skip|todo|only|skipIf|runIf)\b|\bx(it|describe)\(|unittest\." + "skip"
    )
    here = [path for path in own_files(".py", ".ts") if path != Path(__file__).resolve()]
    assert [str(path.relative_to(BASE)) for path in here if silent.search(path.read_text())] == []
