"""How a keeper comes to a minder's link, and the minder to the days behind it."""

from __future__ import annotations

import datetime as dt
import re

from playwright.sync_api import Page

from tests.journeys import steps, ways

MINDER = "Hester"


def to_link_form(here: ways.Here) -> None:
    """A minder, kept as a person of the household before; then what the link shall say."""
    until = dt.date.today() + dt.timedelta(days=6)
    ways.at("/household/person/new", "Add a person")(here)
    here.page.get_by_label("Name", exact=True).fill(MINDER)
    here.page.get_by_role("radio", name=re.compile("^Minder")).check(force=True)
    here.page.get_by_label("Minds the place until").fill(until.isoformat())
    here.key("Keep", exact=True).click()
    here.key(f"Open, {MINDER}").click()
    here.key("A link for their days").click()
    steps.heading(here.page, re.compile(f"^A link for {MINDER}"))
    here.page.get_by_label("The way to the place").fill("Past the mill, second gate on the left.")


def to_link_opened_at_home(here: ways.Here) -> None:
    """The link is made, and touched by mistake on the keeper's own phone, with no signal."""
    here.key("Make the link").click()
    made = here.page.get_by_role("link", name="/#/minder/")
    address = made.get_attribute("href")
    assert address
    here.other = here.another("minder")
    here.other.open("/").evaluate("() => navigator.serviceWorker.ready.then(() => undefined)")
    here.links["minder"] = address.partition("#")[2]
    here.page.context.set_offline(True)
    steps.go(here.page, here.links["minder"])
    here.page.get_by_text("No signal, or the server").wait_for()


def to_no_signal(here: ways.Here) -> Page:
    here.page.context.set_offline(False)
    theirs = here.second
    steps.key(theirs, "Start your own").wait_for()
    theirs.context.set_offline(True)
    steps.go(theirs, here.links["minder"])
    theirs.get_by_text("No signal, or the server").wait_for()
    return theirs


def to_week(here: ways.Here) -> Page:
    here.second.context.set_offline(False)
    steps.key(here.second, "Begin again").click()
    steps.heading(here.second, re.compile("^A week at"))
    here.second.get_by_role("link", name=re.compile("^Start: ")).first.wait_for()
    return here.second


def to_walk(here: ways.Here) -> Page:
    here.second.get_by_role("link", name=re.compile("^Start: ")).first.click()
    here.second.get_by_text(re.compile("^1 of ")).wait_for()
    return here.second
