"""The phone's store on WebKit, which iPhones run: bytes come back, so does a save without a server."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Iterator
from typing import Any

import pytest
from selenium import webdriver
from selenium.webdriver.common.keys import Keys

from tests.journeys import stores
from tests.journeys.home import Home
from tests.journeys.webkit import screen, seen, touch, webkit, write
from tests.photos import pictures

pytestmark = [pytest.mark.browser, pytest.mark.webkit]

#: runs a function of this file's and hands its value over
RUN = "const done = arguments[arguments.length - 1]; (%s)(...arguments).then(done, (e) => done('' + e));"

KEEP_BYTES = """async (text) => {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0)).buffer;
  const asked = indexedDB.open('bytes', 1);
  asked.onupgradeneeded = () => asked.result.createObjectStore('pictures');
  const db = await new Promise((done) => { asked.onsuccess = () => done(asked.result); });
  const kept = db.transaction('pictures', 'readwrite');
  kept.objectStore('pictures').put({ bytes }, 'photo');
  await new Promise((done, failed) => { kept.oncomplete = done; kept.onabort = () => failed(kept.error); });
  db.close();
}"""
READ_BYTES = """async () => {
  const asked = indexedDB.open('bytes');
  const db = await new Promise((done) => { asked.onsuccess = () => done(asked.result); });
  const read = db.transaction('pictures').objectStore('pictures').get('photo');
  const { bytes } = await new Promise((done) => { read.onsuccess = () => done(read.result); });
  db.close();
  return btoa(Array.from(new Uint8Array(bytes), (byte) => String.fromCharCode(byte)).join(''));
}"""


@pytest.fixture
def browser() -> Iterator[webdriver.WebKitGTK]:
    with screen() as display, webkit(display) as started:
        yield started


def run(browser: webdriver.WebKitGTK, function: str, *arguments: object) -> Any:
    return browser.execute_async_script(RUN % function, *arguments)


def test_bytes_of_a_photo_are_read_from_the_store_as_they_were_written(
    browser: webdriver.WebKitGTK, home: Home
) -> None:
    """hazard 17: as an ArrayBuffer, read by a page opened anew; SHA-256 of both."""
    browser.get(f"http://localhost:{home.port}/app.webmanifest")
    photo = pictures.jpeg(pictures.four_corners(1600, 1200))
    assert run(browser, KEEP_BYTES, base64.b64encode(photo).decode()) is None
    browser.refresh()
    read = base64.b64decode(run(browser, READ_BYTES))
    assert hashlib.sha256(read).digest() == hashlib.sha256(photo).digest()


def test_what_is_kept_without_a_server_is_there_after_a_reload_and_is_sent_later(
    browser: webdriver.WebKitGTK, home: Home
) -> None:
    """invariant 29, invariant 30 on WebKit: the server is stopped, since its own offline mode cuts more."""
    browser.get(f"http://localhost:{home.port}/")
    found_household(browser)
    run(browser, "async () => { await navigator.serviceWorker.ready; }")
    seen(browser, "All sent")
    home.stop()
    browser.refresh()
    put_away_potatoes(browser)
    browser.refresh()
    seen(browser, "1 to send")
    (waits,) = [row for row in kept(browser) if row["standing"] == "waiting"]
    assert waits["written"]["body"]["crop"] == "potato"
    home.start()
    touch(browser, "1 to send")
    touch(browser, "Send now")
    seen(browser, "All sent")
    assert {row["id"] for row in kept(browser)} == {one for _, one, _ in stores.server_lines(home)}


def found_household(browser: webdriver.WebKitGTK) -> None:
    touch(browser, "Start your own")
    touch(browser, "root cellar")
    write(browser, "What is your household called?", "Nettle Hollow")
    write(browser, "Your name", "Ida")
    touch(browser, "Keep ")
    seen(browser, "Store", "h1")


def put_away_potatoes(browser: webdriver.WebKitGTK) -> None:
    browser.execute_script("location.hash = '/store/put-away'")
    touch(browser, "Potato")
    touch(browser, "Weighed, 0 kg")
    browser.switch_to.active_element.send_keys("40", Keys.ENTER)
    touch(browser, "Put away", "button.key")
    seen(browser, "Another the same?", "*")


def kept(browser: webdriver.WebKitGTK) -> list[dict[str, Any]]:
    found: dict[str, Any] = run(browser, stores.READ_ALL)
    (household,) = [one for one in found.values() if "outbox" in one]
    entries: list[dict[str, Any]] = household["entries"]
    return entries
