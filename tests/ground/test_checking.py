"""`check-all` judged by itself: it goes red when a step does, counts tests, and names what was not run."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest
from playwright.sync_api import sync_playwright

from homestead.jobs.checking import browser, running, services, steps
from homestead.jobs.checking.running import Outcome
from homestead.jobs.checking.services import Service
from homestead.jobs.checking.steps import Step
from homestead.jobs.management.commands.check_all import Command


def said(text: str, code: int = 0, counts: bool = True) -> Outcome:
    return Outcome(Step("pytest", [], counts=counts), code, 1.0, text)


def python_step(name: str, text: str, **more: bool) -> Step:
    return Step(name, [sys.executable, "-c", text], **more)


# Closing lines as pytest 9 and vitest 5 print them, copied from runs.
@pytest.mark.parametrize(
    ("text", "counted"),
    [
        ("....\n12 passed in 3.01s", {"passed": 12}),
        ("=== 2 failed, 10 passed, 1 error in 8.00s ===", {"failed": 2, "passed": 10, "error": 1}),
        ("2 passed, 5 deselected in 0.10s", {"passed": 2}),
        ("== 2 warnings, 1 error in 25.19s ==", {"error": 1}),
        ("== 300 passed, 4 warnings in 601.19s (0:10:01) ==", {"passed": 300}),
        (" Test Files  3 passed (3)\n      Tests  41 passed (41)\n   Start at  10:00:00", {"passed": 41}),
        ("      Tests  1 failed | 40 passed (41)\n", {"failed": 1, "passed": 40}),
        ("no closing line: 3 passed by", {}),
    ],
)
def test_it_reads_how_many_tests_passed(text: str, counted: dict[str, int]) -> None:
    assert said(text).counted == counted


def test_a_step_that_counts_no_tests_adds_none() -> None:
    assert said("12 passed in 3.01s", counts=False).counted == {}


def test_a_failing_step_is_told_with_all_it_said(capsys: pytest.CaptureFixture[str]) -> None:
    text = "import sys; print('line one'); print('what went wrong', file=sys.stderr); sys.exit(3)"
    outcome = running.run(python_step("broken", text), dict(os.environ))
    told = capsys.readouterr().out
    assert outcome.code == 3
    assert told.startswith("FAIL broken")
    assert "line one" in told
    assert "what went wrong" in told


def test_a_passing_step_is_told_in_one_line_with_its_time(capsys: pytest.CaptureFixture[str]) -> None:
    running.run(python_step("fine", "print('chatter')"), dict(os.environ))
    told = capsys.readouterr().out
    assert told.startswith("ok   fine")
    assert told.endswith(" s\n")
    assert "chatter" not in told


def test_steps_run_together_but_one_that_needs_the_whole_machine(tmp_path: Path) -> None:
    mark = "import pathlib, sys, time\nd = pathlib.Path(sys.argv[1])\n"
    together = mark + "(d / sys.argv[2]).touch(); time.sleep(0.4); assert not (d / 'alone').exists()"
    alone = mark + "(d / 'alone').touch()"
    order = [
        Step("alone", [sys.executable, "-c", alone, str(tmp_path)], whole_machine=True),
        Step("a", [sys.executable, "-c", together, str(tmp_path), "a"]),
        Step("b", [sys.executable, "-c", together, str(tmp_path), "b"]),
    ]
    outcomes = running.run_all(order, dict(os.environ))
    assert {one.step.name: one.code for one in outcomes} == {"a": 0, "b": 0, "alone": 0}


@pytest.mark.parametrize(
    ("outcomes", "code", "lines"),
    [
        ([said("12 passed in 1s")], 0, ["checks: 1 passed, 0 failed", "tests: 12 passed, 0 failed"]),
        (
            [said("1 failed, 11 passed in 1s", code=1), said("3 passed in 1s")],
            1,
            ["not green: pytest", "checks: 1 passed, 1 failed", "tests: 14 passed, 1 failed"],
        ),
        (
            [said("2 passed, 1 skipped in 1s")],
            1,
            ["not green: pytest", "checks: 0 passed, 1 failed", "tests: 2 passed, 0 failed"],
        ),
        (
            [said("", code=2)],
            1,
            ["not green: pytest", "checks: 0 passed, 1 failed", "tests: 0 passed, 0 failed"],
        ),
    ],
)
def test_it_closes_with_counts_and_goes_red_when_a_step_does(
    outcomes: list[Outcome], code: int, lines: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert Command().tell(outcomes) == code
    assert capsys.readouterr().out.splitlines() == lines


def test_a_missing_program_leaves_out_its_tests_by_marker_and_is_named() -> None:
    missing = Service("A thing nobody has", "nowhere", ("no-such-program",), ("no-such-package",))
    assert not missing.is_here()
    command = steps.pytest([missing]).command
    assert command[command.index("-m", 3) + 1] == "not nowhere"


def test_what_no_test_needs_is_neither_fetched_nor_missed() -> None:
    assert not Service("A thing no test names", "unheard" + "of", ("no-such-program",), ()).is_wanted()
    assert Service("Redis", "redis", ("redis-server",), ()).is_wanted()


def test_every_service_has_a_marker_that_tests_can_carry(pytestconfig: pytest.Config) -> None:
    known = {line.partition(":")[0] for line in pytestconfig.getini("markers")}
    assert {service.marker for service in services.SERVICES} <= known


def test_packages_are_fetched_only_on_a_machine_for_checking(monkeypatch: pytest.MonkeyPatch) -> None:
    ran: list[list[str]] = []
    monkeypatch.setattr(services.subprocess, "run", lambda command, **more: ran.append(command))
    monkeypatch.setattr(Service, "is_here", lambda self: False)
    monkeypatch.setattr(Service, "is_wanted", lambda self: True)
    monkeypatch.setattr(services.os, "geteuid", lambda: 0)
    monkeypatch.setattr(services.shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.delenv("CI", raising=False)
    services.fetch_missing()
    assert ran == []
    monkeypatch.setenv("CI", "true")
    services.fetch_missing()
    assert "firefox-esr" in ran[1]


def test_every_step_names_a_program_that_is_there() -> None:
    for step in steps.all_steps([]):
        assert Path(step.command[0]).exists(), step.name
        script = next((part for part in step.command[1:] if part.startswith("/")), None)
        assert script is None or Path(script).exists(), step.name


@pytest.mark.browser
def test_the_browser_of_the_package_is_unpacked_and_shows_a_page(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As on a machine with no browser; its letters have a width, so it found its fonts."""
    monkeypatch.setattr(browser, "UNPACKED", tmp_path / "browser")
    monkeypatch.setenv("ROUNDS_NO_SYSTEM_BROWSER", "1")
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=browser.chromium(), chromium_sandbox=False)
        page = opened.new_page()
        page.set_content("<span>hello</span>")
        assert page.locator("span").evaluate("span => span.offsetWidth") > 10
        opened.close()
