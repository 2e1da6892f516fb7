"""Every screen of the app, and how a hand gets there: one list for whoever looks at all of them.

Two stories: the invented household, and one of one's own from the first page on. Within a story the order
matters: some screens are only come to through the one before.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

from playwright.sync_api import Locator, Page

from tests.journeys import steps, stores
from tests.journeys.browsers import Phone
from tests.journeys.home import BASE, Home

Light = Literal["lantern", "daylight"]
LIGHTS: tuple[Light, ...] = ("lantern", "daylight")
#: painted for the invented household; what the camera brings in these stories
DOUBTFUL = BASE / "fixtures" / "demo" / "photos" / "close-cabbage-10.jpg"
LOTS = (
    ("White cabbage", "Greyfell", "18"),
    ("Carrot", "Long Ember", "24"),
)


@dataclass
class Here:
    """Where a story is: its server, the phone it is told on, and how to take another phone in the hand."""

    phone: Phone
    another: Callable[[str], Phone]
    other: Phone | None = None

    @property
    def page(self) -> Page:
        return self.phone.context.pages[0]

    @property
    def second(self) -> Page:
        assert self.other
        return self.other.context.pages[0]

    def key(self, name: steps.Name, *, exact: bool = False) -> Locator:
        return steps.key(self.page, name, exact=exact)

    def sheet_is_open(self) -> None:
        self.page.locator("dialog[open] h2").wait_for()

    def shut_sheet(self) -> None:
        self.page.keyboard.press("Escape")
        self.page.locator("dialog[open]").wait_for(state="detached")


@dataclass(frozen=True)
class Screen:
    """`open` brings the story there; the page to look at is its phone's, unless it gives another."""

    name: str
    open: Callable[[Here], Page | None]


def told(story: str, here: Here) -> Iterator[tuple[str, Page]]:
    """Each screen of a story, by name, as it stands open."""
    for screen in STORIES[story]:
        page = screen.open(here) or here.page
        page.locator("h1").first.wait_for(state="attached")
        settle(page)
        yield screen.name, page


def settle(page: Page) -> None:
    """No picture on its way and no figure "working it out" any more."""
    page.evaluate(
        """async () => {
          await Promise.all([...document.fonts].map((font) => font.load().catch(() => undefined)));
          const near = [...document.images].filter((one) => one.loading !== 'lazy' || one.complete);
          await Promise.all(near.map((one) => one.decode().catch(() => undefined)));
          await Promise.all(document.getAnimations().map((one) => one.finished.catch(() => undefined)));
          await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
        }"""
    )


def show(page: Page, light: Light) -> None:
    """The light the phone asks for; the app follows it until somebody chooses."""
    page.emulate_media(color_scheme="dark" if light == "lantern" else "light")
    page.wait_for_function("light => document.documentElement.dataset.light === light", arg=light)
    settle(page)


def at(path: str, title: steps.Name | None = None) -> Callable[[Here], None]:
    """A page with an address of its own."""

    def open_page(here: Here) -> None:
        steps.go(here.page, path)
        if title:
            steps.heading(here.page, title)

    return open_page


def touching(name: steps.Name, then: steps.Name | None = None) -> Callable[[Here], None]:
    """The page that a key on this one leads to."""

    def touch(here: Here) -> None:
        here.key(name).click()
        if then:
            steps.heading(here.page, then)

    return touch


def rising(name: steps.Name) -> Callable[[Here], None]:
    """The sheet that a key on this page raises."""

    def rise(here: Here) -> None:
        here.key(name).click()
        here.sheet_is_open()

    return rise


def from_(path: str, *then: Callable[[Here], None]) -> Callable[[Here], None]:
    def open_page(here: Here) -> None:
        for one in (at(path), *then):
            one(here)

    return open_page


def _look_at_demo(here: Here) -> None:
    here.key("Look at an invented household").click()
    steps.heading(here.page, "Rounds")
    here.page.get_by_text("Decide on one").wait_for()


def _typed(here: Here) -> None:
    here.page.get_by_role("searchbox").fill("cabbage")
    here.page.get_by_text("lots found").wait_for()


def _lot(crop: str) -> Callable[[Here], None]:
    def open_lot(here: Here) -> None:
        steps.go(here.page, "/store")
        here.page.get_by_role("link", name=re.compile(f"^{crop}")).first.click()
        steps.heading(here.page, re.compile(f"^{crop}"))

    return open_lot


def _all_entries(here: Here) -> None:
    _lot("White cabbage")(here)
    address = here.page.evaluate("location.hash").removeprefix("#")
    steps.go(here.page, f"{address}/entries")
    here.page.get_by_text("stay readable").wait_for()


def _entry(here: Here) -> None:
    here.page.locator("main ol button").first.click()
    here.sheet_is_open()


def _crop_chosen(here: Here) -> None:
    at("/store/put-away", "Put away")(here)
    here.key("Carrot", exact=True).click()
    steps.type_number(here.page, "Weighed", "24.5")


def _put_away(here: Here) -> None:
    here.key(re.compile("^Put away as")).click()
    here.page.get_by_text("Another the same?").wait_for()


def _counted_less(here: Here) -> None:
    _lot("Carrot")(here)
    here.key("Count", exact=True).click()
    steps.heading(here.page, re.compile("^Carrot"))
    steps.type_number(here.page, "Weighed", "20")
    here.page.get_by_text("less than the book").wait_for()


def _source(here: Here) -> None:
    here.page.get_by_role("button", name=re.compile("^source", re.I)).first.click()
    here.sheet_is_open()


def _begin(space: str) -> Callable[[Here], None]:
    def walk(here: Here) -> None:
        steps.go(here.page, "/rounds")
        here.page.get_by_role("link", name=re.compile(space)).first.click()
        here.page.get_by_text("Read the dial by the door.").wait_for()

    return walk


def _read(here: Here) -> None:
    here.key(re.compile("^Warmth, one more")).click()
    here.key(re.compile("^Keep the 1 read")).wait_for()


def _first_lot(here: Here) -> None:
    here.key(re.compile("^Keep the 1 read")).click()
    here.page.get_by_text("lot 1 of").wait_for()


def lot_in_hand(here: Here, space: str) -> None:
    """The first lot of a walk through a space, its photo shown."""
    _begin(space)(here)
    _read(here)
    _first_lot(here)
    here.page.locator("main img").first.wait_for()
    settle(here.page)


def _shutting(then: Callable[[Here], None]) -> Callable[[Here], None]:
    def shut_and(here: Here) -> None:
        here.shut_sheet()
        then(here)

    return shut_and


def _some_out(here: Here) -> None:
    here.key("Some out").click()
    here.page.get_by_role("heading", name="What was seen").wait_for()


def _two_seen(here: Here) -> None:
    """Two findings, so that one row is folded and one open."""
    for seen in ("soft rot", "sprouting"):
        here.key(seen, exact=True).click()
    here.page.get_by_text("Where each goes").wait_for()


def _trimmed(here: Here) -> None:
    here.key("Only trimmed").click()
    here.page.get_by_text("Where the cut-off goes").wait_for()


def _unsure(here: Here) -> None:
    here.key("Back to the lot").click()
    with here.page.expect_file_chooser() as camera:
        here.key("Unsure").click()
    camera.value.set_files(DOUBTFUL)
    here.page.get_by_text("What makes you unsure").first.wait_for()


def _next_lot(here: Here) -> None:
    here.key("It is set apart").click()
    here.page.get_by_text("set apart").first.wait_for()


def _walked(here: Here) -> None:
    """All sound to the end, but one that nobody had the time for."""
    here.key(re.compile("^Not looked")).click()
    here.key("No time").click()
    walked = here.page.get_by_role("heading", name=re.compile("walked$"), level=1)
    sound = here.key(re.compile("^All .*sound$"))
    while not walked.count():
        before = here.page.locator("h1").inner_text()
        walked.or_(sound).first.wait_for()
        if walked.count():
            break
        sound.click()
        here.page.wait_for_function(
            "before => document.querySelector('h1')?.innerText !== before", arg=before
        )


def _sending(here: Here) -> None:
    here.page.locator("button.sent").first.click()
    here.sheet_is_open()


def _code(here: Here) -> None:
    at("/household/join", "Join a phone")(here)
    here.key("Tom", exact=True).click()
    here.key("Make a code").click()
    here.page.get_by_text(steps.CODE).first.wait_for()


def _half_begun(here: Here) -> None:
    here.key("Start your own").click()
    here.key("root cellar", exact=True).click()
    here.key("hens", exact=True).click()
    here.page.get_by_label("What is your household called?").fill("Nettle Hollow")


def _code_typed(here: Here) -> None:
    steps.go(here.page, "/join")
    here.page.get_by_role("textbox").first.fill("7KQ2M4XD")
    here.key("Join", exact=True).wait_for()


def _begun(here: Here) -> None:
    steps.go(here.page, "/")
    steps.found_household(here.page, "Nettle Hollow", "Ida", ["root cellar", "loft"])


def _lots_put_away(here: Here) -> None:
    for crop, variety, number in LOTS:
        steps.put_away(here.page, crop, variety, number, "Root cellar")
    at("/rounds", "Rounds")(here)
    steps.all_sent(here.page)


def _anyway(here: Here) -> None:
    here.key("Walk one anyway").click()
    here.sheet_is_open()


def _never_read(here: Here) -> None:
    here.page.locator("dialog").get_by_text("Root cellar").click()
    here.page.get_by_text("Read the dial by the door.").wait_for()


def _who_holds(here: Here) -> Page:
    """A second phone joins the household with a code."""
    code = steps.pairing_code(here.page, "Ida")
    here.other = here.another("second")
    other = here.other.open("/#/join")
    other.get_by_role("textbox").first.fill(code)
    other.get_by_label("What is this phone called?").fill("Kitchen tablet")
    other.locator(".reach .key").first.click()
    steps.key(other, re.compile("^Begin as")).wait_for()
    return other


def _trim_to_the_hens(here: Here) -> None:
    """With no signal the hens get what is cut off; the other phone has just written that they are ill."""
    here.page.context.set_offline(True)
    here.key("Go in, nothing read").click()
    steps.heading(here.page, re.compile("White cabbage"))
    here.key("Some out").click()
    here.key("Only trimmed").click()
    here.key(re.compile("^yellow")).click()
    here.page.get_by_role("radio", name=re.compile("^Hens")).check(force=True)
    here.key(re.compile("^Cut off, one more")).click()
    here.key(re.compile("Next.lot$")).click()
    here.key(re.compile("^All .*sound$")).click()
    steps.heading(here.page, re.compile("walked$"))
    at("/rounds", "Rounds")(here)
    here.page.locator("button.sent", has_text="to send").first.wait_for()


def _hens_are_ill(here: Here) -> Page:
    steps.key(here.second, re.compile("^Begin as")).click()
    steps.heading(here.second, "Rounds")
    steps.go(here.second, "/household")
    steps.key(here.second.get_by_role("listitem").filter(has_text="Hens"), "Open").click()
    steps.key(here.second, re.compile("^Ill or under treatment")).click()
    return here.second


def _refused(here: Here) -> None:
    steps.key(here.second, "Keep", exact=True).click()
    steps.heading(here.second, "Nettle Hollow")
    while stores.phone_stores(here.second)["outbox"]:
        here.second.wait_for_timeout(100)
    here.page.context.set_offline(False)
    steps.sync_now(here.page)
    here.page.get_by_role("button", name="1 needs you").first.wait_for()
    _sending(here)


def _needs(here: Here) -> None:
    here.page.locator("dialog").get_by_role("link", name=re.compile("^Look")).first.click()
    steps.heading(here.page, re.compile("^Not taken"))


def _accident(here: Here) -> None:
    here.page.get_by_role("radio", name=re.compile("^It was eaten all the same")).check(force=True)
    here.key("Write the accident").click()
    steps.heading(here.page, "Eaten all the same")


HOUSEHOLD = (
    Screen("household", at("/household", re.compile("invented"))),
    Screen("household-person", touching("Open")),
    Screen("household-person-new", at("/household/person/new", "Add a person")),
    Screen("household-spaces", at("/household/spaces", "Spaces")),
    Screen("household-space", touching("Root cellar")),
    Screen("household-space-new", at("/household/space/new", "Add a space")),
    Screen("household-animals-new", at("/household/animals/new", "Add animals")),
    Screen("household-table", at("/household/table", "At table")),
    Screen("household-guests", at("/household/guests/new")),
    Screen("household-ring", at("/household/ring/new")),
    Screen("household-settings", at("/household/settings", "Units, week, language")),
    Screen("household-join", _code),
    Screen("household-phones", at("/household/phones", "Phones")),
    Screen("household-jobs", at("/household/jobs", "Figures and jobs")),
    Screen("household-unsent", at("/household/unsent", "What was not sent")),
    Screen("household-leave", at("/household/leave", re.compile("^Leave"))),
)

STORIES: dict[str, tuple[Screen, ...]] = {
    "an invented household": (
        Screen("rounds", _look_at_demo),
        Screen("store", at("/store", "Store")),
        Screen("store-found", _typed),
        Screen("lot", _lot("White cabbage")),
        Screen("lot-entries", _all_entries),
        Screen("lot-entry", _entry),
        Screen("put-away", _shutting(_crop_chosen)),
        Screen("put-away-another", _put_away),
        Screen("count", _counted_less),
        Screen("took-some", from_("/store", _lot("Carrot"), rising("Took some"))),
        Screen("kitchen", _shutting(at("/kitchen", "Kitchen"))),
        Screen("scraps", at("/scraps", "Scraps")),
        Screen("season", at("/season", "Season")),
        Screen("suspect", from_("/rounds", touching("Look", re.compile("^One white cabbage")))),
        Screen("source", _source),
        Screen("chore", _shutting(from_("/rounds", touching("Open")))),
        Screen("round-air", _begin("Loft")),
        Screen("round-air-read", _read),
        Screen("round-lot", _first_lot),
        Screen("round-not-looked", rising(re.compile("^Not looked"))),
        Screen("round-all-gone", _shutting(rising("All gone"))),
        Screen("round-some-out", _shutting(_some_out)),
        Screen("round-two-seen", _two_seen),
        Screen("round-trimmed", _trimmed),
        Screen("round-unsure", _unsure),
        Screen("round-next", _next_lot),
        Screen("round-summary", _walked),
        *HOUSEHOLD,
    ),
    "a household of one's own": (
        Screen("first-run", lambda here: None),
        Screen("begin", _half_begun),
        Screen("join", _code_typed),
        Screen("store-empty", _begun),
        Screen("rounds-empty", at("/rounds", "Rounds")),
        Screen("kitchen-empty", at("/kitchen", "Kitchen")),
        Screen("scraps-empty", at("/scraps", "Scraps")),
        Screen("season-empty", at("/season", "Season")),
        Screen("rounds-not-due", _lots_put_away),
        Screen("join-who", _who_holds),
        Screen("rounds-which", from_("/rounds", _anyway)),
        Screen("round-air-first", _never_read),
        Screen("rounds-waiting", _trim_to_the_hens),
        Screen("sending", _sending),
        Screen("household-animals", _hens_are_ill),
        Screen("sending-needs", _shutting(_refused)),
        Screen("needs", _needs),
        Screen("accident", _accident),
        Screen("no-such-page", at("/no-such-page")),
    ),
}

#: what each story begins with on the server
NEEDS_DEMO = ("an invented household",)


def begin_story(story: str, home: Home) -> None:
    if story in NEEDS_DEMO:
        home.manage("demo")
