"""The browser killed (SIGKILL) while it saves and while it pulls: no torn pair, nothing confirmed lost.

Ten kills each here; fifty each by hand: `ROUNDS_KILLS=50 pytest tests/journeys/test_kills.py`.
"""

from __future__ import annotations

import os
import random
import re
import threading
import time
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Error, Page, expect

from tests.journeys import steps, stores
from tests.journeys.browsers import Phone
from tests.journeys.home import Home
from tests.journeys.proxy import Door

pytestmark = pytest.mark.browser

KILLS = int(os.environ.get("ROUNDS_KILLS", "10"))


def open_lot(page: Page) -> None:
    steps.go(page, "/store")
    page.get_by_role("link", name=re.compile("^Carrot")).first.click()
    steps.key(page, "Took some").wait_for()


def take_half_a_kilo(page: Page) -> None:
    """Confirmed when this returns: the sheet closes only after the store's transaction is complete."""
    steps.key(page, "Took some").click()
    page.locator("dialog").get_by_role("button", name=re.compile("^0.5 kg")).click()
    expect(page.locator("dialog[open]")).to_have_count(0)


def whole_pairs(kept: dict[str, Any]) -> None:
    """invariant 11: what waits has its outbox row, and every outbox row its line."""
    waiting = {row["id"] for row in kept["entries"] if row["standing"] == "waiting"}
    assert waiting == {row["id"] for row in kept["outbox"]}


def takes_in(kept: dict[str, Any]) -> int:
    return sum(row["written"]["kind"] == "take" for row in kept["entries"])


def test_killed_while_saving_no_confirmed_entry_is_lost(
    home: Home, phone: Callable[[str, str], Phone]
) -> None:
    """hazard 3, invariant 1, invariant 11, invariant 30: the server is away, so all must be kept here."""
    door = Door(home.port).open()
    idas, chance = phone("ida", door.url), random.Random(11)
    page = idas.open()
    steps.found_household(page, "Nettle Hollow", "Ida", ["root cellar"])
    steps.put_away(page, "Carrot", "Long Ember", "900", "Root cellar")
    steps.go(page, "/store")
    steps.all_sent(page)
    page.evaluate("() => navigator.serviceWorker.ready")
    idas.note_cookies()
    home.stop()
    confirmed = killed_in_the_act = 0
    for _ in range(KILLS):
        open_lot(page)
        killer = threading.Timer(chance.uniform(0.05, 1.2), idas.kill)
        killer.start()
        try:
            while True:
                take_half_a_kilo(page)
                confirmed += 1
        except (Error, AssertionError):  # whatever it was waiting for, the browser is gone
            killed_in_the_act += 1
        killer.join()
        page = idas.open()
        steps.heading(page, "Rounds")
        kept = stores.phone_stores(page)
        whole_pairs(kept)
        assert takes_in(kept) >= confirmed, "a confirmed take is gone"
        assert takes_in(kept) <= confirmed + killed_in_the_act, "a take was written twice"
    print(f"{KILLS} kills while saving, {confirmed} confirmed saves: 0 torn pairs, 0 lost")
    assert killed_in_the_act == KILLS
    home.start()
    until = time.monotonic() + 60
    while stores.phone_stores(page)["outbox"] and time.monotonic() < until:
        steps.sync_now(page)
        page.wait_for_timeout(1500)
    assert {one for _, one, _ in stores.server_lines(home)} == stores.kept_ids(page)
    door.close()


def test_killed_while_pulling_the_cursor_never_runs_ahead_of_the_rows(
    demo_home: Home, phone: Callable[[str, str], Phone]
) -> None:
    """hazard 3, invariant 7: rows and cursor in one transaction, at whatever moment the phone dies."""
    on_server = {one for _, one, _ in stores.server_lines(demo_home)}
    door, chance = Door(demo_home.port).open(), random.Random(3)
    door.fault_for = lambda method, path: "late" if "/sync/pull" in path else "none"
    halves = 0
    for nth in range(KILLS):
        fresh = phone(f"fresh-{nth}", door.url)
        page = fresh.open()
        seen = door.count("/sync/pull")
        steps.key(page, re.compile("^Look at")).click()
        wait_for_pulls(door, seen + 1)
        fresh.note_cookies()
        wait_for_pulls(door, seen + chance.randrange(1, 6))
        time.sleep(chance.uniform(0, 0.3))
        fresh.kill()
        page = fresh.open()
        page.get_by_role("heading", level=1).first.wait_for()
        if page.evaluate("async () => (await indexedDB.databases()).length") and has_household(page):
            kept = stores.phone_stores(page)
            cursor = next((row["value"].get("cursor") for row in kept["meta"] if row["name"] == "feed"), None)
            highest = max((row.get("seq", 0) for row in kept["entries"]), default=0)
            assert (cursor or {"seq": 0})["seq"] <= highest_row(kept, highest)
            halves += len(kept["entries"]) < len(on_server)
            page.wait_for_function(
                "count => document.body.innerText.includes('All sent')", arg=len(on_server), timeout=30_000
            )
            wait_for_rows(page, len(on_server))
            assert stores.kept_ids(page) == on_server
        fresh.close()
    print(f"{KILLS} kills while pulling, {halves} of them with half a ledger: every ledger whole afterwards")
    assert halves > 0, "no kill fell into the pull: widen its time"
    door.close()


def wait_for_pulls(door: Door, count: int) -> None:
    until = time.monotonic() + 15
    while door.count("/sync/pull") < count and time.monotonic() < until:
        time.sleep(0.01)


def has_household(page: Page) -> bool:
    """It stands at the places, not at the first page."""
    return page.get_by_role("heading", name="Winter Rounds", level=1).count() == 0


def highest_row(kept: dict[str, Any], highest_line: int) -> int:
    """Sheets are rows of the feed too."""
    return max([highest_line, *(row.get("seq", 0) for row in kept["sheets"])])


def wait_for_rows(page: Page, count: int) -> None:
    until = time.monotonic() + 30
    while len(stores.phone_stores(page)["entries"]) < count and time.monotonic() < until:
        page.wait_for_timeout(300)
