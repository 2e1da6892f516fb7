"""Scraps with no signal: a bucket to hens and heap, looked into, carried, eggs counted by a child;
a heap put right; the same on the second phone. And what was refused, written as it was."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.journeys import steps, ways
from tests.journeys.browsers import Phone
from tests.journeys.home import Home

pytestmark = pytest.mark.browser

Phones = Callable[[str, str], Phone]
RIGHT = "Open: Right heap"


def two_phones(home: Home, phone: Phones) -> tuple[Phone, Page, Phone, Page]:
    """The invented household on Ruth's phone and on Tom's."""
    home.manage("demo")
    url = f"http://localhost:{home.port}"
    first = phone("ruth", url)
    page = first.open()
    steps.key(page, "Look at an invented household").click()
    page.get_by_text("Decide on one").wait_for()
    code = steps.pairing_code(page, "Tom")
    second = phone("tom", url)
    other = second.open()
    steps.join(other, code, "Tom's phone")
    return first, page, second, other


def tick(page: Page, name: steps.Name) -> None:
    page.get_by_role("button", name=name).click()


def write_a_bucket(page: Page) -> None:
    """Trimmings cut in the yard: one bucket to the hens, half a one to the heap. It holds 3.4 kg."""
    steps.go(page, "/scraps/write")
    steps.heading(page, "Write down scraps")
    tick(page, "yard, garden")
    tick(page, "by the grey bucket")
    tick(page, re.compile("^Hens"))
    steps.type_number(page, "Hens", "1")
    tick(page, "Compost")
    steps.type_number(page, "Compost", "0.5")
    page.get_by_text("It waits in the animals").wait_for()
    steps.key(page, "Keep", exact=True).click()
    steps.heading(page, "Scraps")


def kilograms(page: Page, name: str) -> float:
    """What a bar of the week says, in kg."""
    page.get_by_role("list", name="By where it went").wait_for()
    told = page.get_by_role("list", name="By where it went").get_by_role("listitem").filter(has_text=name)
    if told.count() == 0:
        return 0.0
    found = re.search(r"([\d.]+)\s(kg|g)\b", told.first.inner_text())
    assert found
    return float(found[1]) / (1 if found[2] == "kg" else 1000)


def heap_words(page: Page) -> str:
    steps.go(page, "/scraps")
    steps.key(page, RIGHT).click()
    steps.heading(page, "Right heap")
    return page.get_by_text("went in, about").inner_text()


def hands_washed(page: Page) -> None:
    steps.heading(page, "Wash your hands")
    steps.key(page, "Washed").click()


def test_a_bucket_goes_to_hens_and_heap_is_looked_into_and_carried_and_eggs_are_counted(
    home: Home, phone: Phones
) -> None:
    first, page, _, other = two_phones(home, phone)
    steps.go(page, "/scraps")
    steps.heading(page, "Scraps")
    page.get_by_role("heading", name="Heaps").wait_for()
    hens, heap = kilograms(page, "Hens"), heap_words(page)

    first.cut_network()
    write_a_bucket(page)
    assert kilograms(page, "Hens") == pytest.approx(hens + 3.4, abs=0.11), "the tally moves at once"
    assert heap_words(page) != heap, "so does the heap"

    # looked into by an adult, and only then a chore
    steps.go(page, "/rounds")
    steps.heading(page, "Rounds")
    expect(page.get_by_text("Carry the pail: hens")).to_have_count(0)
    steps.go(page, "/scraps")
    steps.key(page, "Look into it: The pail: Hens").click()
    steps.key(page, "I looked: it may be fed").click()
    page.get_by_text("It may be carried.", exact=False).first.wait_for()
    steps.go(page, "/rounds")
    page.get_by_text("Carry the pail: hens").wait_for()

    # the phone in a child's hands: pictures, and no way out
    steps.go(page, "/scraps/children")
    tick(page, "Wil")
    steps.key(page, re.compile("^Carry the pail")).click()
    page.get_by_text("Ruth looked in the pail").wait_for()
    steps.key(page, "Done", exact=True).click()
    hands_washed(page)
    steps.key(page, re.compile("^Count the eggs")).click()
    for told in ("1 egg", "2 eggs", "3 eggs"):
        steps.key(page, "One more").click()
        page.get_by_role("status", name=told).wait_for()
    steps.key(page, "Broken").click()
    steps.key(page, "4 eggs", exact=True).click()
    hands_washed(page)
    steps.go(page, "/household")
    page.get_by_role("heading", name="What next?").wait_for()
    page.reload()
    page.get_by_role("heading", name="What next?").wait_for()
    steps.key(page, "For the adult").click()
    ways.phone_given_back(page)

    # straw on the heap moves its balance
    before = heap_words(page)
    steps.key(page, "Put something on it").click()
    steps.key(page, "Keep", exact=True).click()
    expect(page.get_by_text("went in, about")).not_to_have_text(before)
    told, balance = page.get_by_text("parts carbon").inner_text(), heap_words(page)

    # the same on the second phone
    first.cut_network(False)
    steps.sync_now(page)
    steps.all_sent(page)
    steps.sync_now(other)
    steps.go(other, "/scraps")
    expect(other.get_by_text("1 of them broken: laid, and no food.")).to_be_visible()
    for _ in range(100):
        if kilograms(other, "Hens") == pytest.approx(hens + 3.4, abs=0.11):
            break
        other.wait_for_timeout(300)
    assert kilograms(other, "Hens") == pytest.approx(hens + 3.4, abs=0.11)
    assert heap_words(other) == balance
    expect(other.get_by_text("parts carbon")).to_have_text(told)


def test_mould_is_offered_to_no_animal_and_what_was_refused_is_written_as_an_accident(
    home: Home, phone: Phones
) -> None:
    _, page, second, other = two_phones(home, phone)

    # the form offers it to none; from there only an accident can be written
    steps.go(page, "/scraps/write")
    tick(page, "yard, garden")
    tick(page, "mouldy")
    expect(page.get_by_role("button", name=re.compile("^Hens"))).to_have_count(0)
    page.get_by_text("rot and mould to none").first.wait_for()
    steps.key(page, "It was eaten all the same").click()
    steps.heading(page, "Eaten all the same")
    page.get_by_text("Surgery at Nether Sallow").wait_for()
    steps.key(page, "Keep as an accident").click()
    page.get_by_text("An accident, on its own line:").first.wait_for()
    steps.all_sent(page)

    # an old client's attempt: the hens fell ill meanwhile, and this phone did not know
    second.cut_network()
    write_a_bucket(other)
    steps.go(page, "/household")
    steps.key(page, "Open, Hens").click()
    tick(page, "Ill or under treatment: get no scraps")
    steps.key(page, "Keep", exact=True).click()
    steps.heading(page, re.compile("invented"))
    steps.all_sent(page)
    second.cut_network(False)
    steps.sync_now(other)
    other.get_by_role("button", name="1 needs you").first.click()
    other.locator("dialog[open] a[href^='#/needs/']").first.click()
    other.get_by_text("they are ill or under treatment").wait_for()
    other.get_by_role("radio", name=re.compile("^It was eaten all the same")).check(force=True)
    other.locator(".reach .key").first.click()
    steps.heading(other, "Eaten all the same")
    steps.key(other, "Keep as an accident").click()
    other.get_by_text("An accident, on its own line:").first.wait_for()
    steps.all_sent(other)


AS_AN_OLD_CLIENT_WROTE_IT = """
async (findings) => {
  const asked = (request) => new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });
  for (const { name } of await indexedDB.databases()) {
    const db = await asked(indexedDB.open(name));
    if (db.objectStoreNames.contains('outbox')) {
      const stores = db.transaction(['outbox', 'entries'], 'readwrite');
      for (const waiting of await asked(stores.objectStore('outbox').getAll()))
        for (const store of ['outbox', 'entries']) {
          const row = (await asked(stores.objectStore(store).getAll())).find(({ id }) => id === waiting.id);
          row.written.body.findings = findings;
          await asked(stores.objectStore(store).put(row));
        }
    }
    db.close();
  }
}
"""


def test_an_old_clients_mouldy_line_comes_back_to_the_tray_and_only_an_accident_is_kept(
    home: Home, phone: Phones
) -> None:
    home.manage("demo")
    first = phone("ruth", f"http://localhost:{home.port}")
    page = first.open()
    steps.key(page, "Look at an invented household").click()
    page.get_by_text("Decide on one").wait_for()
    steps.go(page, "/scraps")
    page.get_by_role("heading", name="Heaps").wait_for()
    hens = kilograms(page, "Hens")

    # a client of long ago knew no rule: what waits on the phone says mouldy, to the hens
    first.cut_network()
    write_a_bucket(page)
    page.evaluate(AS_AN_OLD_CLIENT_WROTE_IT, ["mould"])
    page.reload()
    first.cut_network(False)
    steps.sync_now(page)

    # it comes back with its reason, outside the tally, and tells four ways, none of which feeds it
    page.get_by_role("button", name="1 needs you").first.click()
    page.locator("dialog[open] a[href^='#/needs/']").first.click()
    page.get_by_text("It was marked mouldy or rotten.").wait_for()
    expect(page.get_by_role("radio")).to_have_count(4)
    steps.go(page, "/scraps")
    page.get_by_role("heading", name="Heaps").wait_for()
    assert kilograms(page, "Hens") == pytest.approx(hens, abs=0.11)

    # the accident, from the tray: of 3.4 kg they ate 2, what lay there was taken out
    page.get_by_role("button", name="1 needs you").first.click()
    page.locator("dialog[open] a[href^='#/needs/']").first.click()
    page.get_by_role("radio", name=re.compile("^It was eaten all the same")).check(force=True)
    page.locator(".reach .key").first.click()
    steps.heading(page, "Eaten all the same")
    page.get_by_text("Surgery at Nether Sallow").wait_for()
    steps.type_number(page, "They ate", "2")
    steps.key(page, "Keep as an accident").click()
    page.get_by_text("2 kg of Mixed to Hens").wait_for()
    assert kilograms(page, "Hens") == pytest.approx(hens + 2, abs=0.11), "it counts under its step"
    steps.all_sent(page)
    expect(page.get_by_role("button", name="1 needs you")).to_have_count(0)
