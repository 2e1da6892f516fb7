"""WebKitGTK driven over WebDriver, on a screen of its own: what iPhones run, as near as a computer comes."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager

from selenium import webdriver
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.ui import WebDriverWait
from selenium.webdriver.webkitgtk.options import Options
from selenium.webdriver.webkitgtk.service import Service

from homestead.jobs.checking.browser import WEBKIT

DRIVER = shutil.which("WebKitWebDriver") or "/usr/bin/WebKitWebDriver"
#: what a person touches; a sheet that is closed is not among them
TOUCHABLE = "button, a, label, summary, option"


@contextmanager
def screen() -> Iterator[str]:
    """A display nobody sees; its name."""
    read, write = os.pipe()
    command = ["Xvfb", "-displayfd", str(write), "-screen", "0", "1280x1000x24", "-nolisten", "tcp"]
    server = subprocess.Popen(command, pass_fds=[write], stderr=subprocess.DEVNULL)
    os.close(write)
    with os.fdopen(read) as told:
        name = ":" + told.readline().strip()
    try:
        yield name
    finally:
        server.terminate()
        server.wait(timeout=20)


@contextmanager
def webkit(display: str) -> Iterator[webdriver.WebKitGTK]:
    options = Options()
    options.binary_location = str(WEBKIT)
    options.add_argument("--automation")
    service = Service(DRIVER, env={**os.environ, "DISPLAY": display})
    browser = webdriver.WebKitGTK(options=options, service=service)
    browser.set_script_timeout(30)
    try:
        yield browser
    finally:
        browser.quit()


FIND = """
const [words, kind] = arguments;
const said = (one) => (one.getAttribute('aria-label') ?? one.innerText ?? '').trim();
const is_it = (one) => one.checkVisibility() && said(one).startsWith(words);
return [...document.querySelectorAll(kind)].find(is_it);
"""


def seen(browser: webdriver.WebKitGTK, words: str, kind: str = TOUCHABLE) -> WebElement:
    """Waits for the first element shown whose label or own words begin with `words`."""
    wait = WebDriverWait(browser, 20)
    found = wait.until(lambda _: browser.execute_script(FIND, words, kind), f"'{words}' is not shown")
    assert isinstance(found, WebElement)
    return found


def touch(browser: webdriver.WebKitGTK, words: str, kind: str = TOUCHABLE) -> None:
    """Scrolled to the middle first: bars lie over both ends of the page."""
    found = seen(browser, words, kind)
    browser.execute_script("arguments[0].scrollIntoView({ block: 'center' })", found)
    found.click()


def write(browser: webdriver.WebKitGTK, label: str, text: str) -> None:
    """Into the field of that label."""
    field = browser.execute_script("return arguments[0].control", seen(browser, label, "label"))
    field.send_keys(text)
