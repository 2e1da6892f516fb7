"""How a person comes to each screen of a household of their own, from nothing."""

from __future__ import annotations

import re

from playwright.sync_api import Page

from tests.journeys import steps, stores, ways


def to_half_begun(here: ways.Here) -> None:
    here.key("Start your own").click()
    here.key("root cellar", exact=True).click()
    here.key("hens", exact=True).click()
    here.page.get_by_label("What is your household called?").fill("Nettle Hollow")


def to_code_typed(here: ways.Here) -> None:
    steps.go(here.page, "/join")
    here.page.get_by_role("textbox").first.fill("7KQ2M4XD")
    here.key("Join", exact=True).wait_for()


def to_begun(here: ways.Here) -> None:
    steps.go(here.page, "/")
    steps.found_household(here.page, "Nettle Hollow", "Ida", ["root cellar", "loft"])


def to_lots_put_away(here: ways.Here) -> None:
    for crop, variety, number in ways.LOTS:
        steps.put_away(here.page, crop, variety, number, "Root cellar")
    ways.at("/rounds", "Rounds")(here)
    steps.all_sent(here.page)


def to_anyway(here: ways.Here) -> None:
    here.key("Walk one anyway").click()
    here.sheet_is_open()


def to_never_read(here: ways.Here) -> None:
    here.page.locator("dialog").get_by_text("Root cellar").click()
    here.page.get_by_text("Read the dial by the door.").wait_for()


def to_who_holds(here: ways.Here) -> Page:
    """A second phone joins the household with a code."""
    code = steps.pairing_code(here.page, "Ida")
    here.other = here.another("second")
    other = here.other.open("/#/join")
    other.get_by_role("textbox").first.fill(code)
    other.get_by_label("What is this phone called?").fill("Kitchen tablet")
    other.locator(".reach .key").first.click()
    steps.key(other, re.compile("^Begin as")).wait_for()
    return other


def to_trim_to_the_hens(here: ways.Here) -> None:
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
    ways.at("/rounds", "Rounds")(here)
    here.page.locator("button.sent", has_text="to send").first.wait_for()


def to_hens_are_ill(here: ways.Here) -> Page:
    steps.key(here.second, re.compile("^Begin as")).click()
    steps.heading(here.second, "Rounds")
    steps.go(here.second, "/household")
    steps.key(here.second.get_by_role("listitem").filter(has_text="Hens"), "Open").click()
    steps.key(here.second, re.compile("^Ill or under treatment")).click()
    return here.second


def to_refused(here: ways.Here) -> None:
    steps.key(here.second, "Keep", exact=True).click()
    steps.heading(here.second, "Nettle Hollow")
    while stores.phone_stores(here.second)["outbox"]:
        here.second.wait_for_timeout(100)
    here.page.context.set_offline(False)
    steps.sync_now(here.page)
    here.page.get_by_role("button", name="1 needs you").first.wait_for()
    ways.to_sending(here)


def to_needs(here: ways.Here) -> None:
    here.page.locator("dialog").get_by_role("link", name=re.compile("^Look")).first.click()
    steps.heading(here.page, re.compile("^Not taken"))


def to_accident(here: ways.Here) -> None:
    here.page.get_by_role("radio", name=re.compile("^It was eaten all the same")).check(force=True)
    here.key("Write the accident").click()
    steps.heading(here.page, "Eaten all the same")
