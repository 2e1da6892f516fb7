"""The store's rarer turns: a lot described by two people, vessels, seed, more taken than the book has, what
animals ate all the same."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.journeys import steps, stores
from tests.journeys.browsers import Phone
from tests.journeys.home import Home

pytestmark = pytest.mark.browser

#: a second touch on the same key within 350 ms is a wet finger's bounce
BOUNCE_MS = 400

Phones = Callable[[str, str], Phone]


def bodies(page: Page, kind: str) -> list[dict[str, object]]:
    """Of the lines of that kind on the phone, in the order they were written there."""
    lines = [row["written"] for row in stores.phone_stores(page)["entries"]]
    mine = sorted((line for line in lines if line["kind"] == kind), key=lambda line: line["device_no"])
    return [line["body"] for line in mine]


def open_lot(page: Page, name: str) -> None:
    steps.go(page, "/store")
    page.get_by_role("link", name=re.compile(f"^{name}")).first.click()
    page.get_by_role("heading", name="Its life").wait_for()


def describe(page: Page, lot: str, variety: str, **more: str) -> None:
    open_lot(page, lot)
    steps.key(page, "Its name, variety, note").click()
    page.get_by_label("Name of the variety").fill(variety)
    for label, text in more.items():
        page.get_by_label(label.replace("_", " ")).fill(text)
    steps.key(page, "Keep", exact=True).click()
    page.get_by_role("heading", name="Its life").wait_for()


def test_two_people_describe_a_lot_and_the_wording_that_lost_is_offered(home: Home, phone: Phones) -> None:
    """Fields only one of them touched both stand; of the other the later stands and the first is shown."""
    url = f"http://localhost:{home.port}"
    one = phone("ida", url)
    page = one.open()
    steps.found_household(page, "Nettle Hollow", "Ida", ["root cellar"])
    steps.put_away(page, "Carrot", "Long Ember", "24", "Root cellar")
    steps.add_person(page, "Tom", "Adult")
    code = steps.pairing_code(page, "Tom")
    two = phone("tom", url)
    other = two.open()
    steps.join(other, code, "Tom's")
    for each, shown in ((one, page), (two, other)):
        open_lot(shown, "Carrot")
        shown.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
        each.cut_network()
    describe(page, "Carrot", "Long Amber", Note="by the door")
    describe(other, "Carrot", "Late Ember")
    one.cut_network(False)
    steps.go(page, "/store")
    steps.sync_now(page)
    steps.all_sent(page)
    two.cut_network(False)
    steps.go(other, "/store")
    steps.sync_now(other)
    steps.all_sent(other)
    other.locator("button.sent").first.click()
    sheet = other.locator("dialog[open]")
    expect(sheet.get_by_text("Two wordings")).to_be_visible()
    expect(sheet.get_by_text("“Late Ember” stands.")).to_be_visible()
    expect(sheet.get_by_text("Ida wrote “Long Amber”.")).to_be_visible()
    steps.key(sheet, "Use this instead").click()
    other.keyboard.press("Escape")
    open_lot(other, "Carrot")
    steps.heading(other, "Carrot, Long Amber")
    expect(other.get_by_text("by the door").first).to_be_visible()


def test_a_store_is_kept_by_crate_with_seed_apart_and_an_accident_told(home: Home, phone: Phones) -> None:
    page = phone("ida", f"http://localhost:{home.port}").open()
    steps.found_household(page, "Nettle Hollow", "Ida", ["root cellar"])
    a_vessel_is_weighed(page)
    a_full_crate_is_put_away_and_one_weighed_in_it(page)
    seed_is_put_away(page)
    seed_in_part_is_told_apart(page)
    more_is_taken_than_the_book_has(page)
    what_animals_ate_all_the_same_is_written(page)
    a_crate_is_put_away_with_no_number_left(page)


def a_vessel_is_weighed(page: Page) -> None:
    steps.go(page, "/household")
    steps.key(page, "Vessels").click()
    steps.key(page, "Add a vessel").click()
    page.get_by_label("Name", exact=True).fill("Blue crate")
    steps.type_number(page, "Holds when full", "14")
    steps.type_number(page, "Weighs empty", "1.8")
    steps.key(page, "Keep", exact=True).click()
    row = page.get_by_role("listitem").filter(has_text="Blue crate")
    expect(row).to_contain_text(re.compile(r"crate, full 14.kg, empty 1\.8.kg"))


def a_full_crate_is_put_away_and_one_weighed_in_it(page: Page) -> None:
    """Full: 14 kg by the vessel. Weighed with the crate, 16.3 kg: 14.5 kg are in it."""
    steps.go(page, "/store/put-away")
    steps.key(page, "Carrot", exact=True).click()
    steps.key(page, re.compile("^Blue crate, full")).click()
    steps.key(page, re.compile("^Put away as")).click()
    page.get_by_text("Another the same?").wait_for()
    steps.type_number(page, "Weighed", "16.3")
    steps.key(page, re.compile("^Less Blue crate")).click()
    expect(steps.key(page, re.compile("^Less Blue crate"))).to_have_count(0)
    page.wait_for_timeout(BOUNCE_MS)
    steps.key(page, re.compile("^Put away as")).click()
    expect(page.get_by_text(re.compile(r"^Put away: .*, 15.kg")).first).to_be_visible()
    full, weighed = bodies(page, "put_away")
    assert (full["grams"], full["measured"]) == (14_000, "vessel")
    assert (weighed["grams"], weighed["measured"]) == (14_500, "weighed")


def seed_is_put_away(page: Page) -> None:
    """Neither food nor feed is offered of it, from the first."""
    steps.go(page, "/store")
    steps.key(page, re.compile("^Put away")).click()
    steps.key(page, "Potato", exact=True).click()
    steps.type_number(page, "Weighed", "10")
    steps.key(page, "For planting: seed, no food").click()
    steps.key(page, "Bought or dressed seed").click()
    steps.key(page, re.compile("^Put away as")).click()
    page.get_by_text("Another the same?").wait_for()
    assert bodies(page, "set_aside")[-1]["treated"] is True
    open_lot(page, "Potato")
    expect(page.get_by_text("kept for seed: no food")).to_be_visible()
    steps.key(page, "Some lost, or cut off").click()
    page.get_by_role("group", name="What was wrong").get_by_role("button").first.click()
    page.get_by_role("radio", name=re.compile("^Bin")).wait_for(state="attached")
    expect(page.get_by_role("radio", name=re.compile("^(Raw|Cook|Stock|Hens)"))).to_have_count(0)


def seed_in_part_is_told_apart(page: Page) -> None:
    """Of the food a piece may be eaten, of the seed none; what is lost of the seed is kept no longer."""
    steps.put_away(page, "Garlic", "Grey Pike", "30", "Root cellar")
    open_lot(page, "Garlic")
    steps.key(page, "Set aside for seed").click()
    steps.type_number(page, steps.measure(page), "10")
    steps.key(page, re.compile("for seed$")).last.click()
    steps.key(page, "Some lost, or cut off").click()
    page.get_by_role("group", name="What was wrong").get_by_role("button", name="sprouting").click()
    food = page.get_by_role("radio", name=re.compile("^(Raw|Cook)"))
    expect(food.first).to_be_attached()
    steps.key(page, re.compile("^of the seed")).click()
    expect(food).to_have_count(0)
    steps.type_number(page, steps.measure(page), "2")
    page.get_by_role("radio", name=re.compile("^Compost")).check(force=True)
    steps.key(page, re.compile("^Out, 2")).click()
    page.get_by_role("heading", name="Its life").wait_for()
    kept = bodies(page, "set_aside")[-1]
    assert kept.get("pieces", kept.get("grams")) in (8, 8_000)


def more_is_taken_than_the_book_has(page: Page) -> None:
    open_lot(page, "Carrot")
    steps.key(page, "Took some").click()
    sheet = page.locator("dialog[open]")
    steps.key(sheet, "Another amount").click()
    steps.type_number(page, "How much", "20")
    expect(sheet.get_by_text("More than the book has")).to_be_visible()
    steps.key(sheet, re.compile("^Took 20")).click()
    expect(sheet.get_by_text("Count what is there?")).to_be_visible()
    steps.key(sheet, "Count it").click()
    page.get_by_text("What is really there?").wait_for()
    assert bodies(page, "take")[-1]["grams"] == 20_000


def what_animals_ate_all_the_same_is_written(page: Page) -> None:
    """Rot goes to no animal; the row that says so leads to the accident. The book asks for a count by now."""
    open_lot(page, "Carrot")
    expect(steps.key(page, "Count it now")).to_be_visible()
    steps.key(page, "Some lost, or cut off").click()
    expect(page.get_by_text("It was eaten all the same")).to_have_count(0)
    steps.key(page, re.compile("^can.t say$")).click()
    steps.key(page, "By weight").or_(steps.key(page, "By pieces")).first.wait_for()
    steps.type_number(page, steps.measure(page), "3")
    steps.key(page, "It was eaten all the same").click()
    steps.heading(page, "Eaten all the same")
    expect(page.get_by_text("Look at them morning and evening")).to_be_visible()
    steps.key(page, re.compile("^They ate, one less")).click()
    steps.key(page, "some, taken out now").click()
    steps.key(page, "Keep as an accident").click()
    page.get_by_role("heading", name="Its life").wait_for()
    fed, rest = bodies(page, "cull")[-2:]
    assert (fed["pieces"], rest["pieces"]) == (2, 1)
    assert fed["went"][0]["accident"] is True
    assert rest["went"] == [{"step": "compost"}]
    steps.go(page, "/scraps")
    expect(page.get_by_text("An accident, on its own line:").first).to_be_visible()
    steps.all_sent(page)


def a_crate_is_put_away_with_no_number_left(page: Page) -> None:
    """All numbers stand on blank labels and there is no signal: home gives one when it is sent."""
    page.context.set_offline(True)
    steps.go(page, "/store/labels")
    page.get_by_label("Which").select_option(label="Blank ones, for lots to come")
    steps.type_number(page, "How many more", "40")
    fewer = page.get_by_text("More come when it has sent.")
    while not fewer.count():
        steps.key(page, "Set 40 numbers aside").click()
        page.wait_for_timeout(BOUNCE_MS)
    steps.go(page, "/store/put-away")
    steps.key(page, "Carrot", exact=True).click()
    steps.type_number(page, "Weighed", "5")
    steps.key(page, "Put away", exact=True).last.click()
    expect(page.get_by_text("Its number comes when it is sent.").first).to_be_visible()
    page.context.set_offline(False)
    steps.go(page, "/store")
    steps.sync_now(page)
    steps.all_sent(page)
    born = bodies(page, "put_away")[-1]
    assert "code" not in born
    steps.go(page, "/store/put-away")
    steps.key(page, "Carrot", exact=True).click()
    steps.type_number(page, "Weighed", "6")
    expect(steps.key(page, re.compile("^Put away as"))).to_be_visible()
