"""Leaving the invented household: one tap and a word of assent, and nothing of it stays anywhere."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.journeys import steps
from tests.journeys.browsers import Phone
from tests.journeys.home import Home

pytestmark = pytest.mark.browser

Phones = Callable[[str, str], Phone]

#: rows that are no household's: who may do what in the admin, which tables were made, which jobs run
NOBODYS = re.compile(r"^(django_migrations|django_content_type|auth_permission|sqlite_sequence|django_q_.*)$")
#: what is kept of the light and the language is the phone's, not the household's
OF_THE_PHONE = {"rounds.light", "rounds.language"}

BROWSER_KEEPS = """async () => {
  const databases = {};
  for (const { name } of await indexedDB.databases()) {
    const db = await new Promise((done, failed) => {
      const asked = indexedDB.open(name);
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => failed(asked.error);
    });
    databases[name] = {};
    for (const store of db.objectStoreNames) {
      databases[name][store] = await new Promise((done, failed) => {
        const asked = db.transaction(store).objectStore(store).count();
        asked.onsuccess = () => done(asked.result);
        asked.onerror = () => failed(asked.error);
      });
    }
    db.close();
  }
  const cached = [];
  for (const name of await caches.keys()) {
    for (const request of await (await caches.open(name)).keys()) cached.push(new URL(request.url).pathname);
  }
  return {
    databases,
    cached,
    local: Object.keys(localStorage),
    session: Object.keys(sessionStorage),
  };
}"""


def rows(folder: Path) -> dict[str, int]:
    """How many rows every table of every database file holds, those of no household left out."""
    counted = {}
    for file in sorted(folder.glob("*.sqlite3")):
        with closing(sqlite3.connect(f"file:{file}?mode=ro", uri=True)) as db:
            names = [name for (name,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
            for name in names:
                if not NOBODYS.match(name):
                    [(number,)] = db.execute(f'SELECT count(*) FROM "{name}"').fetchall()
                    counted[f"{file.name}:{name}"] = number
    return counted


def named(folder: Path, household: str) -> list[str]:
    """Tables in which the household's id stands, in any spelling; a table of no household is searched too."""
    found = []
    spellings = (household, household.replace("-", ""))
    for file in sorted(folder.glob("*.sqlite3")):
        with closing(sqlite3.connect(f"file:{file}?mode=ro", uri=True)) as db:
            for line in db.iterdump():
                if any(spelling in line for spelling in spellings):
                    found.append(line[:120])
    return found


def files(folder: Path) -> list[str]:
    return [str(one.relative_to(folder)) for one in folder.rglob("*") if one.is_file()]


def used(page: Page) -> None:
    """The invented household as somebody looks at it who then leaves: pages, photos, an entry, a draft."""
    steps.key(page, "Look at an invented household").click()
    steps.heading(page, "Rounds")
    page.get_by_text("Decide on one").wait_for()
    steps.key(page, "Find a lot").click()
    page.get_by_role("searchbox").fill("carrot")
    page.get_by_role("link", name=re.compile("^Carrot")).first.click()
    steps.key(page, "Took some").click()
    page.locator("dialog[open]").get_by_role("button", name=re.compile("kg")).first.press("Enter")
    expect(page.locator("dialog[open]")).to_have_count(0)
    page.locator("main img").first.wait_for()
    steps.go(page, "/store/labels")
    page.get_by_label("Which").select_option(label="Blank ones, for lots to come")
    steps.key(page, re.compile("numbers aside$")).click()
    page.get_by_text("labels on 1 sheet").wait_for()
    steps.go(page, "/store")
    steps.all_sent(page)


def test_nothing_of_the_invented_household_stays(demo_home: Home, phone: Phones, tmp_path: Path) -> None:
    empty = rows(Home(tmp_path / "empty").prepare().data)
    with closing(sqlite3.connect(f"file:{demo_home.data / 'rounds.sqlite3'}?mode=ro", uri=True)) as db:
        ((household, *_),) = db.execute("SELECT id FROM household_household").fetchall()
    one = phone("one", f"http://localhost:{demo_home.port}")
    page = one.open()
    used(page)
    page.wait_for_function("() => navigator.serviceWorker.ready.then(() => true)")
    before = page.evaluate(BROWSER_KEEPS)
    assert len(before["databases"]) == 2, "or there is nothing to look for"
    assert sum(rows(demo_home.data).values()) > sum(empty.values()) + 1000
    assert named(demo_home.data, household)
    assert files(demo_home.data / "photos")

    steps.key(page, "Leave it").click()
    steps.heading(page, "Leave the invented household")
    expect(page.get_by_role("button", name="Leave it")).to_have_count(0)
    page.get_by_label("Type the word to agree: leave").fill("leave")
    page.get_by_role("button", name="Leave it").click()
    steps.key(page, "Start your own").wait_for()

    assert rows(demo_home.data) == empty
    assert named(demo_home.data, household) == []
    assert files(demo_home.data / "photos") == []
    kept = page.evaluate(BROWSER_KEEPS)
    assert kept["databases"] == {"rounds": {"homes": 0}}
    assert [path for path in kept["cached"] if path.startswith("/api")] == []
    assert set(kept["cached"]) <= set(before["cached"]), "the app itself, and no more than before"
    assert set(kept["local"]) <= OF_THE_PHONE
    assert kept["session"] == []
    assert [cookie["name"] for cookie in one.context.cookies() if "device" in cookie["name"]] == []
    page.reload()
    steps.key(page, "Start your own").wait_for()
