"""The way of one inspection as `docs/dataflow.md` tells it: what it names is there, and the walk came by."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import CDPSession, Page, expect

from homestead.jobs import node
from tests.journeys import steps
from tests.journeys.browsers import Phone
from tests.journeys.builds import build
from tests.journeys.home import BASE, Home

pytestmark = pytest.mark.browser

TOLD = (BASE / "docs" / "dataflow.md").read_text()
HERE = Path(__file__).parent

Named = tuple[str, str]


def named_in(part: str) -> list[Named]:
    """(path, function) of every row under the heading `part`."""
    _, _, rest = TOLD.partition(f"\n## {part}\n")
    section, _, _ = rest.partition("\n## ")
    found = re.findall(r"^\| `([\w./-]+)` \| `([\w.#]+)` \|", section, re.MULTILINE)
    assert found, f"nothing is named under {part}"
    return found


WALKING, SERVER, OTHER = "On the phone that walks", "On the server", "On the other phone"
EVERY = [one for part in (WALKING, SERVER, OTHER) for one in named_in(part)]


def definition_of(path: str, function: str) -> tuple[int, int]:
    """First and last line of the function, counted from 1: to the next line that is indented no deeper.

    Raises AssertionError when no such function is defined in the file.
    """
    lines = (BASE / path).read_text().splitlines()
    name = re.escape(function.rpartition(".")[2])
    of_module = (
        rf"def {name}\(|(?:export )?(?:async )?function {name}(?:<.*>)?\(|(?:export )?const {name}\b.*="
    )
    of_class = rf"(?:async )?{name}\((?:[^;]*\{{)?$"
    begins = re.compile(rf"^(\s*)(?:{of_module}|{of_class})")
    for first, line in enumerate(lines):
        if found := begins.match(line):
            rest = range(first + 1, len(lines))
            closing = (n for n in rest if lines[n].strip() and depth_of(lines[n]) <= found.end(1))
            return first + 1, next((n for n in closing if not re.match(r"\s*[)}\]]", lines[n])), len(lines))
    raise AssertionError(f"{path} has no function {function}")


def depth_of(line: str) -> int:
    return len(line) - len(line.lstrip())


@pytest.mark.parametrize(("path", "function"), EVERY, ids=lambda part: part.rpartition("/")[2])
def test_a_named_function_is_in_its_file(path: str, function: str) -> None:
    first, last = definition_of(path, function)
    assert first <= last


def test_a_function_that_is_gone_is_noticed() -> None:
    with pytest.raises(AssertionError, match="has no function"):
        definition_of("frontend/src/ledger/record.ts", "no_such_function")


def test_one_inspection_goes_the_way_that_is_told(phone: Callable[[str, str], Phone], tmp_path: Path) -> None:
    """One lot, looked over on one phone and seen on another; coverage by V8 in the browsers, by the
    interpreter's own profiler on the server."""
    dist = build(tmp_path / "dist", "--sourcemap")
    home = watched_home(tmp_path, dist).prepare().start()
    url = f"http://localhost:{home.port}"
    idas, jons = phone("ida", url), phone("jon", url)
    page, other = idas.open(), jons.open()
    steps.found_household(page, "Nettle Hollow", "Ida", ["root cellar"])
    steps.put_away(page, "Carrot", "Long Ember", "24", "Root cellar")
    steps.add_person(page, "Jon", "Adult")
    steps.all_sent(page)
    steps.join(other, steps.pairing_code(page, "Jon"), "Jon's phone")
    steps.go(other, "/store")
    other.get_by_role("link", name=re.compile("^Carrot")).first.wait_for()

    (tmp_path / "called").unlink(missing_ok=True)
    ran = watch(page)
    walk(page)
    steps.all_sent(page)
    came_by = covered(ran, dist, tmp_path)
    assert not_come_by(named_in(WALKING), came_by) == []
    struck = ("frontend/src/ledger/record.ts", "strike")
    assert not_come_by([struck], came_by) == [struck], "nothing was struck: coverage tells what did not run"

    make_rosters(home)
    ran = watch(other)
    steps.sync_now(other)
    other.get_by_role("link", name=re.compile("^Carrot")).first.click()
    expect(other.get_by_text("Looked over").or_(other.get_by_text("sound")).first).to_be_visible()
    assert not_come_by(named_in(OTHER), covered(ran, dist, tmp_path)) == []

    home.stop()
    called = {tuple(line.split()) for line in (tmp_path / "called").read_text().splitlines()}
    assert [one for one in named_in(SERVER) if one not in called] == []


def watched_home(folder: Path, dist: Path) -> Home:
    """A home whose server writes down which of the named functions it called."""
    named = folder / "named"
    named.write_text("".join(f"{path} {function}\n" for path, function in named_in(SERVER)))
    program = (str(HERE / "watched.py"), str(named), str(folder / "called"), "hypercorn")
    return Home(folder / "home", own={"ROUNDS_DIST": str(dist)}, program=program)


def make_rosters(home: Home) -> None:
    """The jobs' part, by the function their schedule names, watched as the server is."""
    command = [*home.program[:-1], "tests.journeys.make_rosters"]
    done = subprocess.run(
        [sys.executable, *command],
        env=home.environment,
        cwd=BASE,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr


def walk(page: Page) -> None:
    steps.go(page, "/rounds")
    steps.key(page, "Walk one anyway").click()
    page.locator("dialog").get_by_text("Root cellar").click()
    steps.key(page, re.compile("^Warmth, one more")).click()
    steps.key(page, re.compile("^Keep the 1 read")).click()
    steps.key(page, re.compile("^All .*sound$")).click()
    steps.heading(page, re.compile("walked$"))
    steps.go(page, "/rounds")


def watch(page: Page) -> CDPSession:
    tool = page.context.new_cdp_session(page)
    tool.send("Profiler.enable")
    tool.send("Profiler.startPreciseCoverage", {"callCount": True, "detailed": True})
    return tool


def covered(tool: CDPSession, dist: Path, folder: Path) -> set[tuple[str, int]]:
    """Where each function begins that was called: (path from the root of the tree, line)."""
    taken: dict[str, Any] = tool.send("Profiler.takePreciseCoverage")
    answer = folder / "coverage.json"
    answer.write_text(json.dumps(taken))
    command = [str(node.NODE), str(HERE / "covered.mjs"), str(dist), str(answer)]
    told = subprocess.run(command, capture_output=True, text=True, check=True)
    return {(f"frontend/{source}", line) for source, line in json.loads(told.stdout)}


def not_come_by(named: list[Named], ran: set[tuple[str, int]]) -> list[Named]:
    assert ran, "the maps led nowhere"
    missed = []
    for path, function in named:
        first, last = definition_of(path, function)
        if not any((path, line) in ran for line in range(first, last + 1)):
            missed.append((path, function))
    return missed
