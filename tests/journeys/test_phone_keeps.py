"""What a phone does to an app: fills up, throws stores away, kills pages, brings new builds and old ones."""

from __future__ import annotations

import base64
import io
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import Locator, Page, expect

from tests.journeys import steps, stores
from tests.journeys.browsers import Phone
from tests.journeys.builds import build, kept_build
from tests.journeys.home import Home
from tests.journeys.proxy import Door
from tests.photos import pictures

pytestmark = pytest.mark.browser

#: two lots, so that a round is open when one is done
LOTS = (("Carrot", "Long Ember", "24"), ("Beetroot", "Black Tamsin", "20"))
#: for entries and what the browser itself keeps on opening; a grainy photo takes more
ROOM_BYTES = 900_000

READ_PICTURES = """async () => {
  const { name } = (await indexedDB.databases()).find((one) => one.name.startsWith('rounds-'));
  const asked = indexedDB.open(name);
  const db = await new Promise((done) => { asked.onsuccess = () => done(asked.result); });
  const all = db.transaction('pictures').objectStore('pictures').getAll();
  const rows = await new Promise((done) => { all.onsuccess = () => done(all.result); });
  db.close();
  const letters = (buffer) => Array.from(new Uint8Array(buffer), (byte) => String.fromCharCode(byte));
  return rows.map((row) => btoa(letters(row.bytes).join('')));
}"""


@pytest.fixture
def door(home: Home) -> Iterator[Door]:
    opened = Door(home.port).open()
    yield opened
    opened.close()


def begin(page: Page) -> None:
    steps.found_household(page, "Nettle Hollow", "Ida", ["root cellar"])
    for crop, variety, number in LOTS:
        steps.put_away(page, crop, variety, number, "Root cellar")
    steps.go(page, "/rounds")
    steps.all_sent(page)


def start_walking(page: Page) -> str:
    """Past the dials; the heading of the first lot."""
    steps.go(page, "/rounds")
    steps.key(page, "Walk one anyway").click()
    page.locator("dialog").get_by_text("Root cellar").click()
    steps.key(page, re.compile("^Warmth, one more")).click()
    steps.key(page, re.compile("^Keep the 1 read")).click()
    return at_lot(page, 1)


def at_lot(page: Page, at: int) -> str:
    expect(page.get_by_text(f"lot {at} of {len(LOTS)}")).to_be_visible()
    return page.get_by_role("heading", level=1).inner_text()


def sound_key(page: Page) -> Locator:
    return steps.key(page, re.compile("^All .*sound$"))


def all_sound(page: Page) -> None:
    sound_key(page).click()


def photograph(page: Page, photo: Path) -> None:
    with page.expect_file_chooser() as camera:
        steps.key(page, "Unsure").click()
    camera.value.set_files(photo)


def of_kind(page: Page, kind: str) -> list[dict[str, Any]]:
    rows = stores.phone_stores(page)["entries"]
    return [row["written"] for row in rows if row["written"]["kind"] == kind]


def test_on_a_full_phone_the_suspect_is_kept_without_its_photo_and_the_words_say_so(
    door: Door, home: Home, phone: Callable[[str, str], Phone], tmp_path: Path
) -> None:
    """hazard 18: the browser itself refuses the room (Storage.overrideQuotaForOrigin)."""
    idas = phone("ida", door.url)
    page = idas.open()
    begin(page)
    idas.close()
    page = idas.open("/app.webmanifest")
    fill_up(page, door.url)
    page.goto(door.url)
    start_walking(page)
    photo = tmp_path / "grainy.jpg"
    grain = [Image.effect_noise((2400, 1800), 120) for _ in "RGB"]
    photo.write_bytes(pictures.jpeg(Image.merge("RGB", grain)))
    photograph(page, photo)
    expect(page.get_by_role("alert")).to_contain_text("This phone is full")
    steps.key(page, "Go on without").click()
    steps.key(page, "soft rot", exact=True).click()
    steps.key(page, "It is set apart").click()
    sound_key(page).wait_for()
    (suspect,) = of_kind(page, "suspect")
    assert "photos" not in suspect
    kept = stores.phone_stores(page)
    assert kept["photos"] == [], "half a photo is no photo"
    assert [row["without_photo"] for row in kept["entries"] if row["id"] == suspect["id"]] == [True]
    all_sound(page)
    all_sound(page)
    steps.go(page, "/rounds")
    until_all_sent(page)
    assert suspect["id"] in {one for _, one, _ in stores.server_lines(home)}
    steps.go(page, f"/rounds/suspect/{suspect['id']}")
    expect(page.get_by_text("Kept without the photo: this phone is full.")).to_be_visible()


def fill_up(page: Page, origin: str) -> None:
    """Room for entries is left, for a picture it is not. Before the store opens: it asks for room then."""
    used = page.evaluate("async () => (await navigator.storage.estimate()).usage")
    tool = page.context.new_cdp_session(page)
    tool.send("Storage.overrideQuotaForOrigin", {"origin": origin, "quotaSize": used + ROOM_BYTES})


def until_all_sent(page: Page) -> None:
    steps.sync_now(page)
    steps.all_sent(page)


@pytest.mark.parametrize("granted", [False, True])
def test_a_store_that_the_browser_will_not_keep_is_marked(
    door: Door, phone: Callable[[str, str], Phone], granted: bool
) -> None:
    """hazard 19: `persist()` answers as the browsers of phones do, which refuse it or grant it."""
    idas = phone("ida", door.url)
    page = idas.open()
    answer = f"async () => {str(granted).lower()}"
    idas.context.add_init_script(
        f"navigator.storage.persist = {answer}; navigator.storage.persisted = {answer}"
    )
    page.reload()
    steps.found_household(page, "Nettle Hollow", "Ida", ["root cellar"])
    steps.all_sent(page)
    mark = page.get_by_role("button", name="Not kept safe")
    expect(mark).to_have_count(0 if granted else 1)
    if not granted:
        mark.click()
        expect(page.get_by_text("Add the app to the home screen; then ask again.")).to_be_visible()


def test_a_phone_whose_store_was_thrown_away_pulls_everything_again(
    door: Door, home: Home, phone: Callable[[str, str], Phone]
) -> None:
    """hazard 19: all that scripts keep is gone, as browsers do it; no number is given a second time."""
    idas, jons = phone("ida", door.url), phone("jon", door.url)
    page = idas.open()
    begin(page)
    steps.add_person(page, "Jon", "Adult")
    other = jons.open()
    steps.join(other, steps.pairing_code(page, "Jon"), "Jon's phone")
    take(other)
    until_all_sent(other)
    before = stores.kept_ids(other)
    throw_away(other, door.url)
    other.goto(door.url)
    steps.join(other, steps.pairing_code(page, "Jon"), "Jon's phone")
    until_all_sent(other)
    assert stores.kept_ids(other) >= before
    take(other)
    until_all_sent(other)
    lines = [one for _, one, _ in stores.server_lines(home)]
    assert stores.kept_ids(other) == set(lines)
    assert len(of_kind(other, "take")) == 2


def throw_away(page: Page, origin: str) -> None:
    page.goto("about:blank")
    kinds = "indexeddb,local_storage,cache_storage,service_workers"
    tool = page.context.new_cdp_session(page)
    tool.send("Storage.clearDataForOrigin", {"origin": origin, "storageTypes": kinds})


def take(page: Page) -> None:
    steps.go(page, "/store")
    page.get_by_role("link", name=re.compile("^Carrot")).first.click()
    steps.key(page, "Took some").click()
    page.locator("dialog").get_by_role("button", name=re.compile("^0.5 kg")).click()
    expect(page.locator("dialog[open]")).to_have_count(0)


def test_a_page_killed_behind_the_camera_stands_at_its_lot_again(
    door: Door, phone: Callable[[str, str], Phone], tmp_path: Path
) -> None:
    """hazard 20: gone while the chooser is open; what was set is still set, and the camera works."""
    page = phone("ida", door.url).open()
    begin(page)
    start_walking(page)
    all_sound(page)
    title = at_lot(page, 2)
    steps.key(page, re.compile("^Looked at, one less")).first.click()
    hand = stores.phone_stores(page)["drafts"][0]["value"]["hand"]
    with page.expect_file_chooser():
        steps.key(page, "Unsure").click()
    page.reload()
    assert at_lot(page, 2) == title
    assert stores.phone_stores(page)["drafts"][0]["value"]["hand"] == hand
    photo = tmp_path / "again.jpg"
    photo.write_bytes(pictures.jpeg(pictures.four_corners(1200, 900)))
    photograph(page, photo)
    signs = page.get_by_role("group", name="What makes you unsure").get_by_role("button")
    signs.first.click()
    page.reload()
    expect(signs.first).to_have_attribute("aria-pressed", "true")
    steps.key(page, "It is set apart").click()
    all_sound(page)
    steps.heading(page, re.compile("walked$"))
    assert len(of_kind(page, "inspection")) == len(LOTS)
    assert len(of_kind(page, "suspect")[0]["photos"]) == 1


def test_a_new_build_waits_until_the_round_is_walked_and_somebody_takes_it(
    door: Door, home: Home, phone: Callable[[str, str], Phone], tmp_path: Path
) -> None:
    """hazard 25, invariant 32: only the new build is served; a part of the old one is yet to be loaded."""
    new = build(tmp_path / "new", number="2")
    page = phone("ida", door.url).open()
    begin(page)
    page.evaluate("() => navigator.serviceWorker.ready")
    page.reload()
    page.wait_for_function("() => navigator.serviceWorker.controller")
    old_entry = entry_of(page)
    assert (kept_build() / "assets" / old_entry).exists()
    assert not (new / "assets" / old_entry).exists(), "the builds differ, or the test proves nothing"
    start_walking(page)
    home.stop()
    home.own["ROUNDS_DIST"] = str(new)
    home.start()

    page.reload()
    page.wait_for_function("async () => (await navigator.serviceWorker.getRegistration()).waiting")
    at_lot(page, 1)
    all_sound(page)
    at_lot(page, 2)
    page.reload()
    at_lot(page, 2)
    all_sound(page)
    steps.heading(page, re.compile("walked$"))
    assert entry_of(page) == old_entry
    steps.go(page, "/season")
    steps.heading(page, "Season")
    late = part_of(page, "SeasonPage")
    assert not (new / "assets" / late).exists(), "only the phone still has it"
    assert entry_of(page) == old_entry

    expect(page.get_by_text("A new version is here.")).to_be_visible()
    steps.key(page, "Take it").click()
    page.wait_for_function(
        "old => ![...document.scripts].some((one) => one.src.endsWith(old))", arg=old_entry
    )
    steps.heading(page, "Season")
    assert (new / "assets" / entry_of(page)).exists()
    expect(page.get_by_text("A new version is here.")).to_have_count(0)
    steps.all_sent(page)
    assert stores.kept_ids(page) == {one for _, one, _ in stores.server_lines(home)}


def entry_of(page: Page) -> str:
    """The built file that began the page."""
    src: str = page.evaluate("() => document.querySelector('script[type=module]').src")
    return src.rpartition("/")[2]


def part_of(page: Page, name: str) -> str:
    """A part loaded later, by the name of its source."""
    loaded: list[str] = page.evaluate("() => performance.getEntriesByType('resource').map((one) => one.name)")
    (found,) = {one.rpartition("/")[2] for one in loaded if re.search(rf"/{name}-[^/]+\.js$", one)}
    return found


def test_an_older_build_touches_nothing_of_a_newer_store_and_says_why(
    door: Door, phone: Callable[[str, str], Phone]
) -> None:
    """hazard 26: the store as a later build leaves it (next version, one store more), then today's code."""
    page = phone("ida", door.url).open()
    begin(page)
    take(page)
    page.goto(f"{door.url}/app.webmanifest")
    before = stores.phone_stores(page)
    page.evaluate(
        """async () => {
          const all = await indexedDB.databases();
          const { name, version } = all.find((one) => one.name.startsWith('rounds-'));
          const asked = indexedDB.open(name, version + 1);
          asked.onupgradeneeded = () => asked.result.createObjectStore('later').put('kept', 'word');
          const db = await new Promise((done) => { asked.onsuccess = () => done(asked.result); });
          db.close();
        }"""
    )
    page.goto(door.url)
    expect(page.get_by_text("A newer version of the app wrote this store.")).to_be_visible()
    page.goto(f"{door.url}/app.webmanifest")
    after = stores.phone_stores(page)
    assert after.pop("later") == ["kept"]
    assert after == before


def test_a_photo_carries_no_place_in_the_store_on_disk_or_in_a_reply(
    door: Door, home: Home, phone: Callable[[str, str], Phone], tmp_path: Path
) -> None:
    """hazard 22, invariant 25: 24 megapixels, turned by the camera, with GPS."""
    taken = pictures.with_place_and_turn(pictures.turned_by_a_camera(pictures.four_corners(6000, 4000), 6), 6)
    assert carries_metadata(taken), "the camera wrote where it was"
    photo = tmp_path / "from the camera.jpg"
    photo.write_bytes(taken)
    page = phone("ida", door.url).open()
    begin(page)
    start_walking(page)
    photograph(page, photo)
    steps.key(page, "soft rot", exact=True).click()
    steps.key(page, "It is set apart").click()
    sound_key(page).wait_for()
    in_store = [base64.b64decode(one) for one in page.evaluate(READ_PICTURES)]
    all_sound(page)
    all_sound(page)
    steps.go(page, "/rounds")
    until_all_sent(page)
    on_disk = [one.read_bytes() for one in (home.data / "photos").rglob("*") if one.is_file()]
    (suspect,) = of_kind(page, "suspect")
    replies = [
        page.request.get(f"{door.url}/api/v1/photos/{suspect['photos'][0]}{size}")
        for size in ("", "?size=thumb")
    ]
    assert [one.status for one in replies] == [200, 200]
    found = [*in_store, *on_disk, *(one.body() for one in replies)]
    assert (len(in_store), len(on_disk) > 0) == (2, True)
    for raw in found:
        assert Image.open(io.BytesIO(raw)).format == "JPEG"
        assert not carries_metadata(raw)


def carries_metadata(jpeg: bytes) -> bool:
    """An APP1 segment before the picture itself (markers: ITU-T T.81, annex B, from memory)."""
    at = 2
    while jpeg[at] == 0xFF and jpeg[at + 1] != 0xDA:
        if jpeg[at + 1] == 0xE1:
            return True
        at += 2 + int.from_bytes(jpeg[at + 2 : at + 4], "big")
    return False
