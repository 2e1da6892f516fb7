"""How one is reminded, in a real browser: the calendar's link, wishes kept, and a notice as it arrives."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from icalendar import Calendar
from playwright.sync_api import Page, Playwright, expect

from tests.journeys import steps
from tests.journeys.browsers import Phone
from tests.journeys.home import Home

pytestmark = pytest.mark.browser

#: What the worker gives the browser to show. Whether it is seen depends on the desktop: a bare one has no
#: place for notices and drops them.
HEARD = """() => {
    self.heard = [];
    const show = self.registration.showNotification.bind(self.registration);
    self.registration.showNotification = (title, { body, tag, ...more }) => {
        self.heard.push({ body, tag });
        return show(title, { body, tag, ...more });
    };
}"""


def deliver(page: Page, origin: str, line: str) -> None:
    """A push message as the browser hands it to its worker, already opened; no push service is asked."""
    session = page.context.new_cdp_session(page)
    found: list[dict[str, Any]] = []
    session.on("ServiceWorker.workerRegistrationUpdated", lambda told: found.extend(told["registrations"]))
    session.send("ServiceWorker.enable")
    for _ in range(100):
        if found:
            break
        page.wait_for_timeout(50)
    told = {"origin": origin, "registrationId": found[0]["registrationId"], "data": line}
    session.send("ServiceWorker.deliverPushMessage", told)


def test_a_calendar_reads_its_link_until_it_is_taken_back_and_a_notice_is_shown(
    home: Home, phone: Callable[[str, str], Phone], playwright: Playwright
) -> None:
    ruths = phone("ruth", f"http://localhost:{home.port}")
    page = ruths.open()
    steps.found_household(page, "Nettle Hollow", "Ruth", ["loft"])
    steps.go(page, "/household")
    page.get_by_role("link", name="Reminders").click()
    page.get_by_text("This server sends no mail.").wait_for()
    steps.key(page, "Make a link").click()
    address = page.get_by_role("link", name="/api/v1/calendar/").get_attribute("href")
    assert address
    asking = playwright.request.new_context()
    read = asking.get(address)
    assert read.headers["content-type"] == "text/calendar; charset=utf-8"
    assert Calendar.from_ical(read.text())["VERSION"] == "2.0"

    page.get_by_label("Quiet from").fill("21:15")
    steps.key(page, "Keep", exact=True).click()
    page.get_by_text("Kept: Reminders.").wait_for(state="attached")
    page.reload()
    expect(page.get_by_label("Quiet from")).to_have_value("21:15")
    page.get_by_text("There is a link, made on").wait_for()
    expect(page.get_by_text("/api/v1/calendar/")).to_have_count(0)
    steps.key(page, "Take it back").click()
    page.get_by_text("A private link that a calendar asks by itself").wait_for()
    assert asking.get(address).status == 404
    asking.dispose()

    ruths.context.grant_permissions(["notifications"], origin=ruths.url)
    page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
    (worker,) = page.context.service_workers
    worker.evaluate(HEARD)
    lines = ["1 thing for you today.", "2 things for you today, 1 before dark."]
    for line in lines:
        deliver(page, ruths.url, line)
    for _ in range(100):
        if len(worker.evaluate("() => self.heard")) == len(lines):
            break
        page.wait_for_timeout(100)
    # notices of one tag take each other's place (Notifications API)
    assert worker.evaluate("() => self.heard") == [{"body": line, "tag": "day"} for line in lines]
