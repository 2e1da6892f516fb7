"""How a person comes to each screen of the app, from the page before it."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

from playwright.sync_api import Locator, Page

from tests.journeys import steps
from tests.journeys.browsers import Phone
from tests.journeys.home import BASE

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
    #: addresses that were told once, for the phone they are meant for
    links: dict[str, str] = field(default_factory=dict)

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


@dataclass(frozen=True)
class At:
    """A page with an address of its own: a way that knows where it leads."""

    path: str
    title: steps.Name | None = None

    def __call__(self, here: Here) -> None:
        steps.go(here.page, self.path)
        if self.title:
            steps.heading(here.page, self.title)


def at(path: str, title: steps.Name | None = None) -> At:
    return At(path, title)


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


def following(address: str) -> Callable[[Here], None]:
    """The first of the page's own links whose address begins so."""

    def follow(here: Here) -> None:
        here.page.locator(f"main a[href^='#{address}']").first.click()
        here.page.wait_for_function("address => location.hash.startsWith('#' + address)", arg=address)
        here.page.locator(f"main a[href^='#{address}']").first.wait_for(state="detached")

    return follow


def to_look_at_demo(here: Here) -> None:
    here.key("Look at an invented household").click()
    steps.heading(here.page, "Rounds")
    here.page.get_by_text("Decide on one").wait_for()


def to_typed(here: Here) -> None:
    here.page.get_by_role("searchbox").fill("cabbage")
    here.page.get_by_text("lots found").wait_for()


def to_found(here: Here) -> None:
    here.key("Find a lot").click()
    steps.heading(here.page, "Find a lot")
    here.page.get_by_role("searchbox").fill("loft")
    here.page.get_by_text("lots found").wait_for()


def to_labels(here: Here) -> None:
    at("/store/labels", "Print labels")(here)
    here.page.get_by_text("The sheet:").click()
    here.page.get_by_role("region", name="As they come out").wait_for()


def to_pencil_typed(here: Here) -> None:
    steps.go(here.page, "/rounds/pencil")
    here.key("Type it in: Loft").click()
    steps.heading(here.page, "Typed in: Loft")
    here.key("Some seen").click()


def to_lot(crop: str) -> Callable[[Here], None]:
    def open_lot(here: Here) -> None:
        steps.go(here.page, "/store")
        here.page.get_by_role("link", name=re.compile(f"^{crop}")).first.click()
        steps.heading(here.page, re.compile(f"^{crop}"))

    return open_lot


def to_lots(sub: str, title: steps.Name) -> Callable[[Here], None]:
    """Another page of the lot whose page was open last."""

    def open_page(here: Here) -> None:
        lot = re.search(r"/store/lot/[^/]+", here.page.evaluate("location.hash"))
        assert lot
        steps.go(here.page, f"{lot[0]}/{sub}")
        steps.heading(here.page, title)

    return open_page


def to_all_entries(here: Here) -> None:
    to_lot("White cabbage")(here)
    address = here.page.evaluate("location.hash").removeprefix("#")
    steps.go(here.page, f"{address}/entries")
    here.page.get_by_text("stay readable").wait_for()


def to_entry(here: Here) -> None:
    here.page.locator("main ol button").first.click()
    here.sheet_is_open()


def to_crop_chosen(here: Here) -> None:
    at("/store/put-away", "Put away")(here)
    here.key("Carrot", exact=True).click()
    steps.type_number(here.page, "Weighed", "24.5")


def to_put_away(here: Here) -> None:
    here.key(re.compile("^Put away as")).click()
    here.page.get_by_text("Another the same?").wait_for()


def to_counted_less(here: Here) -> None:
    to_lot("Carrot")(here)
    here.key("Count", exact=True).click()
    steps.heading(here.page, re.compile("^Count: Carrot"))
    steps.type_number(here.page, "Weighed", "20")
    here.page.get_by_text("less than the book").wait_for()


def to_jarred(here: Here) -> None:
    here.page.get_by_role("link", name=re.compile("^Carrot")).first.click()
    here.page.get_by_role("radio", name=re.compile("^Jar")).check(force=True)
    here.page.get_by_label("On the label").wait_for()


def to_source(here: Here) -> None:
    here.page.get_by_role("button", name=re.compile("^source", re.I)).first.click()
    here.sheet_is_open()


def to_begin(space: str) -> Callable[[Here], None]:
    def walk(here: Here) -> None:
        steps.go(here.page, "/rounds")
        here.page.get_by_role("link", name=re.compile(space)).first.click()
        here.page.get_by_text("Read the dial by the door.").wait_for()

    return walk


def to_read(here: Here) -> None:
    here.key(re.compile("^Warmth, one more")).click()
    here.key(re.compile("^Keep the 1 read")).wait_for()


def to_photo_larger(here: Here) -> None:
    here.page.get_by_role("button", name=re.compile("Larger$")).first.click()
    here.page.locator("dialog[open] img").wait_for()


def to_sealed(space: str) -> Callable[[Here], None]:
    """A walk through a space whose jars or packs are looked at and never opened."""

    def walk(here: Here) -> None:
        to_begin(space)(here)
        here.key(re.compile("^Go in")).click()
        here.page.get_by_text("lot 1 of").wait_for()

    return walk


def to_first_lot(here: Here) -> None:
    here.key(re.compile("^Keep the 1 read")).click()
    here.page.get_by_text("lot 1 of").wait_for()


def lot_in_hand(here: Here, space: str) -> None:
    """The first lot of a walk through a space, its photo shown."""
    to_begin(space)(here)
    to_read(here)
    to_first_lot(here)
    here.page.locator("main img").first.wait_for()
    settle(here.page)


def to_shutting(then: Callable[[Here], None]) -> Callable[[Here], None]:
    def shut_and(here: Here) -> None:
        here.shut_sheet()
        then(here)

    return shut_and


def to_some_out(here: Here) -> None:
    here.key("Some out").click()
    here.page.get_by_role("heading", name="What was seen").wait_for()


def to_two_seen(here: Here) -> None:
    """Two findings, so that one row is folded and one open."""
    for seen in ("soft rot", "sprouting"):
        here.key(seen, exact=True).click()
    here.page.get_by_text("Where each goes").wait_for()


def to_trimmed(here: Here) -> None:
    here.key("Only trimmed").click()
    here.page.get_by_text("Where the cut-off goes").wait_for()


def to_unsure(here: Here) -> None:
    here.key("Back to the lot").click()
    with here.page.expect_file_chooser() as camera:
        here.key("Unsure").click()
    camera.value.set_files(DOUBTFUL)
    here.page.get_by_text("What makes you unsure").first.wait_for()


def to_next_lot(here: Here) -> None:
    here.key("It is set apart").click()
    here.page.get_by_text("set apart").first.wait_for()


def to_walked(here: Here) -> None:
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


def to_sending(here: Here) -> None:
    here.page.locator("button.sent").first.click()
    here.sheet_is_open()


def to_scraps_begun(here: Here) -> None:
    """Trimmings from the yard for the hens: what they come to with it stands there before it is kept."""
    at("/scraps/write", "Write down scraps")(here)
    here.key("yard, garden").click()
    here.key(re.compile("^Hens")).click()
    steps.type_number(here.page, "Hens", "2")
    here.page.get_by_text("With this they are at").wait_for()


def to_eaten(here: Here) -> None:
    here.key("mouldy").click()
    here.key("It was eaten all the same").click()
    steps.heading(here.page, "Eaten all the same")


def to_child_counting(here: Here) -> None:
    here.key(re.compile("^Count the eggs")).click()
    here.key("One more").click()
    here.page.get_by_role("status", name="1 egg").wait_for()


def to_for_the_adult(here: Here) -> None:
    here.key("Washed").click()
    here.key("For the adult").click()
    here.page.get_by_role("textbox").wait_for()


def phone_given_back(page: Page) -> None:
    """The adult's sum is worked out, and the phone is the adult's again."""
    asked = re.search(r"(\d) times (\d)", page.get_by_text("For an adult: what is").inner_text())
    assert asked
    page.get_by_role("textbox").fill(str(int(asked[1]) * int(asked[2])))
    steps.key(page, "Give the phone back").click()
    steps.heading(page, "Scraps")


def to_pail(here: Here) -> None:
    phone_given_back(here.page)
    at("/household")(here)
    hens = here.page.get_by_role("link", name="Open, Hens").get_attribute("href")
    assert hens
    steps.go(here.page, f"/scraps/pail/{hens.rpartition('/')[2]}")
    steps.heading(here.page, "The pail: Hens")


def to_code(here: Here) -> None:
    at("/household/join", "Join a phone")(here)
    here.key("Tom", exact=True).click()
    here.key("Make a code").click()
    here.page.get_by_text(steps.CODE).first.wait_for()
