"""PouchDB beside our ledger, the same 10,000 rows in the same browser: `python -m tests.bench.pouch`.

PouchDB replicates to an express server that keeps all in memory; ours to a home server on SQLite on disk,
which judges every line, writes its tables and folds its lots. Needs `npm ci` in `tests/bench/pouch` once.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, sync_playwright

from tests.bench.told import Told, tell
from tests.journeys import steps
from tests.journeys.browsers import Phone
from tests.journeys.home import BASE, Home
from tests.services import free_port

HERE = Path(__file__).with_name("pouch")
ROLLDOWN = BASE / "frontend" / "node_modules" / "rolldown" / "bin" / "cli.mjs"
ROWS = 10_000
BUDGETS = {"insert": 3000, "push": 3500, "pull": 4000}

CODE = """
import django; django.setup()
from django.utils import timezone
from homestead.household.models import Household, Person
from homestead.household.phones import make_code
household = Household.objects.get()
people = [person.uuid for person in Person.rows.of(household)]
print(make_code(household, people, now=timezone.now()).code)
"""

#: entries of twenty lots, by the thousand, as a phone writes them
OURS = """async (count) => {
  const home = (await rounds.access().homes())[0];
  const { ledger } = await rounds.open(home.household);
  const space = (await ledger.records('space'))[0].id;
  const born = await ledger.record_all(Array.from({ length: 20 }, () => ({
    kind: 'put_away', body: { crop: 'carrot', space, pack: 'sand', grams: 300000 },
  })));
  const lots = born.value.map((line) => line.written.id);
  while ((await ledger.status()).to_send > 0) await ledger.sync_now();
  const began = performance.now();
  for (let done = 0; done < count; done += 1000) {
    await ledger.record_all(Array.from({ length: 1000 }, (_, i) => ({
      kind: 'take', body: { lot: lots[i % 20], grams: 100 + (i % 50), for: 'eat' },
    })));
  }
  const inserted = performance.now();
  const lines = (await ledger.lines()).filter((line) => line.written.kind === 'take');
  const counted = performance.now();
  while ((await ledger.status()).to_send > 0) await ledger.sync_now();
  return [inserted - began, performance.now() - counted, lines.map((line) => line.written)];
}"""

PULL = """async ([code, count]) => {
  const let_in = await rounds.access().pair(code, 'second');
  const { ledger } = await rounds.open(let_in.home.household);
  const began = performance.now();
  do await ledger.sync_now(); while ((await ledger.status()).last_pull === undefined);
  while ((await ledger.mark()).lines < count) await ledger.sync_now();
  return performance.now() - began;
}"""

THEIRS = """async (rows) => {
  const remote = new PouchDB(`${location.origin}/db/rows`);
  await remote.info();
  const local = new PouchDB('local');
  await local.info();
  const began = performance.now();
  for (let done = 0; done < rows.length; done += 1000)
    await local.bulkDocs(rows.slice(done, done + 1000).map((row) => ({ _id: row.id, ...row })));
  const inserted = performance.now();
  await PouchDB.replicate(local, remote, { batch_size: 1000 });
  const pushed = performance.now();
  const second = new PouchDB('second');
  await second.info();
  const before = performance.now();
  await PouchDB.replicate(remote, second, { batch_size: 1000 });
  const pulled = performance.now();
  if ((await second.info()).doc_count !== rows.length) throw new Error('not all came');
  return [inserted - began, pushed - inserted, pulled - before];
}"""


@dataclass
class Sent:
    """Requests of a page, and the bytes of their bodies."""

    requests: int = 0
    size: int = 0

    def listen(self, page: Page, path: str) -> None:
        page.on("request", lambda request: self._note(request) if path in request.url else None)

    def _note(self, request: Any) -> None:
        self.requests += 1
        self.size += len(request.post_data_buffer or b"")


def measured() -> list[Told]:
    node = shutil.which("node")
    if node is None or not (HERE / "node_modules").is_dir():
        sys.exit("Node must be on PATH, and PouchDB installed: run `npm ci` in tests/bench/pouch.")
    with tempfile.TemporaryDirectory(prefix="rounds-pouch-") as name, sync_playwright() as playwright:
        folder = Path(name)
        ours, rows, sent = our_times(playwright, folder, bundled(node, "ours.ts", folder))
        theirs, theirs_sent = their_times(playwright, folder, node, rows)
    told = []
    for what, budget in BUDGETS.items():
        beside = f"{ours[what] / theirs[what]:.2f} x PouchDB ({theirs[what]:,.0f} ms)"
        told.append(Told(f"{what} of {ROWS:,} rows", ours[what], budget, "ms", beside))
    pouch = f"PouchDB, with its pull: {theirs_sent.size / 1e6:.2f} MB, {theirs_sent.requests} requests"
    told.append(Told(f"sent for a push of {ROWS:,} rows", sent.size / 1e6, 4.0, "MB", pouch))
    told.append(Told(f"requests for a push of {ROWS:,} rows", sent.requests, 60, "requests"))
    return told


def bundled(node: str, entry: str, folder: Path) -> str:
    file = folder / f"{entry}.bundle.js"
    command = [node, str(ROLLDOWN), entry, "--file", str(file), "--format", "iife", "--platform", "browser"]
    subprocess.run(command, cwd=HERE, check=True, capture_output=True)
    return file.read_text(encoding="utf-8")


def our_times(playwright: Any, folder: Path, bundle: str) -> tuple[dict[str, float], list[Any], Sent]:
    home = Home(folder / "home").prepare().start()
    try:
        url, sent = f"http://localhost:{home.port}", Sent()
        phone = Phone(playwright, folder / "first", url)
        page = phone.open()
        steps.found_household(page, "Bench Hollow", "Ida", ["root cellar"])
        steps.all_sent(page)
        bare(page, url, bundle)
        sent.listen(page, "/sync/push")
        inserted, pushed, rows = page.evaluate(OURS, ROWS)
        phone.close()
        command = [sys.executable, "-c", CODE]
        told = subprocess.run(
            command, env=home.environment, cwd=BASE, check=True, capture_output=True, text=True
        )
        second = Phone(playwright, folder / "second", url)
        page = second.open("/app.webmanifest")
        page.request.get(f"{url}/api/v1/csrf")
        bare(page, url, bundle)
        pulled = page.evaluate(PULL, [told.stdout.split()[-1], ROWS + 20])
        second.close()
    finally:
        home.stop()
    return {"insert": inserted, "push": pushed, "pull": pulled}, rows, sent


def bare(page: Page, url: str, bundle: str) -> None:
    """No screens: a page of the same origin with the ledger alone."""
    page.goto(f"{url}/app.webmanifest")
    page.evaluate(f"() => {{ globalThis.__APP_BUILD__ = '1'; {bundle} }}")


def their_times(playwright: Any, folder: Path, node: str, rows: list[Any]) -> tuple[dict[str, float], Sent]:
    bundle = folder / "pouch.js"
    bundle.write_text(bundled(node, "page.js", folder), encoding="utf-8")
    with a_pouch_server(node, bundle) as url:
        sent = Sent()
        phone = Phone(playwright, folder / "pouch", url)
        page = phone.open("/page")
        sent.listen(page, "/db/")
        times = page.evaluate(THEIRS, rows)
        phone.close()
    return dict(zip(BUDGETS, times, strict=True)), sent


@contextmanager
def a_pouch_server(node: str, bundle: Path) -> Iterator[str]:
    port = free_port()
    server = subprocess.Popen(
        [node, "server.mjs", str(port), str(bundle)], cwd=HERE, stdout=subprocess.DEVNULL
    )
    url = f"http://127.0.0.1:{port}"
    try:
        wait_for(f"{url}/page")
        yield url
    finally:
        server.terminate()
        server.wait(timeout=10)


def wait_for(page: str) -> None:
    for _ in range(150):
        try:
            urllib.request.urlopen(page).close()
            return
        except OSError:
            time.sleep(0.2)
    sys.exit("The server of PouchDB did not open within 30 seconds.")


if __name__ == "__main__":
    tell(measured())
