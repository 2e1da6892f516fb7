"""What holds on every page: its content security policy, a silent console, no sideways scrolling.

And the app as something that a phone can install, and open with no server.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page

from tests.journeys import screens, steps, ways
from tests.journeys.browsers import Phone
from tests.journeys.home import Home
from tests.journeys.reachable import covered

pytestmark = pytest.mark.browser

Phones = Callable[[str, str], Phone]

#: said by the browser when a story cuts its own network
CUT = "net::ERR_INTERNET_DISCONNECTED"
#: css px; the narrowest phone, the usual one, a desk. WCAG 1.4.10 (reflow) asks for 320
WIDTHS = (320, 390, 1280)
WATCH = """document.addEventListener('securitypolicyviolation', (broken) => {
  console.error(`policy: ${broken.violatedDirective} ${broken.blockedURI} ${broken.sample}`);
});"""
#: what stands out at the right or left of the window, by its own box
TOO_WIDE = """() => {
  const room = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth <= room) return [];
  const out = [...document.querySelectorAll('body *')].filter((one) => {
    const { left, right, width } = one.getBoundingClientRect();
    return width > 0 && (right > room + 1 || left < -1);
  });
  return ['the page', ...out.map((one) => `${one.tagName} ${one.className} ${one.textContent.slice(0, 40)}`)];
}"""


def complaints(phone: Phone) -> list[str]:
    """Errors and warnings of the console, with the policy's violations among them."""
    return [line for line in phone.console if line.startswith(("error", "warning", "pageerror"))]


def amiss(page: Page) -> list[str]:
    """Widths and text sizes at which the page scrolls sideways; what large text covers or shuts off."""
    found = []
    usual = page.viewport_size
    for width, text in [*((width, 100) for width in WIDTHS), (390, 200)]:
        page.set_viewport_size({"width": width, "height": 844})
        page.evaluate("text => { document.documentElement.style.fontSize = text }", _size(text))
        found += [f"{width} px, {text} %: {one}" for one in page.evaluate(TOO_WIDE)]
        if text == 200:
            found += [f"{width} px, {text} %: {one}" for one in covered(page)]
    page.evaluate("() => { document.documentElement.style.fontSize = '' }")
    assert usual
    page.set_viewport_size({"width": WIDTHS[0], "height": 844})
    screens.speak(page, "de")
    found += [f"{WIDTHS[0]} px, German: {one}" for one in page.evaluate(TOO_WIDE)]
    screens.speak(page, "en")
    page.set_viewport_size(usual)
    return found


def _size(percent: int) -> str:
    return "" if percent == 100 else f"{percent}%"


@pytest.mark.parametrize("story", screens.STORIES)
def test_no_page_breaks_its_policy_or_scrolls_sideways(story: str, home: Home, phone: Phones) -> None:
    """invariant 42, the page's half; the server's, without token or cookie, is proved with the API."""
    screens.begin_story(story, home)
    url = f"http://localhost:{home.port}"
    one = phone("one", url)
    one.open(first_run=WATCH)
    here = ways.Here(one, lambda other: phone(other, url))
    wide = [f"{name}: {one}" for name, page in screens.told(story, here) for one in amiss(page)]
    phones = [one, *([here.other] if here.other else [])]
    assert [line for one in phones for line in complaints(one) if CUT not in line] == []
    assert wide == []


def test_a_broken_policy_a_wide_page_and_a_covered_key_are_seen(home: Home, phone: Phones) -> None:
    """A check that cannot fail proves nothing: put in by hand, a script, a wide board and a lid."""
    one = phone("one", f"http://localhost:{home.port}")
    page = one.open(first_run=WATCH)
    page.get_by_role("heading", level=1).wait_for()
    assert complaints(one) == []
    assert amiss(page) == []
    page.evaluate(
        """() => {
          const script = document.createElement('script');
          script.textContent = 'window.broken = true';
          document.body.append(script);
          const board = document.createElement('div');
          board.style.width = '500px';
          board.textContent = 'a board';
          document.querySelector('main').append(board);
          const lid = document.createElement('div');
          lid.style.cssText = 'position: fixed; inset: 0; z-index: 9';
          document.body.append(lid);
        }"""
    )
    assert page.evaluate("() => window.broken") is None
    assert any("policy: script-src" in line for line in complaints(one)), one.console
    assert any("a board" in line for line in amiss(page))
    assert any(": covered: " in line for line in amiss(page))


def test_a_phone_can_install_it(home: Home, phone: Phones) -> None:
    """Outside: Chromium's own check of what can be installed, over its protocol; members as in the W3C's
    Web Application Manifest."""
    one = phone("one", f"http://localhost:{home.port}")
    page = one.open()
    page.wait_for_function("() => navigator.serviceWorker.ready.then(() => true)")
    asked = one.context.new_cdp_session(page)
    errors = asked.send("Page.getInstallabilityErrors")["installabilityErrors"]
    assert [error for error in errors if error["errorId"] != "in-incognito"] == []
    told = asked.send("Page.getAppManifest")
    assert told["errors"] == []
    manifest: dict[str, Any] = json.loads(told["data"])
    for member in ("name", "short_name", "start_url", "display", "icons", "theme_color", "background_color"):
        assert manifest[member], member
    assert manifest["display"] == "standalone"
    purposes = {(icon["sizes"], icon["purpose"]) for icon in manifest["icons"]}
    assert {("192x192", "any"), ("512x512", "any"), ("512x512", "maskable")} <= purposes
    for icon in manifest["icons"]:
        size = page.evaluate(
            "async (src) => { const one = new Image(); one.src = src; await one.decode();"
            " return `${one.naturalWidth}x${one.naturalHeight}` }",
            icon["src"],
        )
        assert size == icon["sizes"], icon["src"]
    for shortcut in manifest["shortcuts"]:
        assert shortcut["url"].startswith("/#/")


def test_a_cold_start_with_the_server_stopped_shows_all_five_places(home: Home, phone: Phones) -> None:
    """invariant 29, hazard 35: the browser is closed, the server ends, the browser is opened again."""
    one = phone("one", f"http://localhost:{home.port}")
    page = one.open()
    steps.found_household(page, "Nettle Hollow", "Ida", ["root cellar"])
    steps.put_away(page, "Carrot", "Long Ember", "24", "Root cellar")
    steps.go(page, "/store")
    steps.all_sent(page)
    page.wait_for_function("() => navigator.serviceWorker.ready.then(() => true)")
    one.close()
    home.stop()
    page = one.open()
    for place in ("Rounds", "Store", "Kitchen", "Scraps", "Season"):
        steps.key(page, place, exact=True).click()
        steps.heading(page, place)
    page.reload()
    steps.heading(page, "Season")
    expect_words = {"/store": "Carrot", "/kitchen": "Carrot", "/season": "Carrot", "/rounds": "Root cellar"}
    for path, words in expect_words.items():
        steps.go(page, path)
        page.get_by_text(words).first.wait_for()
