"""A child shows what looks odd, a parent decides, whoever can reach it does it; chores change hands."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.journeys import steps, stores, ways
from tests.journeys.browsers import Phone
from tests.journeys.home import Home

pytestmark = pytest.mark.browser

Phones = Callable[[str, str], Phone]


def standing_chore(page: Page, usual: str, doer: str | None = None, *, child: bool = False) -> None:
    """A chore that comes again every day; by turns unless somebody is named."""
    steps.go(page, "/rounds/standing/new")
    steps.key(page, usual, exact=True).click()
    if doer:
        page.get_by_role("combobox", name="Who does it").select_option(label=doer)
    if child:
        steps.key(page, "Small children may do it").click()
    steps.key(page, "Keep", exact=True).click()
    steps.heading(page, "Standing chores")


def not_asked_for_a_ladder(page: Page, name: str) -> None:
    steps.go(page, "/household")
    page.get_by_role("link", name=f"Open, {name}").click()
    steps.key(page, "a ladder", exact=True).click()
    steps.key(page, "Keep", exact=True).click()
    page.get_by_role("link", name=f"Open, {name}").wait_for()


def test_what_a_child_shows_offline_a_parent_decides_and_who_can_reach_it_does(
    home: Home, phone: Phones
) -> None:
    ruths = phone("ruth", f"http://localhost:{home.port}")
    page = ruths.open()
    steps.found_household(page, "Nettle Hollow", "Ruth", ["loft"])
    steps.add_person(page, "Pip", "Small child")
    steps.add_person(page, "Tom", "Adult")
    not_asked_for_a_ladder(page, "Ruth")
    steps.put_away(page, "Winter squash", "Round Ember", "12", "Loft")
    standing_chore(page, "Collect the eggs", "Pip", child=True)
    standing_chore(page, "Water", "Tom")
    steps.go(page, "/household")
    page.get_by_role("link", name="Open, Pip").click()
    page.get_by_label("Year of birth").fill("2017")
    steps.key(page, "Pear", exact=True).click()
    steps.key(page, "Keep", exact=True).click()
    steps.all_sent(page)
    code = steps.pairing_code(page, "Tom")
    toms = phone("tom", ruths.url)
    other = toms.open()
    steps.join(other, code, "Tom's phone")

    ruths.cut_network()
    steps.go(page, "/scraps/children")
    steps.key(page, "Pip", exact=True).click()
    steps.heading(page, "What next?")
    expect(page.get_by_role("button", name="Water")).to_have_count(0)
    expect(page.get_by_role("link")).to_have_count(0)
    steps.key(page, "Collect the eggs").click()
    for _ in range(3):
        steps.key(page, "One more").click()
        page.wait_for_timeout(20)
    page.get_by_role("button", name="3 eggs").click()
    steps.key(page, "Washed").click()
    steps.key(page, "Something looks odd").click()
    steps.key(page, "Winter squash", exact=True).click()
    with page.expect_file_chooser() as camera:
        page.get_by_label("Take a photo").click()
    camera.value.set_files(ways.DOUBTFUL)
    steps.key(page, "Show a grown-up").click()
    steps.heading(page, "A grown-up looks at it.")
    steps.key(page, "Back", exact=True).click()
    expect(page.get_by_role("button", name="Collect the eggs")).to_have_count(0)
    steps.key(page, "For the adult").click()
    ways.phone_given_back(page)

    steps.go(page, "/rounds")
    steps.key(page, re.compile("^Look: Decide on one: winter squash")).click()
    page.get_by_role("radio", name=re.compile("^Compost")).check(force=True)
    who = page.get_by_role("group", name="Who does it?")
    expect(who.get_by_role("button", name="You")).to_have_count(0)
    steps.key(page, re.compile("a chore for Tom$")).click()
    ruths.cut_network(False)
    steps.sync_now(page)
    steps.all_sent(page)

    steps.sync_now(other)
    steps.go(other, "/rounds")
    row = other.get_by_role("listitem").filter(has_text="To the compost: winter squash")
    expect(row).to_contain_text("You")
    written = [kind for _, _, kind in stores.server_lines(home)]
    assert [kind for kind in written if kind in ("lay", "suspect", "decision", "chore_done")] == [
        "lay",
        "chore_done",
        "suspect",
        "decision",
    ]


def test_two_take_one_chore_with_no_signal_and_the_second_is_told_kindly(home: Home, phone: Phones) -> None:
    """docs/fold.md F19: of two claims the one the server took first has it."""
    ruths = phone("ruth", f"http://localhost:{home.port}")
    page = ruths.open()
    steps.found_household(page, "Nettle Hollow", "Ruth", ["loft"])
    steps.add_person(page, "Tom", "Adult")
    standing_chore(page, "Water", "Ruth")
    steps.go(page, "/rounds")
    steps.all_sent(page)
    code = steps.pairing_code(page, "Tom")
    toms = phone("tom", ruths.url)
    other = toms.open()
    steps.join(other, code, "Tom's phone")

    steps.go(page, "/rounds")
    steps.key(page, "Open: Water").click()
    steps.key(page, re.compile("^I can.t today")).click()
    page.get_by_text("Kept: Water is free for another").first.wait_for()
    expect(page.get_by_role("listitem").filter(has_text="Water")).to_contain_text("Nobody yet")
    steps.all_sent(page)
    steps.sync_now(other)
    steps.go(other, "/rounds")
    expect(other.get_by_role("listitem").filter(has_text="Water")).to_contain_text("Nobody yet")

    for one in (ruths, toms):
        one.cut_network()
    for each in (page, other):
        steps.go(each, "/rounds")
        steps.key(each, "Open: Water").click()
        steps.key(each, "I do it").click()
        expect(each.get_by_role("listitem").filter(has_text="Water")).to_contain_text("You")
    toms.cut_network(False)
    steps.sync_now(other)
    steps.all_sent(other)
    ruths.cut_network(False)
    steps.sync_now(page)
    steps.all_sent(page)
    page.get_by_text("Tom had it first.").wait_for()
    expect(page.get_by_role("listitem").filter(has_text="Water")).to_contain_text("Tom")

    steps.key(other, "Open: Water").click()
    other.get_by_label("What was found").fill("the bowl was frozen over")
    steps.key(other, "Done", exact=True).click()
    steps.heading(other, "Rounds")
    steps.all_sent(other)
    steps.sync_now(page)
    expect(page.get_by_text("Tom had it first.")).to_have_count(0)
    expect(page.get_by_role("listitem").filter(has_text="Water")).to_have_count(0)
