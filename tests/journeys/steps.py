"""What people do on their phones, by the words they touch. English as spoken by the app."""

from __future__ import annotations

import re

from playwright.sync_api import Locator, Page, expect

from tests.journeys import stores

Name = str | re.Pattern[str]
ALL_SENT = re.compile("^All sent$")
CODE = re.compile(r"\b([A-Z0-9]{4})-([A-Z0-9]{4})\b")


def key(page: Page | Locator, name: Name, *, exact: bool = False) -> Locator:
    """A key, a word or a tick that can be touched, whether it acts or leads somewhere."""
    acts = page.get_by_role("button", name=name, exact=exact)
    return acts.or_(page.get_by_role("link", name=name, exact=exact)).first


def go(page: Page, path: str) -> None:
    """Open a page of the app by its address, as a bookmark does; the app is not loaded anew."""
    page.evaluate("path => { location.hash = path }", path)


def heading(page: Page, name: Name) -> None:
    page.get_by_role("heading", name=name, level=1).wait_for()


def type_number(page: Page, name: str, number: str) -> None:
    page.get_by_role("button", name=re.compile(rf"^{name}, .*Touch to type")).click()
    field = page.get_by_role("textbox", name=name)
    field.fill(number)
    field.press("Enter")


def found_household(page: Page, name: str, keeper: str, spaces: list[str]) -> None:
    key(page, "Start your own").click()
    for space in spaces:
        key(page, space, exact=True).click()
    key(page, "hens", exact=True).click()
    page.get_by_label("What is your household called?").fill(name)
    page.get_by_label("Your name").fill(keeper)
    key(page, re.compile("^Keep ")).click()
    heading(page, re.compile("^Store$"))


def add_person(page: Page, name: str, role: str) -> None:
    go(page, "/household")
    key(page, "Add a person").click()
    page.get_by_label("Name").fill(name)
    page.get_by_role("radio", name=re.compile(f"^{role}")).check(force=True)
    key(page, "Keep", exact=True).click()
    page.get_by_role("listitem").filter(has_text=name).first.wait_for()


def measure(page: Page) -> str:
    """What the number that is asked for counts."""
    weighed = page.get_by_role("button", name=re.compile("^Weighed, .*Touch")).count()
    return "Weighed" if weighed else "Pieces"


def put_away(page: Page, crop: str, variety: str, number: str, space: str) -> None:
    """One lot of a crop that the form shows first."""
    go(page, "/store")
    key(page, re.compile("^Put away")).click()
    key(page, crop, exact=True).click()
    page.get_by_label("Name of the variety").fill(variety)
    type_number(page, measure(page), number)
    page.get_by_role("combobox", name="Where").select_option(label=space)
    page.get_by_role("button", name=re.compile("^Put away")).last.click()
    page.get_by_text("Another the same?").wait_for()


def pairing_code(page: Page, person: str) -> str:
    """A code for a phone that `person` holds, as the keeper's phone shows it."""
    go(page, "/household")
    key(page, "Join a phone").click()
    key(page, person, exact=True).click()
    key(page, "Make a code").click()
    shown = page.get_by_text(CODE).first.inner_text()
    found = CODE.search(shown)
    assert found, shown
    return found[1] + found[2]


def join(page: Page, code: str, phone: str) -> None:
    key(page, re.compile("^Join one")).click()
    page.get_by_role("textbox").first.fill(code)
    page.get_by_label("What is this phone called?").fill(phone)
    page.locator(".reach .key").first.click()
    key(page, re.compile("^Begin as")).click()
    heading(page, re.compile("^Rounds$"))


def all_sent(page: Page) -> None:
    """Whatever waits is sent: the outbox is empty, and the words, a moment behind it, say so."""
    for _ in range(100):
        if stores.waiting(page) == 0:
            break
        page.wait_for_timeout(300)
    expect(page.get_by_role("button", name=ALL_SENT)).to_be_visible(timeout=30_000)


def sync_now(page: Page) -> None:
    """A touch on the words of sending, then "send now"."""
    page.locator("button.sent").first.click()
    key(page, "Send now").click()
    page.keyboard.press("Escape")
