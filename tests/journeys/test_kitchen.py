"""The kitchen with no signal: a stored cabbage cut down to the good inside, each part to the right mouth.

In few taps, counted; tally and share of the hens move at once, and the same stands on the second phone.

Eight taps are the project's own measure. That outer leaves may go to hens: feed_safety.csv. That what was cut
in a kitchen goes to no animal before the country is known: feeding_law.csv.
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

Phones = Callable[[str, str], Phone]
#: from the kitchen's page to the entry
MOST_TAPS = 8
YELLOW = "yellow or dropping leaves"
#: what is cut off of the outside [kg]
LEAVES = 0.3


class Counted:
    """Touches of one hand, counted: what is offered is touched by its name, and by nothing else."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.taps = 0

    def tap(self, name: steps.Name, *, exact: bool = False) -> None:
        steps.key(self.page, name, exact=exact).click()
        self.taps += 1


def two_phones(home: Home, phone: Phones) -> tuple[Phone, Page, Page]:
    """The invented household on Ruth's phone and on Tom's."""
    home.manage("demo")
    url = f"http://localhost:{home.port}"
    first = phone("ruth", url)
    page = first.open()
    steps.key(page, "Look at an invented household").click()
    page.get_by_text("Decide on one").wait_for()
    code = steps.pairing_code(page, "Tom")
    other = phone("tom", url).open()
    steps.join(other, code, "Tom's phone")
    return first, page, other


def told_of_hens(page: Page) -> tuple[float, str]:
    """Kilograms to the hens this week, and how much of it is dry, as the page of scraps says."""
    steps.go(page, "/scraps")
    bars = page.get_by_role("list", name="By where it went")
    bars.wait_for()
    dry = page.get_by_role("button", name=re.compile("dry, .* of it protein"))
    told = bars.get_by_role("listitem").filter(has_text="Hens")
    if told.count() == 0:
        return 0.0, ""
    found = re.search(r"([\d.]+)\s(kg|g)\b", told.first.inner_text())
    assert found
    return float(found[1]) / (1 if found[2] == "kg" else 1000), dry.first.inner_text()


def in_hand(page: Page, lot: str) -> str:
    """What is there of the lot, as the kitchen says."""
    steps.go(page, f"/kitchen/may-i/lot/{lot}")
    page.get_by_role("heading", name=re.compile("^White cabbage"), level=2).wait_for()
    return page.locator(".thing .soft").inner_text()


def same_on(other: Page, lot: str, there: str, fed: tuple[float, str]) -> None:
    """What the first phone said stands on the other one, once it has come."""
    for _ in range(100):
        if in_hand(other, lot) == there and told_of_hens(other) == fed:
            return
        other.wait_for_timeout(300)
    assert (in_hand(other, lot), told_of_hens(other)) == (there, fed)


def cut_down(page: Page, place: str) -> tuple[str, int]:
    """One head with yellow outer leaves: leaves to the hens, core to the compost, the good to the table."""
    steps.go(page, "/kitchen")
    steps.heading(page, "Kitchen")
    hand = Counted(page)
    hand.tap("May I?")
    hand.tap(re.compile("^White cabbage"))
    page.get_by_role("heading", name=re.compile("^White cabbage"), level=2).wait_for()
    lot = str(page.evaluate("location.hash")).rpartition("/")[2]
    hand.tap(YELLOW, exact=True)
    if place != "kitchen":
        hand.tap(place, exact=True)
    hand.tap("Cut it down")
    hand.tap(re.compile("^Outer leaves, 0.3"))
    hand.tap(re.compile("^Core, 0.2"))
    goes(page, "Outer leaves", "Hens")
    goes(page, "Core", "Compost")
    page.get_by_text("The good inside, about").wait_for()
    hand.tap("Cut and to the table")
    # the page before bears the same heading
    page.wait_for_url(re.compile("#/kitchen$"))
    return lot, hand.taps


def goes(page: Page, part: str, where: str) -> None:
    ways = page.get_by_role("group", name=f"{part}: where it goes")
    expect(ways.get_by_role("button", name=where)).to_have_attribute("aria-pressed", "true")


def allow_the_kitchen(page: Page) -> None:
    """A keeper names a country whose rules do not forbid it, has read them, and names the hens."""
    steps.go(page, "/household/settings")
    page.get_by_role("combobox", name="Country").select_option(label="United States")
    steps.key(page, re.compile("^I have read")).click()
    steps.key(page, "hens", exact=True).click()
    steps.key(page, "Keep", exact=True).click()
    steps.heading(page, re.compile("invented"))


def test_a_cabbage_is_cut_down_to_the_good_inside_with_no_signal_and_each_part_goes_its_way(
    home: Home, phone: Phones
) -> None:
    first, page, other = two_phones(home, phone)
    fed, dry = told_of_hens(page)

    # in the store, where the phone says so: no country is needed
    first.cut_network()
    lot, taps = cut_down(page, "store")
    assert taps <= MOST_TAPS
    now, now_dry = told_of_hens(page)
    assert now == pytest.approx(fed + LEAVES, abs=0.11), "the tally moves at once"
    assert now_dry != dry, "and the hens' share"
    there = in_hand(page, lot)

    # in the kitchen: to no animal, before the household has said where it is
    steps.key(page, YELLOW, exact=True).click()
    steps.key(page, "Cut it down").click()
    goes(page, "Outer leaves", "Compost")
    page.get_by_text(re.compile("Animals: .*country")).first.wait_for()

    # the same on the second phone
    first.cut_network(False)
    steps.sync_now(page)
    steps.all_sent(page)
    steps.sync_now(other)
    same_on(other, lot, there, (now, now_dry))

    # where the country allows it
    allow_the_kitchen(page)
    steps.all_sent(page)
    first.cut_network()
    _, taps = cut_down(page, "kitchen")
    assert taps < MOST_TAPS
    assert told_of_hens(page)[0] == pytest.approx(now + LEAVES, abs=0.11)
