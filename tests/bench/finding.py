"""A lot found among 400 by typing: from each key to the frame with the list it leads to.

    .venv/bin/python -m tests.bench.finding      alone, with a phone and a home of its own

By crop, space, number, finding, state, and by what nothing is called. No network, processor slowed 4 times.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from statistics import median

from playwright.sync_api import Page, sync_playwright

from tests.bench.slowness import shared, slowed
from tests.bench.told import Told, p95, tell
from tests.journeys import steps
from tests.journeys.browsers import Phone

TYPED = ("carrot", "root cellar", "120", "rot", "suspect", "count it", "nothing here")

#: the list is drawn before the next frame: what is typed is answered in the turn that hears of it
WATCH_KEYS = """() => {
  window.keys = [];
  document.addEventListener('input', (event) => {
    const typed = event.timeStamp;
    requestAnimationFrame(() => setTimeout(() => window.keys.push(performance.now() - typed)));
  }, true);
}"""


def searched(phone: Phone) -> Told:
    page = phone.open("/app.webmanifest")
    phone.cut_network()
    page.goto(f"{phone.url}/#/rounds")
    page.get_by_role("heading", level=1).first.wait_for()
    page.wait_for_timeout(6000)
    steps.key(page, "Find a lot").click()
    page.get_by_role("searchbox").wait_for()
    page.wait_for_timeout(1000)
    slowed(page, 4)
    page.evaluate(WATCH_KEYS)
    times = {text: typed(page, text) for text in TYPED}
    others = shared(page)
    phone.close()
    every = [ms for each in times.values() for ms in each]
    slowest = ", ".join(f"{text} {max(each):.0f}" for text, each in times.items())
    beside = f"{len(every)} keys, median {median(every):.0f} ms; slowest of {slowest}; {others}"
    return Told("a key typed to the list of lots found, p95, 400 lots, at 4x", p95(every), 200, "ms", beside)


def typed(page: Page, text: str) -> list[float]:
    """Key after key, each when the one before is answered. [ms]"""
    field = page.get_by_role("searchbox")
    if field.input_value():
        field.fill("")
        page.wait_for_function("() => window.keys.length > 0")
    page.evaluate("() => { window.keys = []; }")
    for count, letter in enumerate(text, 1):
        field.press_sequentially(letter)
        page.wait_for_function("count => window.keys.length >= count", arg=count)
    times: list[float] = page.evaluate("() => window.keys.splice(0)")
    return times


def alone() -> list[Told]:
    from tests.bench.phone import a_home, another_phone, first_pull

    with (
        tempfile.TemporaryDirectory(prefix="rounds-bench-") as folder,
        a_home(Path(folder)) as home,
        sync_playwright() as playwright,
    ):
        phone, code = another_phone(playwright, Path(folder), home)
        print(first_pull(phone, code), file=sys.stderr, flush=True)
        return [searched(phone)]


if __name__ == "__main__":
    tell(alone())
