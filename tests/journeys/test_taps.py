"""How many touches each task takes, counted by the page: no more than the look's table of flows allows.

A touch is one finger put down. What the camera's own app asks for is not counted; where the table says "and a
number", the touches that set it are counted apart.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import pytest
from playwright.sync_api import Page, Playwright, expect

from tests.journeys import screens, steps, ways
from tests.journeys.browsers import Phone
from tests.journeys.home import Home

pytestmark = pytest.mark.browser

COUNT = """
window.touches = 0;
addEventListener('pointerdown', (down) => { if (down.isTrusted) window.touches += 1; }, true);
"""
#: a second touch on the same key within 350 ms is a wet finger's bounce; no person is as quick as a test
BOUNCE_MS = 400
#: as many as a household puts away in a fortnight
CRATES = 40
#: one for each walked task, and some to spare; potatoes rot, so theirs is what is looked at with doubt
CROPS = ("Carrot", "Beetroot", "Apple", "Celeriac", "Garlic", "Onion", "Potato", "Winter squash")

Phones = Callable[[str, str], Phone]


@pytest.fixture(scope="module")
def page(playwright: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """A keeper's phone; in the root cellar of the household lie the lots, sent."""
    folder = tmp_path_factory.mktemp("taps")
    home = Home(folder / "home").prepare().start()
    ida = Phone(playwright, folder / "ida", f"http://localhost:{home.port}")
    opened = ida.open(first_run=COUNT)
    steps.found_household(opened, "Nettle Hollow", "Ida", ["root cellar"])
    for crop in CROPS:
        steps.put_away(opened, crop, "Long Ember", "30", "Root cellar")
    yield opened
    ida.close()
    home.stop()


class Spent:
    """Touches of a task: `whole` of it, `numbers` among them."""

    def __init__(self, page: Page) -> None:
        self._page = page
        self._began = self._now()
        self.numbers = 0

    def _now(self) -> int:
        return int(self._page.evaluate("() => window.touches"))

    @property
    def whole(self) -> int:
        return self._now() - self._began

    @contextmanager
    def number(self) -> Iterator[None]:
        before = self._now()
        yield
        self.numbers += self._now() - before

    @property
    def without_numbers(self) -> int:
        return self.whole - self.numbers


def walk(page: Page) -> str:
    """A lot in the hand, as it is come to on a walk; its heading."""
    steps.go(page, "/rounds")
    steps.heading(page, "Rounds")
    begun = steps.key(page, re.compile("^Go on in"))
    anyway = steps.key(page, "Walk one anyway")
    begun.or_(anyway).first.wait_for()
    if begun.count():
        begun.click()
    else:
        anyway.click()
        page.locator("dialog").get_by_text("Root cellar").click()
        # A walk that was begun goes on at its lot: the page may have offered it a moment later.
        go_in = steps.key(page, "Go in, nothing read")
        go_in.or_(page.get_by_text(re.compile(r"lot \d+ of \d+"))).first.wait_for()
        if go_in.count():
            go_in.click()
    return in_hand(page)


def standing(page: Page) -> str:
    """The lot in the hand and its place on the walk: two lots of one name are told apart by it."""
    place = page.get_by_text(re.compile(r"lot \d+ of \d+"))
    told = [page.get_by_role("heading", level=1).inner_text()]
    return ", ".join(told + [place.first.inner_text()] * min(place.count(), 1))


def in_hand(page: Page) -> str:
    page.get_by_text(re.compile(r"lot \d+ of \d+")).wait_for()
    steps.key(page, re.compile("^All .*sound$")).wait_for()
    return standing(page)


def goes_on(page: Page, lot: str) -> None:
    """The next lot is in the hand, or the round is walked."""
    for _ in range(100):
        if standing(page) != lot:
            return
        page.wait_for_timeout(300)
    raise AssertionError(f"still at {lot}")


def open_lot(page: Page, crop: str) -> None:
    steps.go(page, "/store")
    page.get_by_role("link", name=re.compile(f"^{crop}")).first.click()
    steps.heading(page, re.compile(f"^{crop}"))


def test_it_takes_one_touch_to_keep_a_lot_as_sound(page: Page) -> None:
    lot = walk(page)
    spent = Spent(page)
    steps.key(page, re.compile("^All .*sound$")).click()
    goes_on(page, lot)
    assert spent.whole == 1


def test_it_takes_two_to_say_that_a_lot_was_not_looked_at(page: Page) -> None:
    lot = walk(page)
    spent = Spent(page)
    steps.key(page, re.compile("^Not looked")).click()
    steps.key(page, "Out of reach").click()
    goes_on(page, lot)
    assert spent.whole <= 2


def test_it_takes_two_to_say_that_all_is_gone(page: Page) -> None:
    lot = walk(page)
    while lot.startswith("Carrot"):  # the tasks of the store want it to be there
        steps.key(page, re.compile("^All .*sound$")).click()
        goes_on(page, lot)
        lot = in_hand(page)
    spent = Spent(page)
    steps.key(page, "All gone").click()
    steps.key(page, "Eaten", exact=True).click()
    goes_on(page, lot)
    assert spent.whole <= 2


def test_it_takes_six_at_most_to_say_what_is_out_and_where_it_goes(page: Page) -> None:
    """Two pieces of one finding, not to where it would go by itself."""
    lot = walk(page)
    spent = Spent(page)
    steps.key(page, "Some out").click()
    page.get_by_role("group", name="What was seen").get_by_role("button").first.click()
    page.locator(".goings").get_by_role("button", name=re.compile("one more$")).first.click()
    page.get_by_role("radio", name=re.compile("^Bin")).check(force=True)
    steps.key(page, re.compile("Next.lot$")).click()
    goes_on(page, lot)
    assert spent.whole <= 6


def test_it_takes_three_and_the_camera_to_show_a_suspect(page: Page) -> None:
    walk(page)
    spent = Spent(page)
    with page.expect_file_chooser() as camera:
        steps.key(page, "Unsure").click()
    camera.value.set_files(ways.DOUBTFUL)
    page.get_by_role("group", name="What makes you unsure").get_by_role("button").first.click()
    steps.key(page, re.compile("^It is (set apart|held there)$")).click()
    in_hand(page)
    assert spent.whole <= 3


def test_it_takes_one_to_stop_and_one_to_go_on_at_the_same_lot(page: Page) -> None:
    lot = walk(page)
    if "lot 1 of" in lot:
        # a walk on which nothing was looked at is dropped when one stops
        steps.key(page, re.compile("^All .*sound$")).click()
        goes_on(page, lot)
        lot = in_hand(page)
    spent = Spent(page)
    steps.key(page, "Stop here").click()
    steps.heading(page, "Rounds")
    assert spent.whole <= 1
    steps.key(page, re.compile("^Go on in")).click()
    assert in_hand(page) == lot
    assert spent.whole <= 2


def test_it_takes_two_or_three_to_decide_on_a_suspect(page: Page) -> None:
    walk(page)
    with page.expect_file_chooser() as camera:
        steps.key(page, "Unsure").click()
    camera.value.set_files(ways.DOUBTFUL)
    page.get_by_role("group", name="What makes you unsure").get_by_role("button").first.click()
    steps.key(page, re.compile("^It is (set apart|held there)$")).click()
    in_hand(page)
    steps.go(page, "/rounds")
    suspect = page.get_by_role("listitem").filter(has_text="Decide on one").first
    suspect.wait_for()
    waiting = page.get_by_role("listitem").filter(has_text="Decide on one").count()
    spent = Spent(page)
    steps.key(suspect, re.compile("Look|Decide")).click()
    page.get_by_role("radio", name=re.compile("^Bin")).check(force=True)
    steps.key(page, re.compile("a chore for")).click()
    steps.heading(page, re.compile("^(Rounds|.*, Long Ember)$"))
    assert spent.whole <= 3
    steps.go(page, "/rounds")
    expect(page.get_by_role("listitem").filter(has_text="Decide on one")).to_have_count(waiting - 1)


def test_it_takes_two_to_begin_and_one_more_for_each_number_read(page: Page) -> None:
    """On a space of its own, so that no walk is begun there; its lot was put away before."""
    steps.go(page, "/household/space/new")
    steps.key(page, "loft", exact=True).click()
    steps.key(page, "Keep", exact=True).click()
    steps.heading(page, "Spaces")
    steps.put_away(page, "White cabbage", "Greyfell", "4", "Loft")
    steps.go(page, "/rounds")
    spent = Spent(page)
    page.get_by_role("link", name=re.compile("Loft")).click()
    with spent.number():
        steps.key(page, re.compile("^Warmth, one more")).click()
        steps.key(page, re.compile("^Damp, one more")).click()
    steps.key(page, "Keep the 2 read, go in").click()
    in_hand(page)
    assert spent.without_numbers <= 2
    assert spent.numbers <= 2


def test_it_takes_two_to_take_some_and_three_to_give_it_away(page: Page) -> None:
    for give in (False, True):
        open_lot(page, "Carrot")
        spent = Spent(page)
        steps.key(page, "Took some").click()
        if give:
            steps.key(page, "give away").click()
        page.locator("dialog[open]").get_by_role("button", name=re.compile(r"^1.kg")).click()
        expect(page.locator("dialog[open]")).to_have_count(0)
        assert spent.whole <= (3 if give else 2)


def test_it_takes_three_to_count(page: Page) -> None:
    """The number moved by one: where the difference went is asked, and the likeliest is chosen already."""
    open_lot(page, "Carrot")
    spent = Spent(page)
    steps.key(page, "Count", exact=True).click()
    steps.key(page, re.compile("^Weighed, one less")).click()
    steps.key(page, re.compile("^Keep the count")).click()
    steps.key(page, "Took some").wait_for()
    assert spent.whole <= 3


def test_it_takes_five_and_a_number_to_put_away_and_one_and_a_number_for_another(page: Page) -> None:
    """All that is asked is answered: crop, variety, number, pack."""
    steps.go(page, "/store")
    spent = Spent(page)
    steps.key(page, re.compile("^Put away")).click()
    steps.key(page, "Carrot", exact=True).click()
    steps.key(page, "Long Ember", exact=True).click()
    with spent.number():
        steps.type_number(page, "Weighed", "22")
    steps.key(page, "bag", exact=True).click()
    steps.key(page, re.compile("^Put away as")).click()
    page.get_by_text("Another the same?").wait_for()
    assert spent.without_numbers <= 5
    kept = page.get_by_text(re.compile("^Put away: ")).first.inner_text()
    spent = Spent(page)
    with spent.number():
        steps.type_number(page, "Weighed", "23")
    page.wait_for_timeout(BOUNCE_MS)
    steps.key(page, re.compile("^Put away as")).click()
    expect(page.get_by_text(re.compile("^Put away: ")).first).not_to_have_text(kept)
    assert spent.without_numbers <= 1


def test_forty_crates_in_a_row_take_one_touch_and_a_number_each_after_the_first(page: Page) -> None:
    """With no signal: the phone has numbers enough for all of them."""
    steps.go(page, "/store")
    steps.all_sent(page)
    page.context.set_offline(True)
    steps.key(page, re.compile("^Put away")).click()
    steps.key(page, "Carrot", exact=True).click()
    steps.key(page, "Long Ember", exact=True).click()
    steps.type_number(page, "Weighed", "27")
    steps.key(page, re.compile("^Put away as")).click()
    page.get_by_text("Another the same?").wait_for()
    said = page.get_by_text(re.compile("^Put away: ")).first
    told = [said.inner_text()]
    spent = Spent(page)
    for crate in range(1, CRATES):
        with spent.number():
            steps.type_number(page, "Weighed", str(20 + crate % 7))
        page.wait_for_timeout(BOUNCE_MS)
        steps.key(page, re.compile("^Put away as")).click()
        expect(said).not_to_have_text(told[-1])
        told.append(said.inner_text())
    page.context.set_offline(False)
    assert spent.without_numbers == CRATES - 1
    assert spent.numbers == CRATES - 1
    assert len({one.split(",")[0] for one in told}) == CRATES, "a number of its own each"


def test_it_takes_four_and_a_number_to_move_a_part(page: Page) -> None:
    """Which lot, that it is a part, where to, kept."""
    open_lot(page, "Carrot")
    spent = Spent(page)
    steps.key(page, "Move all, or a part").click()
    steps.key(page, "a part", exact=True).click()
    with spent.number():
        steps.type_number(page, "Weighed", "5")
    page.get_by_role("radio", name=re.compile("^Root cellar")).click(force=True)
    steps.key(page, re.compile("^Move 5.kg as")).click()
    steps.key(page, "Took some").wait_for()
    assert spent.without_numbers <= 4


def test_it_takes_three_to_strike_an_entry_out_and_say_why(page: Page) -> None:
    open_lot(page, "Carrot")
    spent = Spent(page)
    page.locator("main ol button").first.click()
    steps.key(page, "written twice").click()
    steps.key(page, "Strike it out").click()
    expect(page.locator("dialog[open]")).to_have_count(0)
    assert spent.whole <= 3


def test_it_takes_four_at_most_to_write_an_accident_from_the_refused_entry(home: Home, phone: Phones) -> None:
    """Only from there: what was eaten all the same, how much of it, kept."""
    url = f"http://localhost:{home.port}"
    one = phone("one", url)
    one.open(first_run=COUNT)
    for name, _ in screens.told("a household of one's own", ways.Here(one, lambda at: phone(at, url))):
        if name == "needs":
            break
    shown = one.context.pages[0]
    spent = Spent(shown)
    shown.get_by_role("radio", name=re.compile("^It was eaten all the same")).check(force=True)
    steps.key(shown, "Write the accident").click()
    steps.heading(shown, "Eaten all the same")
    steps.key(shown, re.compile("^They ate, one less")).click()
    steps.key(shown, "Keep as an accident").click()
    steps.heading(shown, "Scraps")
    assert spent.whole <= 4
