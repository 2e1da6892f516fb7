"""Homes and phones for the journeys. The pages are built by `manage.py check-all` before the tests run."""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Playwright, expect, sync_playwright

from tests.journeys.browsers import PATIENCE_MS, Phone
from tests.journeys.home import BASE, Home

#: what the phones showed when a journey failed
FAILURES = BASE / ".screens" / "failures"


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(
    item: pytest.Item, call: pytest.CallInfo[None]
) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Photographs every open phone of a failed journey, while it is still open."""
    report = yield
    if report.failed and call.when == "call":
        for phone in getattr(item, "funcargs", {}).get("phone", lambda: None).__dict__.get("made", []):
            phone.photograph(FAILURES / f"{item.name[:60]}-{phone.profile.name}.png")
    return report


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    expect.set_options(timeout=PATIENCE_MS)
    with sync_playwright() as started:
        yield started


@pytest.fixture
def home(tmp_path: Path) -> Iterator[Home]:
    """A server with an empty store, opened."""
    made = Home(tmp_path / "home").prepare().start()
    yield made
    made.stop()


@pytest.fixture
def demo_home(tmp_path: Path) -> Iterator[Home]:
    """A server with the invented household, as of 25 November 2026, opened."""
    made = Home(tmp_path / "home").prepare(demo_ends_on="2026-11-25").start()
    yield made
    made.stop()


@pytest.fixture
def phone(playwright: Playwright, tmp_path: Path) -> Iterator[Callable[[str, str], Phone]]:
    """`phone(name, url)`: a phone of that name; all are closed when the test ends."""
    made: list[Phone] = []

    def make(name: str, url: str) -> Phone:
        made.append(Phone(playwright, tmp_path / f"phone-{name}", url))
        return made[-1]

    make.__dict__["made"] = made
    yield make
    for one in made:
        one.close()
