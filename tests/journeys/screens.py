"""Every screen of the app, and how a hand gets there: one list for whoever looks at all of them.

Two stories: the invented household, and one of one's own from the first page on. Within a story the order
matters: some screens are only come to through the one before.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from playwright.sync_api import Page

from tests.journeys import pages, ways, ways_from_nothing, ways_of_a_minder, ways_of_kitchen
from tests.journeys.home import Home


@dataclass(frozen=True)
class Screen:
    """`open` brings the story there; the page to look at is its phone's, unless it gives another.

    `shows`: the route of the app's that it is the picture of (`pages.routes`); a way that knows its address
    says it by itself. Sheets, and other states of a page that is shown already, need none.
    """

    name: str
    open: Callable[[ways.Here], Page | None]
    shows: str = ""

    @property
    def route(self) -> str | None:
        address = self.shows or (self.open.path if isinstance(self.open, ways.At) else "")
        return pages.opened_by(address) if address else None

    def is_shown(self, page: Page) -> bool:
        """Whether the page stands at the address that its route opens; what was not told can't be wrong."""
        if self.route is None:
            return True
        address = page.evaluate("location.hash").removeprefix("#") or "/"
        return self.route == pages.opened_by(pages.whose(self.route) + address)


def told(story: str, here: ways.Here) -> Iterator[tuple[str, Page]]:
    """Each screen of a story, by name, as it stands open."""
    for screen in STORIES[story]:
        page = screen.open(here) or here.page
        page.locator("h1").first.wait_for(state="attached")
        assert screen.is_shown(page), f"{screen.name}: {page.url} is not {screen.route}"
        ways.settle(page)
        yield screen.name, page


def show(page: Page, light: ways.Light) -> None:
    """The light the phone asks for; the app follows it until somebody chooses."""
    page.emulate_media(color_scheme="dark" if light == "lantern" else "light")
    page.wait_for_function("light => document.documentElement.dataset.light === light", arg=light)
    ways.settle(page)


def speak(page: Page, language: str) -> None:
    """As when another window of this phone chooses that language: every word changes in its place."""
    page.evaluate(
        """language => {
          localStorage.setItem('rounds.language', language);
          dispatchEvent(new StorageEvent('storage', { key: 'rounds.language', newValue: language }));
        }""",
        language,
    )
    page.wait_for_function("language => document.documentElement.lang === language", arg=language)
    ways.settle(page)


HOUSEHOLD = (
    Screen("household", ways.at("/household", re.compile("invented"))),
    Screen("household-person", ways.touching("Open"), "/household/person/:id"),
    Screen("household-reminders", ways.following("/household/reminders/"), "/household/reminders/:id"),
    Screen("household-person-new", ways.at("/household/person/new", "Add a person")),
    Screen("household-spaces", ways.at("/household/spaces", "Spaces")),
    Screen("household-space", ways.touching("Root cellar"), "/household/space/:id"),
    Screen("household-space-new", ways.at("/household/space/new", "Add a space")),
    Screen("household-animals-new", ways.at("/household/animals/new", "Add animals")),
    Screen("household-table", ways.at("/household/table", "At table")),
    Screen("household-guests", ways.at("/household/guests/new")),
    Screen("household-ring", ways.at("/household/ring/new")),
    Screen("household-settings", ways.at("/household/settings", "Units, week, language")),
    Screen("household-join", ways.to_code, "/household/join"),
    Screen("household-phones", ways.at("/household/phones", "Phones")),
    Screen("household-jobs", ways.at("/household/jobs", "Worked out at night")),
    Screen("household-unsent", ways.at("/household/unsent", "What was not sent")),
    Screen("household-leave", ways.at("/household/leave", re.compile("^Leave"))),
)

#: a keeper makes the link of a minder's days; it is opened on a phone of theirs
MINDER = (
    Screen("minder-link", ways_of_a_minder.to_link_form, "/household/minder/:id"),
    Screen("minder-link-here", ways_of_a_minder.to_link_opened_at_home, "/minder/:token"),
    Screen("minder-no-signal", ways_of_a_minder.to_no_signal, "first:/minder/:token"),
    Screen("minder", ways_of_a_minder.to_week, "minder:*"),
    Screen("minder-walk", ways_of_a_minder.to_walk, "minder:/walk/:at"),
)

STORIES: dict[str, tuple[Screen, ...]] = {
    "an invented household": (
        Screen("first-run-with-demo", lambda here: None, "first:*"),
        Screen("rounds", ways.to_look_at_demo, "/rounds"),
        Screen("store", ways.at("/store", "Store")),
        Screen("store-found", ways.to_typed),
        Screen("find", ways.to_found, "/find"),
        Screen("scan", ways.at("/scan", "Scan a label")),
        Screen("code-blank", ways.at("/code/999", re.compile("999$"))),
        Screen("labels", ways.to_labels, "/store/labels"),
        Screen("pencil", ways.at("/rounds/pencil", "On paper")),
        Screen(
            "pencil-sheet", ways.touching("Print the sheet of Loft", "Sheet: Loft"), "/rounds/pencil/:space"
        ),
        Screen("pencil-typed", ways.to_pencil_typed, "/rounds/typed/:space"),
        Screen("lot", ways.to_lot("White cabbage"), "/store/lot/:id"),
        Screen("photo-large", ways.to_photo_larger),
        Screen("lot-entries", ways.to_shutting(ways.to_all_entries), "/store/lot/:id/entries"),
        Screen("lot-entry", ways.to_entry),
        Screen(
            "lot-move", ways.to_shutting(ways.to_lots("move", re.compile("^Move:"))), "/store/lot/:id/move"
        ),
        Screen("lot-pack", ways.to_lots("pack", re.compile("^Pack:")), "/store/lot/:id/pack"),
        Screen("lot-aside", ways.to_lots("aside", re.compile("^For seed:")), "/store/lot/:id/aside"),
        Screen("lot-out", ways.to_lots("out", re.compile("^Out:")), "/store/lot/:id/out"),
        Screen("lot-accident", ways.to_lots("accident", "Eaten all the same"), "/store/lot/:id/accident"),
        Screen("lot-details", ways.to_lots("details", re.compile("^Details:")), "/store/lot/:id/details"),
        Screen("vessels", ways.at("/store/vessels", "Vessels")),
        Screen("vessel", ways.at("/store/vessel/new", "Add a vessel")),
        Screen("put-away", ways.to_crop_chosen, "/store/put-away"),
        Screen("put-away-another", ways.to_put_away),
        Screen("count", ways.to_counted_less, "/store/lot/:id/count"),
        Screen("took-some", ways.from_("/store", ways.to_lot("Carrot"), ways.rising("Took some"))),
        Screen("kitchen", ways.to_shutting(ways.at("/kitchen", "Kitchen"))),
        Screen("pot-made", ways.to_shutting(ways.from_("/kitchen/pot", ways.rising("Made stock")))),
        Screen("put-by-lot", ways.from_("/kitchen/put-by", ways.to_jarred), "/kitchen/put-by/:lot"),
        Screen("may-i", ways.at("/kitchen/may-i")),
        Screen("may-i-answer", ways.at("/kitchen/may-i/crop/potato")),
        Screen("pot", ways.at("/kitchen/pot")),
        Screen("put-by", ways.at("/kitchen/put-by")),
        Screen("clocks", ways.at("/kitchen/clocks")),
        Screen("dishes", ways.at("/kitchen/dishes")),
        Screen("dish", ways.following("/kitchen/dishes/"), "/kitchen/dishes/:id"),
        Screen("dish-new", ways_of_kitchen.to_dish_begun, "/kitchen/dishes/new"),
        Screen("dish-change", ways_of_kitchen.to_dish_changed, "/kitchen/dishes/:id/change"),
        Screen("give", ways.at("/kitchen/give")),
        Screen("give-lot", ways_of_kitchen.to_gift, "/kitchen/give/:lot"),
        Screen("scraps", ways.at("/scraps", "Scraps")),
        Screen("scraps-winter", ways.at("/scraps/winter", "Scraps")),
        Screen("scraps-write", ways.to_scraps_begun, "/scraps/write"),
        Screen("scraps-accident", ways.to_eaten, "/scraps/accident"),
        Screen("scraps-eggs", ways.at("/scraps/eggs", "Eggs")),
        Screen(
            "scraps-heap",
            ways.from_("/scraps", ways.touching("Open: Right heap", "Right heap")),
            "/scraps/heap/:id",
        ),
        Screen("scraps-heap-work", ways.to_shutting(ways.rising("Put something on it"))),
        Screen(
            "scraps-heap-mend",
            ways.to_shutting(ways.from_("/scraps", ways.touching("Open: Right heap"), ways.touching("Mend"))),
            "/scraps/heap/:id/mend",
        ),
        Screen("scraps-bucket", ways.at("/scraps/bucket/new", "Your bucket")),
        Screen("scraps-children", ways.at("/scraps/children", "Scraps")),
        Screen("child", ways.touching("Wil", "What next?"), "/child/:child"),
        Screen("child-eggs", ways.to_child_counting),
        Screen("child-wash", ways.touching("1 egg", "Wash your hands")),
        Screen("child-adult", ways.to_for_the_adult),
        Screen("scraps-pail", ways.to_pail, "/scraps/pail/:group"),
        Screen("season", ways.at("/season", "Season")),
        Screen("season-rooms", ways.at("/season/rooms", "Season")),
        Screen("season-reading", ways.at("/season/reading", re.compile("reading", re.IGNORECASE))),
        Screen("season-weeks", ways.at("/season/weeks", "Season")),
        Screen("season-varieties", ways.at("/season/varieties", "Season")),
        Screen("season-score", ways.at("/season/score")),
        Screen("season-plant", ways.at("/season/plant", "Season")),
        Screen("season-plant-crop", ways.following("/season/plant/"), "/season/plant/:crop"),
    ),
    "the same, walked and kept": (
        Screen("rounds-of-all", ways.to_look_at_demo, "/rounds"),
        Screen("rounds-ahead", ways.at("/rounds/ahead")),
        Screen("rounds-standing", ways.at("/rounds/standing")),
        Screen("rounds-standing-new", ways.at("/rounds/standing/new")),
        Screen(
            "suspect",
            ways.from_("/rounds", ways.touching("Look", re.compile("^One white cabbage"))),
            "/rounds/suspect/:id",
        ),
        Screen("source", ways.to_source),
        Screen("chore", ways.to_shutting(ways.from_("/rounds", ways.touching("Open"))), "/rounds/chore/:key"),
        Screen("round-air", ways.to_begin("Loft"), "/rounds/walk/:round"),
        Screen("round-air-read", ways.to_read),
        Screen("round-lot", ways.to_first_lot, "/rounds/walk/:round"),
        Screen("round-not-looked", ways.rising(re.compile("^Not looked"))),
        Screen("round-all-gone", ways.to_shutting(ways.rising("All gone"))),
        Screen("round-some-out", ways.to_shutting(ways.to_some_out)),
        Screen("round-two-seen", ways.to_two_seen),
        Screen("round-trimmed", ways.to_trimmed),
        Screen("round-unsure", ways.to_unsure),
        Screen("round-next", ways.to_next_lot),
        Screen("round-summary", ways.to_walked),
        Screen("round-jars", ways.to_sealed("Pantry")),
        Screen("round-freezer", ways.to_sealed("Freezer")),
        *HOUSEHOLD,
        Screen("power-out", ways.at("/rounds/power", "The power is out")),
        Screen("join-from-within", ways.at("/join", "Join a household")),
        *MINDER,
    ),
    "a household of one's own": (
        Screen("first-run", lambda here: None, "first:*"),
        Screen("begin", ways_from_nothing.to_half_begun, "first:/begin"),
        Screen("join", ways_from_nothing.to_code_typed, "first:/join"),
        Screen("store-empty", ways_from_nothing.to_begun),
        Screen("rounds-empty", ways.at("/", "Rounds")),
        Screen("kitchen-empty", ways.at("/kitchen", "Kitchen")),
        Screen("scraps-empty", ways.at("/scraps", "Scraps")),
        Screen("season-empty", ways.at("/season", "Season")),
        Screen("rounds-not-due", ways_from_nothing.to_lots_put_away),
        Screen("join-who", ways_from_nothing.to_who_holds, "/join/who"),
        Screen("rounds-which", ways.from_("/rounds", ways_from_nothing.to_anyway)),
        Screen("round-air-first", ways_from_nothing.to_never_read),
        Screen("rounds-waiting", ways_from_nothing.to_trim_to_the_hens),
        Screen("sending", ways.to_sending),
        Screen("household-animals", ways_from_nothing.to_hens_are_ill, "/household/animals/:id"),
        Screen("sending-needs", ways.to_shutting(ways_from_nothing.to_refused)),
        Screen("needs", ways_from_nothing.to_needs, "/needs/:id"),
        Screen("accident", ways_from_nothing.to_accident, "/needs/:id/accident"),
        Screen("no-such-page", ways.at("/no-such-page")),
    ),
}

#: what each story begins with on the server
NEEDS_DEMO = ("an invented household", "the same, walked and kept")


def begin_story(story: str, home: Home) -> None:
    """The invented household comes with the sheets that the jobs make of it in the night."""
    if story in NEEDS_DEMO:
        home.manage("demo")
        home.run("tests.journeys.make_sheets")
