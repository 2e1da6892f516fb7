"""Unsent work taken out of one phone as a file and brought in on another: nothing lost, nothing doubled."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.journeys import steps, stores
from tests.journeys.browsers import Phone
from tests.journeys.home import Home

pytestmark = pytest.mark.browser

Phones = Callable[[str, str], Phone]


def bring_in(page: Page, file: Path, told: str) -> None:
    steps.go(page, "/household/unsent")
    steps.heading(page, "What was not sent")
    page.locator("input[type=file]").set_input_files(file)
    expect(page.locator("main").get_by_text(told)).to_be_visible()


def test_what_one_phone_could_not_send_another_sends(home: Home, phone: Phones, tmp_path: Path) -> None:
    url = f"http://localhost:{home.port}"
    one = phone("cellar", url)
    page = one.open()
    steps.found_household(page, "Nettle Hollow", "Ida", ["root cellar"])
    code = steps.pairing_code(page, "Ida")
    other = phone("kitchen", url).open()
    steps.join(other, code, "Kitchen")
    steps.go(page, "/store")
    steps.all_sent(page)

    one.cut_network()
    steps.put_away(page, "Carrot", "Long Ember", "24", "Root cellar")
    steps.put_away(page, "Beetroot", "Black Tamsin", "12", "Root cellar")
    unsent = {row["id"] for row in stores.phone_stores(page)["outbox"]}
    assert len(unsent) == 2
    steps.go(page, "/household/unsent")
    with page.expect_download() as download:
        steps.key(page, "Take out a file").click()
    file = tmp_path / "unsent.json"
    download.value.save_as(file)

    bring_in(other, file, "Brought in: 2 new.")
    bring_in(other, file, "Brought in: 0 new.")
    steps.go(other, "/store")
    expect(other.get_by_text("Beetroot").first).to_be_visible()
    steps.all_sent(other)
    assert unsent <= {line for _, line, _ in stores.server_lines(home)}
    taken = [line for _, line, _ in stores.server_lines(home)]

    # The phone they came from has a signal again: the same lines, known by their ids, count once.
    one.cut_network(False)
    steps.go(page, "/store")
    steps.all_sent(page)
    assert [line for _, line, _ in stores.server_lines(home)] == taken
    for shown in (page, other):
        steps.go(shown, "/find")
        shown.get_by_role("searchbox").fill("root cellar")
        expect(shown.get_by_text("2 lots found.")).to_be_visible()
    bring_in(page, file, "Brought in: 0 new.")
