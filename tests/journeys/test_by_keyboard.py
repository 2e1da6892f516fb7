"""Every task by keyboard alone: tab, enter, space, arrows and what is typed. No pointer comes near the page.

Outside: WCAG 2.2, 2.1.1 (keyboard), 2.1.2 (no trap), 2.4.3 (order of focus).
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Locator, Page, Playwright, expect

from tests.journeys import steps, stores, ways
from tests.journeys.browsers import Phone
from tests.journeys.home import Home

pytestmark = pytest.mark.browser

POINTED = "addEventListener('pointerdown', () => sessionStorage.setItem('pointed', '1'), true);"
#: a page with more stops than this has no order a hand could follow
MOST_STOPS = 120
#: a second press on the same key within 350 ms is a bounce
BOUNCE_MS = 400
#: one for each walked task, and some to spare
CROPS = ("Carrot", "Beetroot", "Apple", "Celeriac", "Garlic", "Onion", "Potato")


class Hands:
    """Two hands on a keyboard."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def to(self, place: Locator) -> Locator:
        """Tab until it has the focus."""
        place.wait_for(state="attached")
        for _ in range(MOST_STOPS):
            if place.evaluate("one => one === document.activeElement"):
                return place
            self.page.keyboard.press("Tab")
        raise AssertionError(f"not to be come to by the tab key: {place}")

    def press(self, name: steps.Name, within: Page | Locator | None = None, *, exact: bool = False) -> None:
        self.to(steps.key(within or self.page, name, exact=exact))
        self.page.keyboard.press("Enter")

    def type(self, label: str, text: str) -> None:
        self.to(self.page.get_by_label(label))
        self.page.keyboard.type(text)

    def number(self, name: str, number: str) -> None:
        self.press(re.compile(rf"^{name}, .*Touch to type"))
        expect(self.page.get_by_role("textbox", name=name)).to_be_focused()
        self.page.keyboard.type(number)
        self.page.keyboard.press("Enter")

    def choose(self, name: steps.Name) -> None:
        """A ring among others: tab to the group, then the arrows."""
        wanted = self.page.get_by_role("radio", name=name)
        wanted.wait_for(state="attached")
        for _ in range(MOST_STOPS):
            if self.page.evaluate("() => document.activeElement?.type === 'radio'"):
                break
            self.page.keyboard.press("Tab")
        for _ in range(12):
            if wanted.evaluate("one => one === document.activeElement"):
                break
            self.page.keyboard.press("ArrowDown")
        self.page.keyboard.press("Space")
        expect(wanted).to_be_checked()


@pytest.fixture(scope="module")
def hands(playwright: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Hands]:
    folder = tmp_path_factory.mktemp("keyboard")
    home = Home(folder / "home").prepare().start()
    ida = Phone(playwright, folder / "ida", f"http://localhost:{home.port}")
    page = ida.open(first_run=POINTED)
    hands = Hands(page)
    hands.press("Start your own")
    hands.press("root cellar", exact=True)
    hands.press("hens", exact=True)
    hands.type("What is your household called?", "Nettle Hollow")
    hands.type("Your name", "Ida")
    hands.press(re.compile("^Keep "))
    steps.heading(page, "Store")
    for crop in CROPS:
        put_away(hands, crop)
    yield hands
    pointed = page.evaluate("() => sessionStorage.getItem('pointed')")
    ida.close()
    home.stop()
    assert pointed is None, "something was done by a pointer"


def put_away(hands: Hands, crop: str) -> None:
    page = hands.page
    steps.go(page, "/store")
    steps.heading(page, "Store")
    hands.press(re.compile("^Put away"))
    steps.heading(page, "Put away")
    hands.press(crop, exact=True)
    hands.type("Name of the variety", "Long Ember")
    hands.number(steps.measure(page), "30")
    hands.press(re.compile("^Put away as"))
    page.get_by_text("Another the same?").wait_for()


def standing(page: Page) -> str:
    """The lot in the hand and its place on the walk: two lots of one name are told apart by it."""
    place = page.get_by_text(re.compile(r"lot \d+ of \d+"))
    told = [page.get_by_role("heading", level=1).inner_text()]
    return ", ".join(told + [place.first.inner_text()] * min(place.count(), 1))


def in_hand(page: Page) -> str:
    page.get_by_text(re.compile(r"lot \d+ of \d+")).wait_for()
    steps.key(page, re.compile("^All .*sound$")).wait_for()
    return standing(page)


def walk(hands: Hands) -> str:
    """A lot in the hand; the air was read where the walk begins."""
    page = hands.page
    steps.go(page, "/rounds")
    steps.heading(page, "Rounds")
    begun = steps.key(page, re.compile("^Go on in"))
    anyway = steps.key(page, "Walk one anyway")
    begun.or_(anyway).first.wait_for()
    if begun.count():
        hands.press(re.compile("^Go on in"))
    else:
        hands.press("Walk one anyway")
        hands.press("Root cellar", page.locator("dialog[open]"))
        hands.press(re.compile("^Warmth, one more"))
        hands.press(re.compile("^Keep the 1 read"))
    return in_hand(page)


def goes_on(page: Page, lot: str) -> None:
    for _ in range(100):
        if standing(page) != lot:
            return
        page.wait_for_timeout(300)
    raise AssertionError(f"still at {lot}")


def open_lot(hands: Hands, crop: str) -> None:
    """Found by its name from wherever one stands."""
    page = hands.page
    steps.go(page, "/kitchen")
    steps.heading(page, "Kitchen")
    hands.press("Find a lot")
    field = page.get_by_role("searchbox")
    expect(field).to_be_focused()
    field.press("Control+a")
    page.keyboard.type(crop)
    hands.press(re.compile(f"^{crop}"), page.locator(".hits"))
    steps.heading(page, re.compile(f"^{crop}"))


def last(page: Page, kind: str) -> dict[str, object]:
    """The body of the line of that kind written last."""
    lines = [row["written"] for row in stores.phone_stores(page)["entries"]]
    newest: dict[str, object] = max(
        (line for line in lines if line["kind"] == kind), key=lambda line: line["device_no"]
    )["body"]
    return newest


def test_another_the_same_is_put_away(hands: Hands) -> None:
    page = hands.page
    steps.go(page, "/store")
    steps.heading(page, "Store")
    hands.press(re.compile("^Put away"))
    steps.heading(page, "Put away")
    hands.press("Carrot", exact=True)
    hands.press("Long Ember", exact=True)
    hands.number(steps.measure(page), "29")
    hands.press(re.compile("^Put away as"))
    page.get_by_text("Another the same?").wait_for()
    hands.number(steps.measure(page), "31")
    page.wait_for_timeout(BOUNCE_MS)
    kept = page.get_by_text(re.compile("^Put away: ")).first.inner_text()
    hands.press(re.compile("^Put away as"))
    expect(page.get_by_text(re.compile("^Put away: ")).first).not_to_have_text(kept)
    assert last(page, "put_away")["grams"] == 31_000


def test_a_lot_is_looked_over_in_every_way(hands: Hands) -> None:
    page = hands.page
    lot = walk(hands)
    hands.press(re.compile("^All .*sound$"))
    goes_on(page, lot)
    assert last(page, "inspection")["way"] in ("all", "sample")

    lot = in_hand(page)
    hands.press(re.compile("^Not looked"))
    hands.press("Out of reach", page.locator("dialog[open]"))
    goes_on(page, lot)
    assert last(page, "inspection")["why_not"] == "out_of_reach"

    lot = in_hand(page)
    hands.press("All gone")
    hands.press("Eaten", page.locator("dialog[open]"), exact=True)
    goes_on(page, lot)
    assert last(page, "count")["gone"] == "eaten"

    lot = in_hand(page)
    hands.press("Some out")
    hands.to(page.get_by_role("group", name="What was seen").get_by_role("button").first)
    page.keyboard.press("Enter")
    hands.to(page.locator(".goings").get_by_role("button", name=re.compile("one more$")).first)
    page.keyboard.press("Enter")
    hands.choose(re.compile("^Bin"))
    hands.press(re.compile("Next.lot$"))
    goes_on(page, lot)
    assert last(page, "inspection")["out"]


def test_a_round_is_stopped_and_gone_on_with(hands: Hands) -> None:
    page = hands.page
    lot = walk(hands)
    hands.press("Stop here")
    steps.heading(page, "Rounds")
    hands.press(re.compile("^Go on in"))
    assert in_hand(page) == lot


def test_a_suspect_is_photographed_and_decided(hands: Hands) -> None:
    page = hands.page
    walk(hands)
    with page.expect_file_chooser() as camera:
        hands.press("Unsure")
    camera.value.set_files(ways.DOUBTFUL)
    signs = page.get_by_role("group", name="What makes you unsure").get_by_role("button")
    signs.first.wait_for()
    hands.to(signs.first)
    page.keyboard.press("Enter")
    hands.press(re.compile("^It is (set apart|held there)$"))
    in_hand(page)
    steps.go(page, "/rounds")
    suspect = page.get_by_role("listitem").filter(has_text="Decide on one").first
    suspect.wait_for()
    hands.press(re.compile("Look|Decide"), suspect)
    hands.choose(re.compile("^Bin"))
    hands.press(re.compile("a chore for"))
    steps.heading(page, re.compile("^(Rounds|.*, Long Ember)$"))
    assert last(page, "decision")["do"] == "bin"


def test_some_is_taken_and_given_away(hands: Hands) -> None:
    page = hands.page
    open_lot(hands, "Carrot")
    hands.press("Took some")
    hands.press("give away", page.locator("dialog[open]"))
    hands.press(re.compile(r"^1.kg"), page.locator("dialog[open]"))
    expect(page.locator("dialog[open]")).to_have_count(0)
    assert last(page, "take")["for"] == "give"


def test_a_lot_is_counted_and_the_count_struck_out(hands: Hands) -> None:
    page = hands.page
    open_lot(hands, "Carrot")
    hands.press("Count", exact=True)
    hands.press(re.compile("^(Weighed|Pieces), one less"))
    hands.press(re.compile("^Keep the count"))
    steps.key(page, "Took some").wait_for()
    counted = last(page, "count")
    hands.to(page.locator("main ol button").first)
    page.keyboard.press("Enter")
    hands.press("written twice", page.locator("dialog[open]"))
    hands.press("Strike it out", page.locator("dialog[open]"))
    expect(page.locator("dialog[open]")).to_have_count(0)
    assert last(page, "strike")["why"]
    assert counted


def test_a_part_of_a_lot_is_moved(hands: Hands) -> None:
    page = hands.page
    open_lot(hands, "Celeriac")
    hands.press("Move all, or a part")
    hands.press("a part", exact=True)
    hands.number(steps.measure(page), "5")
    hands.choose(re.compile("^Root cellar"))
    hands.press(re.compile("^Move 5.*as"))
    steps.key(page, "Took some").wait_for()
    moved = last(page, "move")
    assert (moved["all"], moved.get("grams", moved.get("pieces"))) in ((False, 5_000), (False, 5))


def test_what_may_be_done_with_a_thing_is_asked(hands: Hands) -> None:
    page = hands.page
    steps.go(page, "/kitchen")
    steps.heading(page, "Kitchen")
    hands.press("May I?")
    page.get_by_text("What may I do with this?").wait_for()
    hands.press("Potato", exact=True)
    hands.press("sound", page.get_by_role("group", name="What do you see?"))
    uses = page.get_by_role("list", name="Best first")
    expect(uses.get_by_role("listitem").first).to_be_visible()
    hands.press(re.compile("^can.t say$"), page.get_by_role("group", name="What do you see?"))
    expect(uses).to_contain_text("not while nobody can say what it is")


def test_a_lot_is_described_anew(hands: Hands) -> None:
    page = hands.page
    open_lot(hands, "Garlic")
    hands.press("Its name, variety, note")
    hands.type("Note", "by the door")
    hands.press("Keep", exact=True)
    expect(page.get_by_text("by the door").first).to_be_visible()


def test_a_sheet_is_left_by_escape_and_the_focus_goes_back(hands: Hands) -> None:
    page = hands.page
    open_lot(hands, "Carrot")
    hands.press("Took some")
    expect(page.locator("dialog[open] h2")).to_be_focused()
    page.keyboard.press("Escape")
    expect(page.locator("dialog[open]")).to_have_count(0)
    expect(steps.key(page, "Took some")).to_be_focused()


def test_a_label_s_number_is_typed(hands: Hands) -> None:
    page = hands.page
    code = str(last(page, "put_away")["code"])
    steps.go(page, "/scraps")
    steps.heading(page, "Scraps")
    hands.press("Find a lot")
    hands.press("Scan", exact=True)
    hands.type("Or its number", code)
    page.keyboard.press("Enter")
    steps.heading(page, re.compile("Long Ember"))


def test_a_pencil_sheet_is_typed_in(hands: Hands) -> None:
    page = hands.page
    steps.go(page, "/rounds/pencil")
    hands.press("Type it in: Root cellar")
    steps.heading(page, "Typed in: Root cellar")
    hands.press("All sound")
    hands.press("Keep the round, 1 lot")
    steps.heading(page, "Rounds")
    assert last(page, "inspection")["counted"] is False


def test_the_page_is_reached_past_the_places(hands: Hands) -> None:
    page = hands.page
    steps.go(page, "/season")
    steps.heading(page, "Season")
    page.reload()
    steps.heading(page, "Season")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="To the page")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_be_focused()
