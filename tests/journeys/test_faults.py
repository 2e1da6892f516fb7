"""Exchange through a door that fails: nothing is lost, nothing doubled, and the words say how it stands."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Page, expect

from tests.journeys import steps, stores
from tests.journeys.browsers import Phone
from tests.journeys.home import Home
from tests.journeys.proxy import Door, Fault

pytestmark = pytest.mark.browser

ToSend = re.compile(r"^\d+ to send$")


@pytest.fixture
def door(home: Home) -> Iterator[Door]:
    opened = Door(home.port).open()
    yield opened
    opened.close()


@pytest.fixture
def page(door: Door, phone: Callable[[str, str], Phone]) -> Page:
    """Ida's phone, with a household of one space and one lot, all sent."""
    opened = phone("ida", door.url).open()
    steps.found_household(opened, "Nettle Hollow", "Ida", ["root cellar"])
    steps.put_away(opened, "Carrot", "Long Ember", "24", "Root cellar")
    steps.go(opened, "/store")
    steps.all_sent(opened)
    return opened


class Times:
    """Answers a fault to the first so many pushes, then lets everything through."""

    def __init__(self, fault: Fault, pushes: int, part: str = "/sync/push") -> None:
        self.fault, self.left, self.part = fault, pushes, part

    def __call__(self, method: str, path: str) -> Fault:
        if self.part not in path or self.left == 0:
            return "none"
        self.left -= 1
        return self.fault


def take(page: Page, amount: str = "1 kg") -> None:
    steps.go(page, "/store")
    page.get_by_role("link", name=re.compile("^Carrot")).first.click()
    steps.key(page, "Took some").click()
    page.locator("dialog").get_by_role("button", name=re.compile(f"^{amount}")).click()
    expect(page.locator("dialog[open]")).to_have_count(0)


def try_again(page: Page) -> None:
    """What a person does who sees that it waits: a touch on the words, then "send now"."""
    steps.sync_now(page)


def same_lines_on_both(page: Page, home: Home) -> None:
    """invariant 2, invariant 4: phone and server hold the same lines, each once, numbered without a gap."""
    lines = stores.server_lines(home)
    ids = [one for _, one, _ in lines]
    assert len(set(ids)) == len(ids)
    assert stores.kept_ids(page) == set(ids)
    assert stores.phone_stores(page)["outbox"] == []


@pytest.mark.parametrize("fault", ["cut_after", "cut_before", "busy", "html", "slow"])
def test_three_takes_survive_a_door_that_fails_twice(
    page: Page, home: Home, door: Door, fault: Fault
) -> None:
    """hazard 1, hazard 28, invariant 1, invariant 15: by fault, the server did its work or never saw it."""
    times = 1 if fault == "slow" else 2
    door.fault_for = Times(fault, times)
    for amount in ("0.5 kg", "1 kg", "2 kg"):
        take(page, amount)
    expect(page.get_by_role("button", name=re.compile(r"to send|All sent")).first).to_be_visible()
    until_sent(page)
    assert door.faults()[fault] == times
    same_lines_on_both(page, home)
    assert [kind for _, _, kind in stores.server_lines(home)].count("take") == 3


def until_sent(page: Page) -> None:
    """Touch "send now" until the words say all is sent; at most ten times."""
    for _ in range(10):
        if stores.waiting(page) == 0:
            break
        try_again(page)
        page.wait_for_timeout(1200)
    steps.all_sent(page)


def test_a_login_page_of_a_guest_network_deletes_nothing_and_is_named(
    page: Page, home: Home, door: Door
) -> None:
    """hazard 28: HTTP 200 alone proves nothing."""
    door.fault_for = lambda method, path: "html" if "/api/" in path else "none"
    take(page)
    try_again(page)
    expect(page.get_by_text("Not our server").first).to_be_visible()
    assert len(stores.phone_stores(page)["outbox"]) == 1
    door.fault_for = lambda method, path: "none"
    until_sent(page)
    same_lines_on_both(page, home)


def test_a_server_that_dies_between_commit_and_reply_has_the_line_once(
    page: Page, home: Home, door: Door
) -> None:
    """hazard 1, invariant 5: killed (SIGKILL) when the push is committed and before its reply went out."""
    killed: list[int] = []

    def kill_once(method: str, path: str) -> Fault:
        if "/sync/push" in path and not killed:
            killed.append(1)
            return "kill_after"
        return "none"

    door.kill = home.kill
    door.fault_for = kill_once
    take(page)
    page.wait_for_timeout(3500)
    assert killed, "the push came, and the server was killed"
    assert [kind for _, _, kind in stores.server_lines(home)].count("take") == 1, "it was committed"
    assert len(stores.phone_stores(page)["outbox"]) == 1, "the phone knows of no receipt"
    home.start()
    until_sent(page)
    same_lines_on_both(page, home)


def test_two_windows_of_one_phone_write_each_line_once(page: Page, home: Home, door: Door) -> None:
    """hazard 8, invariant 33: a held reply, two windows, one store."""
    other = page.context.new_page()
    other.goto(door.url)
    steps.heading(other, "Rounds")
    door.fault_for = Times("slow", 2)
    take(page, "1 kg")
    take(other, "2 kg")
    for one in (page, other):
        until_sent(one)
    same_lines_on_both(page, home)
    expect(other.get_by_role("button", name=steps.ALL_SENT)).to_be_visible()


def test_without_locks_two_windows_end_the_same(
    home: Home, door: Door, phone: Callable[[str, str], Phone]
) -> None:
    """hazard 8, invariant 33: `navigator.locks` taken away, as on a phone without secure context."""
    idas = phone("ida", door.url)
    page = idas.open()
    idas.context.add_init_script("Object.defineProperty(Navigator.prototype, 'locks', { value: undefined })")
    page.reload()
    steps.found_household(page, "Nettle Hollow", "Ida", ["root cellar"])
    steps.put_away(page, "Carrot", "Long Ember", "24", "Root cellar")
    other = idas.context.new_page()
    other.goto(door.url)
    steps.heading(other, "Rounds")
    assert other.evaluate("() => navigator.locks === undefined")
    door.fault_for = Times("slow", 2)
    take(page, "1 kg")
    take(other, "2 kg")
    for one in (page, other):
        until_sent(one)
    same_lines_on_both(page, home)


def test_a_frozen_window_does_not_hold_the_other_one_up(
    page: Page, home: Home, door: Door, phone: Callable[[str, str], Phone]
) -> None:
    """hazard 9: the window is frozen over the browser's own protocol while its push is out."""
    other = page.context.new_page()
    other.goto(door.url)
    steps.heading(other, "Rounds")
    door.fault_for = Times("slow", 1)
    take(page, "1 kg")
    page.wait_for_timeout(2300)
    tool = page.context.new_cdp_session(page)
    tool.send("Page.setWebLifecycleState", {"state": "frozen"})
    take(other, "2 kg")
    expect(other.get_by_role("button", name=steps.ALL_SENT)).to_be_visible(timeout=60_000)
    tool.send("Page.setWebLifecycleState", {"state": "active"})
    until_sent(page)
    same_lines_on_both(other, home)


def test_a_login_that_ran_out_keeps_all_until_the_phone_is_let_in_again(
    page: Page, home: Home, door: Door
) -> None:
    """hazard 29: the cookie is gone, two takes wait, a new code lets the same phone in, both are sent."""
    code = steps.pairing_code(page, "Ida")
    page.context.clear_cookies()
    take(page, "1 kg")
    take(page, "2 kg")
    try_again(page)
    expect(page.get_by_text("Sign in").first).to_be_visible()
    assert len(stores.phone_stores(page)["outbox"]) == 2
    steps.go(page, "/join")
    page.get_by_role("textbox").first.fill(code)
    name = page.get_by_label("What is this phone called?")
    if name.count():
        name.fill("Ida's phone")
    page.locator(".reach .key").first.click()
    begin = steps.key(page, re.compile("^Begin as"))
    begin.or_(page.get_by_role("heading", name="Rounds", level=1)).first.wait_for()
    if begin.count():
        begin.click()
    until_sent(page)
    same_lines_on_both(page, home)


def test_a_phone_taken_off_the_list_keeps_its_work_and_hands_it_out(
    page: Page, home: Home, door: Door, phone: Callable[[str, str], Phone]
) -> None:
    """hazard 30, invariant 37: refused on its next request; what is unsent is in the file it hands out."""
    steps.add_person(page, "Jon", "Adult")
    code = steps.pairing_code(page, "Jon")
    other = phone("jon", door.url).open()
    steps.join(other, code, "Jon's phone")
    steps.go(page, "/household/phones")
    steps.key(page, "Shut it out").click()
    steps.key(page.locator("dialog[open]"), "Shut it out").click()
    expect(page.locator("dialog[open]")).to_have_count(0)
    take(other, "2 kg")
    try_again(other)
    expect(other.get_by_text("Shut out").first).to_be_visible()
    steps.go(other, "/household/unsent")
    with other.expect_download() as handed:
        steps.key(other, re.compile("Take out")).click()
    text = handed.value.path().read_text()
    (waiting,) = stores.phone_stores(other)["outbox"]
    assert waiting["id"] in text
    assert [kind for _, _, kind in stores.server_lines(home)].count("take") == 0
