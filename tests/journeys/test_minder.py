"""A minder's link opened on a phone, the network cut, the days walked, sent, the link ended."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from tests.journeys import steps, stores
from tests.journeys.browsers import Phone
from tests.journeys.home import BASE, Home

pytestmark = pytest.mark.browser


def test_a_minder_walks_with_no_signal_sends_later_and_holds_nothing_of_the_family(
    home: Home, phone: Callable[[str, str], Phone]
) -> None:
    keeper = phone("ruth", f"http://localhost:{home.port}")
    page = keeper.open()
    steps.found_household(page, "Hollow End", "Ruth", ["root cellar", "loft"])
    steps.put_away(page, "Onion", "Ember Fold", "31", "Root cellar")
    steps.all_sent(page)
    made = subprocess.run(
        [sys.executable, "-m", "tests.journeys.minding"],
        env=home.environment,
        cwd=BASE,
        capture_output=True,
        text=True,
        check=False,
    )
    assert made.returncode == 0, made.stderr
    bea = made.stdout.strip().splitlines()[-1]
    steps.go(page, "/household")
    steps.sync_now(page)
    page.get_by_role("link", name="Bea").wait_for()
    steps.go(page, f"/household/person/{bea}")
    page.get_by_role("link", name="A link for their days").click()
    page.get_by_label("The way to the place").fill("past the mill")
    steps.key(page, "Make the link").click()
    address = page.get_by_role("link", name="/#/minder/").get_attribute("href")
    assert address

    minder = phone("bea", f"http://localhost:{home.port}")
    theirs = minder.open(address.removeprefix(minder.url))
    steps.heading(theirs, "A week at Hollow End")
    theirs.get_by_text("past the mill").wait_for()
    theirs.evaluate("() => navigator.serviceWorker.ready")
    minder.cut_network()
    theirs.reload()
    steps.heading(theirs, "A week at Hollow End")
    theirs.get_by_role("button", name="Done: Shut the hens in").click()
    expect(theirs.get_by_role("button", name="Done: Shut the hens in")).to_have_count(0)
    theirs.get_by_role("link", name="Start: Root cellar").first.click()
    steps.key(theirs, "Looked, nothing odd").click()
    steps.heading(theirs, "A week at Hollow End")
    assert stores.waiting(theirs) == 4
    minder.cut_network(False)
    steps.sync_now(theirs)
    steps.all_sent(theirs)
    written = [kind for _, _, kind in stores.server_lines(home)]
    assert written[-4:] == ["chore_done", "inspection", "round", "chore_done"]

    held = json.dumps(stores.phone_stores(theirs))
    assert "Ember Fold" in held
    foreign = ("Ruth", "Loft", "put_away", "31000", "grams", "minutes_a_week")
    assert [word for word in foreign if word in held] == []

    page.get_by_role("button", name="End now").click()
    expect(page.get_by_role("button", name="End now")).to_have_count(0)
    theirs.reload()
    theirs.get_by_text("This week is over.").wait_for()
    assert "Ember Fold" not in json.dumps(stores.phone_stores(theirs))
