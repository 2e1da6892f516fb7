"""Every screen of the app, and how a hand gets there: one list for whoever looks at all of them.

Two stories: the invented household, and one of one's own from the first page on. Within a story the order
matters: some screens are only come to through the one before.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from playwright.sync_api import Page

from tests.journeys import ways, ways_from_nothing
from tests.journeys.home import Home


@dataclass(frozen=True)
class Screen:
    """`open` brings the story there; the page to look at is its phone's, unless it gives another."""

    name: str
    open: Callable[[ways.Here], Page | None]


def told(story: str, here: ways.Here) -> Iterator[tuple[str, Page]]:
    """Each screen of a story, by name, as it stands open."""
    for screen in STORIES[story]:
        page = screen.open(here) or here.page
        page.locator("h1").first.wait_for(state="attached")
        ways.settle(page)
        yield screen.name, page


def show(page: Page, light: ways.Light) -> None:
    """The light the phone asks for; the app follows it until somebody chooses."""
    page.emulate_media(color_scheme="dark" if light == "lantern" else "light")
    page.wait_for_function("light => document.documentElement.dataset.light === light", arg=light)
    ways.settle(page)


HOUSEHOLD = (
    Screen("household", ways.at("/household", re.compile("invented"))),
    Screen("household-person", ways.touching("Open")),
    Screen("household-person-new", ways.at("/household/person/new", "Add a person")),
    Screen("household-spaces", ways.at("/household/spaces", "Spaces")),
    Screen("household-space", ways.touching("Root cellar")),
    Screen("household-space-new", ways.at("/household/space/new", "Add a space")),
    Screen("household-animals-new", ways.at("/household/animals/new", "Add animals")),
    Screen("household-table", ways.at("/household/table", "At table")),
    Screen("household-guests", ways.at("/household/guests/new")),
    Screen("household-ring", ways.at("/household/ring/new")),
    Screen("household-settings", ways.at("/household/settings", "Units, week, language")),
    Screen("household-join", ways.to_code),
    Screen("household-phones", ways.at("/household/phones", "Phones")),
    Screen("household-jobs", ways.at("/household/jobs", "Figures and jobs")),
    Screen("household-unsent", ways.at("/household/unsent", "What was not sent")),
    Screen("household-leave", ways.at("/household/leave", re.compile("^Leave"))),
)

STORIES: dict[str, tuple[Screen, ...]] = {
    "an invented household": (
        Screen("rounds", ways.to_look_at_demo),
        Screen("store", ways.at("/store", "Store")),
        Screen("store-found", ways.to_typed),
        Screen("find", ways.to_found),
        Screen("scan", ways.at("/scan", "Scan a label")),
        Screen("code-blank", ways.at("/code/999", re.compile("999$"))),
        Screen("labels", ways.to_labels),
        Screen("pencil", ways.at("/rounds/pencil", "On paper")),
        Screen("pencil-sheet", ways.touching("Print the sheet of Loft", "Sheet: Loft")),
        Screen("pencil-typed", ways.to_pencil_typed),
        Screen("lot", ways.to_lot("White cabbage")),
        Screen("lot-entries", ways.to_all_entries),
        Screen("lot-entry", ways.to_entry),
        Screen("lot-move", ways.to_shutting(ways.to_lots("move", re.compile("^Move:")))),
        Screen("lot-pack", ways.to_lots("pack", re.compile("^Pack:"))),
        Screen("lot-aside", ways.to_lots("aside", re.compile("^For seed:"))),
        Screen("lot-out", ways.to_lots("out", re.compile("^Out:"))),
        Screen("put-away", ways.to_crop_chosen),
        Screen("put-away-another", ways.to_put_away),
        Screen("count", ways.to_counted_less),
        Screen("took-some", ways.from_("/store", ways.to_lot("Carrot"), ways.rising("Took some"))),
        Screen("kitchen", ways.to_shutting(ways.at("/kitchen", "Kitchen"))),
        Screen("pot-made", ways.to_shutting(ways.from_("/kitchen/pot", ways.rising("Made stock")))),
        Screen("put-by-lot", ways.from_("/kitchen/put-by", ways.to_jarred)),
        Screen("may-i", ways.at("/kitchen/may-i")),
        Screen("may-i-answer", ways.at("/kitchen/may-i/crop/potato")),
        Screen("pot", ways.at("/kitchen/pot")),
        Screen("put-by", ways.at("/kitchen/put-by")),
        Screen("scraps", ways.at("/scraps", "Scraps")),
        Screen("scraps-winter", ways.at("/scraps/winter", "Scraps")),
        Screen("scraps-write", ways.to_scraps_begun),
        Screen("scraps-accident", ways.to_eaten),
        Screen("scraps-eggs", ways.at("/scraps/eggs", "Eggs")),
        Screen("scraps-heap", ways.from_("/scraps", ways.touching("Open: Right heap", "Right heap"))),
        Screen("scraps-heap-work", ways.to_shutting(ways.rising("Put something on it"))),
        Screen("scraps-bucket", ways.at("/scraps/bucket/new", "Your bucket")),
        Screen("scraps-children", ways.at("/scraps/children", "Scraps")),
        Screen("child", ways.touching("Wil", "What next?")),
        Screen("child-eggs", ways.to_child_counting),
        Screen("child-wash", ways.touching("1 egg", "Wash your hands")),
        Screen("child-adult", ways.to_for_the_adult),
        Screen("scraps-pail", ways.to_pail),
        Screen("season", ways.at("/season", "Season")),
        Screen("suspect", ways.from_("/rounds", ways.touching("Look", re.compile("^One white cabbage")))),
        Screen("source", ways.to_source),
        Screen("chore", ways.to_shutting(ways.from_("/rounds", ways.touching("Open")))),
        Screen("round-air", ways.to_begin("Loft")),
        Screen("round-air-read", ways.to_read),
        Screen("round-lot", ways.to_first_lot),
        Screen("round-not-looked", ways.rising(re.compile("^Not looked"))),
        Screen("round-all-gone", ways.to_shutting(ways.rising("All gone"))),
        Screen("round-some-out", ways.to_shutting(ways.to_some_out)),
        Screen("round-two-seen", ways.to_two_seen),
        Screen("round-trimmed", ways.to_trimmed),
        Screen("round-unsure", ways.to_unsure),
        Screen("round-next", ways.to_next_lot),
        Screen("round-summary", ways.to_walked),
        *HOUSEHOLD,
        Screen("power-out", ways.at("/rounds/power", "The power is out")),
    ),
    "a household of one's own": (
        Screen("first-run", lambda here: None),
        Screen("begin", ways_from_nothing.to_half_begun),
        Screen("join", ways_from_nothing.to_code_typed),
        Screen("store-empty", ways_from_nothing.to_begun),
        Screen("rounds-empty", ways.at("/rounds", "Rounds")),
        Screen("kitchen-empty", ways.at("/kitchen", "Kitchen")),
        Screen("scraps-empty", ways.at("/scraps", "Scraps")),
        Screen("season-empty", ways.at("/season", "Season")),
        Screen("rounds-not-due", ways_from_nothing.to_lots_put_away),
        Screen("join-who", ways_from_nothing.to_who_holds),
        Screen("rounds-which", ways.from_("/rounds", ways_from_nothing.to_anyway)),
        Screen("round-air-first", ways_from_nothing.to_never_read),
        Screen("rounds-waiting", ways_from_nothing.to_trim_to_the_hens),
        Screen("sending", ways.to_sending),
        Screen("household-animals", ways_from_nothing.to_hens_are_ill),
        Screen("sending-needs", ways.to_shutting(ways_from_nothing.to_refused)),
        Screen("needs", ways_from_nothing.to_needs),
        Screen("accident", ways_from_nothing.to_accident),
        Screen("no-such-page", ways.at("/no-such-page")),
    ),
}

#: what each story begins with on the server
NEEDS_DEMO = ("an invented household",)


def begin_story(story: str, home: Home) -> None:
    if story in NEEDS_DEMO:
        home.manage("demo")
