"""The phone in Chromium with its processor slowed: tap to kept, photo kept, cold start offline, first pull.

    .venv/bin/python -m tests.bench.phone

A home of its own with 400 lots and 20,000 entries; the frontend as it was built (`ROUNDS_DIST`).
"""

from __future__ import annotations

import json
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median

from playwright.sync_api import Page, Playwright, sync_playwright

from tests.bench.finding import searched
from tests.bench.slowness import shared, slowed
from tests.bench.told import Told, p95, tell
from tests.journeys import steps
from tests.journeys.browsers import Phone
from tests.journeys.home import BASE, Home
from tests.photos import pictures

TAPS = 40
SOUND = re.compile("^All .*sound$")
STARTS = 5

#: from the touch to the next lot on the screen, which comes after the store's `complete`
WATCH_TAPS = """() => {
  window.taps = [];
  window.kept = [];
  let touched, before;
  // a line is kept when the transaction that has the outbox is complete
  const begin = IDBDatabase.prototype.transaction;
  IDBDatabase.prototype.transaction = function (stores, mode, how) {
    const made = begin.call(this, stores, mode, how);
    const at = touched;
    if (mode === 'readwrite' && [...stores].includes('outbox') && at !== undefined)
      made.addEventListener('complete', () => window.kept.push(performance.now() - at));
    return made;
  };
  const standing = () => [...document.querySelectorAll('header, h1')].map((one) => one.textContent).join();
  document.addEventListener('click', (event) => {
    touched = event.timeStamp;
    before = standing();
  }, true);
  document.addEventListener('change', (event) => {
    if (event.target.type !== 'file') return;
    touched = event.timeStamp;
    before = standing();
  }, true);
  new MutationObserver(() => {
    if (touched === undefined || standing() === before) return;
    window.taps.push(performance.now() - touched);
    touched = undefined;
  }).observe(document.body, { childList: true, subtree: true, characterData: true });
}"""

#: when the list can be touched: its first row is drawn
WATCH_LIST = """
new MutationObserver((_, observer) => {
  if (!document.querySelector('main a[href^="#/store/lot"], main [href^="#/rounds/begin"]')) return;
  observer.disconnect();
  requestAnimationFrame(() => { window.usable = performance.now(); });
}).observe(document, { childList: true, subtree: true });
"""

CURSOR = """async () => {
  const found = (await indexedDB.databases()).find((one) => one.name.startsWith('rounds-'));
  if (!found) return null;
  const asked = indexedDB.open(found.name);
  const db = await new Promise((done) => { asked.onsuccess = () => done(asked.result); });
  const read = db.transaction('meta').objectStore('meta').get('feed');
  const feed = await new Promise((done) => { read.onsuccess = () => done(read.result); });
  db.close();
  return feed?.value.cursor?.seq ?? 0;
}"""

#: lots are kept for the next start once nothing has changed for some seconds
KEPT = """async () => {
  const found = (await indexedDB.databases()).find((one) => one.name.startsWith('rounds-'));
  const asked = indexedDB.open(found.name);
  const db = await new Promise((done) => { asked.onsuccess = () => done(asked.result); });
  const read = db.transaction('meta').objectStore('meta').get('worked_out');
  const kept = await new Promise((done) => { read.onsuccess = () => done(read.result !== undefined); });
  db.close();
  return kept;
}"""

PULLS = """() => {
  const all = performance.getEntriesByType('resource').filter((one) => one.name.includes('/sync/pull'));
  return [all[0].startTime, all.length, all.reduce((sum, one) => sum + one.decodedBodySize, 0)];
}"""

#: the same bytes, one request after the other, and all rows in one transaction
PLAIN_PULL = """async () => {
  const began = performance.now();
  const rows = [];
  let after = '0', more = true;
  while (more) {
    const page = await (await fetch(`/api/v1/sync/pull?after=${after}&limit=500`)).json();
    rows.push(...page.rows);
    ({ next: after, more } = page);
  }
  const fetched = performance.now() - began;
  const asked = indexedDB.open('plain', 1);
  asked.onupgradeneeded = () => asked.result.createObjectStore('rows', { keyPath: 'seq' });
  const db = await new Promise((done) => { asked.onsuccess = () => done(asked.result); });
  const kept = db.transaction('rows', 'readwrite');
  for (const row of rows) kept.objectStore('rows').put(row);
  await new Promise((done) => { kept.oncomplete = done; });
  db.close();
  indexedDB.deleteDatabase('plain');
  return [performance.now() - began, fetched, rows.length];
}"""


PLACES = ("store", "kitchen", "scraps", "season", "rounds")

#: every touch, from its beginning to the next paint (Event Timing, W3C), in steps of 8 ms
WATCH_EVENTS = """() => {
  window.events = [];
  new PerformanceObserver((list) => {
    for (const event of list.getEntries()) if (event.interactionId) window.events.push(event.duration);
  }).observe({ type: 'event', durationThreshold: 16 });
}"""

#: until the page of that place stands with its heading, and was painted
WATCH_PLACE = """(place) => {
  window.opened = undefined;
  let touched;
  const note = (event) => { touched = event.timeStamp; };
  document.addEventListener('click', note, { capture: true, once: true });
  const before = document.querySelector('h1');
  const look = () => {
    const heading = document.querySelector('h1');
    if (touched === undefined || location.hash !== place || !heading || heading === before)
      return requestAnimationFrame(look);
    requestAnimationFrame(() => setTimeout(() => { window.opened = performance.now() - touched; }));
  };
  requestAnimationFrame(look);
}"""

#: a screen's half every frame, to the end
SCROLL = """() => new Promise((done) => {
  const frames = [];
  let last;
  const step = (now) => {
    if (last !== undefined) frames.push(now - last);
    last = now;
    const end = document.documentElement.scrollHeight - innerHeight;
    if (scrollY >= end - 1 || frames.length > 600) return done(frames);
    scrollBy(0, innerHeight / 2);
    requestAnimationFrame(step);
  };
  requestAnimationFrame(step);
})"""


def measured() -> list[Told]:
    with tempfile.TemporaryDirectory(prefix="rounds-bench-") as folder, a_home(Path(folder)) as home:
        return on_a_phone(Path(folder), home)


def on_a_phone(folder: Path, home: Home) -> list[Told]:
    with sync_playwright() as playwright:
        phone, code = another_phone(playwright, folder, home)
        pull = first_pull(phone, code)
        print(pull, file=sys.stderr, flush=True)
        starts = [cold_start(phone) for _ in range(STARTS)]
        print(starts, file=sys.stderr, flush=True)
        usable, others = sorted(starts)[STARTS // 2]
        start = Told("cold start offline, 400 lots, 20,000 entries, at 4x", usable, 1500, "ms", others)
        return [pull, start, *on_the_way(phone), searched(phone), *on_a_walk(phone, folder)]


def another_phone(playwright: Playwright, folder: Path, home: Home) -> tuple[Phone, str]:
    """A phone that knows nothing yet of a filled household, and the code that lets it in."""
    url = f"http://localhost:{home.port}"
    keepers = Phone(playwright, folder / "keeper", url)
    page = keepers.open()
    steps.found_household(page, "Bench Hollow", "Ida", ["root cellar", "loft"])
    steps.all_sent(page)
    steps.add_person(page, "Jon", "Adult")
    steps.all_sent(page)
    code = steps.pairing_code(page, "Jon")
    keepers.close()
    fill(home)
    return Phone(playwright, folder / "phone", url), code


@contextmanager
def a_home(folder: Path) -> Iterator[Home]:
    home = Home(folder / "home").prepare().start()
    try:
        yield home
    finally:
        home.stop()


def fill(home: Home) -> None:
    command = [sys.executable, "-m", "tests.bench.fill"]
    done = subprocess.run(
        command, env=home.environment, cwd=BASE, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout.splitlines()[-1])
    print(f"filled: {told}", file=sys.stderr)
    assert told.get("accepted", 0) >= 20_000, told


def first_pull(phone: Phone, code: str) -> Told:
    """Until the cursor stands at the head. The plain one runs three times on that page; their median."""
    page = phone.open()
    steps.key(page, "Join one").click()
    page.get_by_role("textbox").first.fill(code)
    page.get_by_label("What is this phone called?").fill("Jon's phone")
    page.locator(".reach .key").first.click()
    steps.key(page, "Begin as").click()
    head = 20_000
    while (page.evaluate(CURSOR) or 0) < head:
        page.wait_for_timeout(50)
    began, pages, size = page.evaluate(PULLS)
    ours = page.evaluate("began => performance.now() - began", began)
    page.wait_for_timeout(3000)
    plain = [page.evaluate(PLAIN_PULL) for _ in range(3)]
    once = median(one[0] for one in plain)
    beside = (
        f"{ours:,.0f} ms against {once:,.0f} ms, {median(one[1] for one in plain):,.0f} ms of it the server "
        f"and JSON; {pages} pages, {size / 1e6:.1f} MB"
    )
    page.evaluate("() => navigator.serviceWorker.ready")
    while not page.evaluate(KEPT):
        page.wait_for_timeout(500)
    phone.close()
    return Told(
        "first pull of 20,000 entries, against the same bytes and one bulkPut", ours / once, 1.5, "x", beside
    )


def cold_start(phone: Phone) -> tuple[float, str]:
    """The browser just started, no network, the list of lots drawn [ms]; and how the processor was shared."""
    page = phone.open("/app.webmanifest")
    phone.cut_network()
    phone.context.add_init_script(WATCH_LIST)
    slowed(page, 4)
    page.goto(f"{phone.url}/#/store")
    page.wait_for_function("() => window.usable", timeout=60_000)
    usable: float = page.evaluate("() => window.usable")
    others = shared(page)
    phone.close()
    return usable, others


def on_a_walk(phone: Phone, folder: Path) -> list[Told]:
    """Lots looked over one after another with no network; then one suspect photographed, some times over."""
    page = phone.open("/app.webmanifest")
    phone.cut_network()
    page.goto(f"{phone.url}/#/rounds")
    page.locator('[href^="#/rounds/begin"]').first.click()
    page.get_by_role("button", name="one more").first.click()
    page.locator(".reach .key").last.click()
    page.get_by_text("lot 1 of").wait_for()
    page.evaluate(WATCH_TAPS)
    slowed(page, 6)
    taps = touched(page, TAPS)
    kept: list[float] = page.evaluate("() => window.kept")
    slowed(page, 4)
    photo = folder / "photo.jpg"
    photo.write_bytes(pictures.with_place_and_turn(pictures.four_corners(4000, 3000), 6))
    photos = [photographed(page, photo) for _ in range(10)]
    others = shared(page)
    phone.close()
    return [
        Told(
            "tap to kept on a walk, p95, at 6x",
            p95(kept),
            100,
            "ms",
            f"median {median(kept):.0f} ms, {len(kept)} taps; the next lot is drawn after "
            f"{median(taps):.0f} ms, p95 {p95(taps):.0f} ms; {others}",
        ),
        Told("photo of 12 megapixels kept with the draft, at 4x", median(photos), 500, "ms", others),
    ]


def on_the_way(phone: Phone) -> list[Told]:
    """Place after place opened by its key, the store scrolled, things touched; no network, at 4x."""
    page = phone.open("/app.webmanifest")
    phone.cut_network()
    page.goto(f"{phone.url}/#/rounds")
    page.get_by_role("heading", level=1).first.wait_for()
    page.wait_for_timeout(6000)
    slowed(page, 4)
    page.evaluate(WATCH_EVENTS)
    opened = {place: opening(page, place) for place in PLACES * 3}
    worst = max(opened.values())
    slowest = ", ".join(f"{place} {ms:.0f}" for place, ms in opened.items())
    frames = scrolled(page)
    painted: list[float] = page.evaluate("() => window.events")
    others = shared(page)
    phone.close()
    slow = [ms for ms in frames if ms > 50]
    return [
        Told("opening a place, the slowest, at 4x", worst, 300, "ms", f"{slowest}; {others}"),
        Told("interaction to next paint, the slowest, at 4x", max(painted, default=0), 200, "ms", others),
        Told(
            "scroll of 400 lots, the longest frame, at 4x",
            max(frames),
            50,
            "ms",
            f"{len(slow)} of {len(frames)} over 50 ms, median {median(frames):.0f} ms; {others}",
        ),
    ]


def opening(page: Page, place: str) -> float:
    """From the touch of the place's key to the frame in which its page is drawn. [ms]"""
    page.evaluate(WATCH_PLACE, f"#/{place}")
    page.locator(f'nav a[href="#/{place}"]').first.click()
    page.wait_for_function("() => window.opened !== undefined")
    took: float = page.evaluate("() => window.opened")
    return took


def scrolled(page: Page) -> list[float]:
    """Times between frames while the list of all lots goes by. [ms]"""
    opening(page, "store")
    page.wait_for_function("() => !document.querySelector('.shelf[style*=margin]')", timeout=60_000)
    frames: list[float] = page.evaluate(SCROLL)
    return frames


def touched(page: Page, times: int) -> list[float]:
    for done in range(times):
        page.get_by_role("button", name=SOUND).click()
        page.wait_for_function("done => window.taps.length > done", arg=done)
    taps: list[float] = page.evaluate("() => window.taps")
    return taps


def photographed(page: Page, photo: Path) -> float:
    """From the file handed over to the page of the suspect, which comes when the picture is kept. [ms]"""
    page.evaluate("() => { window.taps = []; }")
    with page.expect_file_chooser() as camera:
        steps.key(page, "Unsure").click()
    camera.value.set_files(photo)
    page.wait_for_function("() => window.taps.length > 0")
    took: float = page.evaluate("() => window.taps[0]")
    steps.key(page, "Back to the lot").click()
    return took


if __name__ == "__main__":
    tell(measured())
