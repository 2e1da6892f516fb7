"""The season with no signal: what to plant, what to eat when, which variety keeps, how well the bands held.

An own yield counts at once: twice what the table prints is half the row (docs/sheets.md, `planting`).
"""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.journeys import steps
from tests.journeys.browsers import Phone
from tests.journeys.home import Home

pytestmark = pytest.mark.browser

#: printed for a metre of carrots in planting.csv [kg]
PRINTED_KG = 1.49


def metres(page: Page) -> int:
    told = page.get_by_text(re.compile(r"Put away .*: plant \d+\sm"))
    told.wait_for()
    found = re.search(r"plant (\d+)", told.inner_text())
    assert found
    return int(found[1])


def test_the_year_ahead_is_read_and_an_own_yield_counts_with_no_signal(
    home: Home, phone: Callable[[str, str], Phone]
) -> None:
    home.manage("demo")
    home.run("tests.journeys.make_sheets")
    ruth = phone("ruth", f"http://localhost:{home.port}")
    page = ruth.open()
    steps.key(page, "Look at an invented household").click()
    page.get_by_text("Decide on one").wait_for()
    steps.go(page, "/season/plant")
    page.get_by_role("link", name="Carrot").wait_for()
    page.wait_for_function("() => navigator.serviceWorker.controller || navigator.serviceWorker.ready")
    ruth.cut_network()

    page.get_by_role("link", name="Carrot").click()
    printed = metres(page)
    expect(page.get_by_text("A metre of row brings 1.5")).to_be_visible()
    steps.type_number(page, "Yours, a metre of row", str(2 * PRINTED_KG))
    steps.key(page, "Keep").click()
    expect(page.get_by_text("Your own figure.")).to_be_visible()
    assert metres(page) == pytest.approx(printed / 2, abs=1)

    for tab, said in (("Weeks", "Week by week"), ("Varieties", "Winter Cope"), ("Plant", "Enough to last")):
        steps.go(page, "/season")
        page.get_by_role("navigation", name="Season").get_by_role("link", name=tab).click()
        expect(page.get_by_text(said).or_(page.get_by_label(said)).first).to_be_visible()
    steps.go(page, "/season/score")
    expect(page.get_by_text("forecasts are kept")).to_be_visible()

    ruth.cut_network(False)
    page.reload()
    steps.all_sent(page)
    home.run("tests.journeys.make_sheets")
    steps.go(page, "/season/plant/carrot")
    assert metres(page) == pytest.approx(printed / 2, abs=1)
