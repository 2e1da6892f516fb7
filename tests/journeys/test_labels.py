"""Labels: printed, read back by other readers, found again by a camera, typed where it fails."""

from __future__ import annotations

import re
import shutil
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Page, expect

from tests.journeys import paper, steps, stores
from tests.journeys.browsers import Phone
from tests.journeys.home import Home

pytestmark = pytest.mark.browser

Phones = Callable[[str, str], Phone]
#: two by four on A4, the sheet the page begins with [mm]
LABEL = {"width": 95.0, "height": 69.25}


def begun(home: Home, phone: Phones) -> Page:
    page = phone("desk", f"http://localhost:{home.port}").open()
    steps.found_household(page, "Nettle Hollow", "Ida", ["root cellar", "loft"])
    steps.put_away(page, "Carrot", "Long Ember", "24", "Root cellar")
    steps.put_away(page, "Onion", "Brown Tallis", "18", "Loft")
    steps.go(page, "/store")
    steps.all_sent(page)
    return page


def labels_of(page: Page, which: str, into: Path) -> list[paper.Sheet]:
    steps.go(page, "/store/labels")
    steps.heading(page, "Print labels")
    page.get_by_label("Which").select_option(label=which)
    page.get_by_role("region", name="As they come out").wait_for()
    return paper.printed(page, into)


def birth_codes(home: Home) -> dict[str, str]:
    """Code by crop of every lot on the server."""
    with sqlite3.connect(f"file:{home.data / 'rounds.sqlite3'}?mode=ro", uri=True) as db:
        return dict(db.execute("SELECT crop, code FROM store_lot").fetchall())


def with_a_camera(one: Phone, film: Path) -> Phone:
    one.flags = [
        "--use-fake-ui-for-media-stream",
        "--use-fake-device-for-media-stream",
        f"--use-file-for-fake-video-capture={film}",
    ]
    return one


def test_labels_are_read_back_from_paper(home: Home, phone: Phones, tmp_path: Path) -> None:
    page = begun(home, phone)
    codes = birth_codes(home)
    (sheet,) = labels_of(page, "2 lots without a label", tmp_path / "labels.pdf")
    assert [round(side / 72 * paper.MM_AN_INCH) for side in sheet.get_size()] == [210, 297], "A4, ISO 216"
    addresses = [f"http://localhost:{home.port}/#/code/{codes[crop]}" for crop in ("carrot", "onion")]
    assert paper.codes_on(paper.drawn(sheet)) == addresses
    words = paper.letters_on(sheet)
    for told in ("Carrot", "Long Ember", "24 kg", "Root cellar", codes["carrot"], "Onion", codes["onion"]):
        assert told.replace(" ", "") in words, words
    assert "Print" not in words, "nothing of the page but the labels"

    steps.key(page, re.compile("^The sheet")).or_(page.get_by_text("The sheet:")).first.click()
    page.get_by_label("Paper").select_option(label="Letter")
    steps.type_number(page, "Across", "3")
    steps.type_number(page, "Down", "8")
    page.reload()
    (small,) = labels_of(page, "2 lots without a label", tmp_path / "small.pdf")
    assert [round(side) for side in small.get_size()] == [612, 792], "Letter, 8.5 by 11 inches"
    assert paper.codes_on(paper.drawn(small)) == addresses


def test_a_label_before_the_camera_opens_its_lot_with_no_signal(
    home: Home, phone: Phones, tmp_path: Path
) -> None:
    """Scanned by jsQR, as this Chromium has no detector of its own."""
    desk = begun(home, phone)
    (sheet,) = labels_of(desk, "2 lots without a label", tmp_path / "labels.pdf")
    carrot, onion = (
        paper.cut_out(paper.drawn(sheet), left=left, top=10, **LABEL) for left in (10, 10 + LABEL["width"])
    )
    film = paper.held_before_the_camera(carrot, tmp_path / "film.mjpeg")
    code = steps.pairing_code(desk, "Ida")
    hand = with_a_camera(phone("hand", f"http://localhost:{home.port}"), film)
    page = hand.open()
    steps.join(page, code, "Hand")
    page.wait_for_function("() => navigator.serviceWorker.ready.then(() => true)")
    hand.cut_network()
    steps.go(page, "/rounds")
    steps.key(page, "Find a lot").click()
    steps.key(page, "Scan", exact=True).click()
    steps.heading(page, "Carrot, Long Ember")
    assert page.evaluate("() => 'BarcodeDetector' in window") is False
    assert any("jsQR" in one for one in page.evaluate(LOADED))
    live = page.evaluate("() => document.querySelectorAll('video').length")
    assert live == 0, "the camera is shut"

    shutil.copy(paper.held_before_the_camera(onion, tmp_path / "next.mjpeg", turned=-11), film)
    steps.go(page, "/scan")
    steps.heading(page, "Onion, Brown Tallis")


LOADED = "() => performance.getEntriesByType('resource').map((one) => one.name)"


def test_blank_labels_are_given_to_lots_later(home: Home, phone: Phones, tmp_path: Path) -> None:
    page = begun(home, phone)
    used = set(birth_codes(home).values())
    steps.go(page, "/store/labels")
    page.get_by_label("Which").select_option(label="Blank ones, for lots to come")
    steps.type_number(page, "How many more", "3")
    steps.key(page, "Set 3 numbers aside").click()
    page.get_by_text("3 labels on 1 sheet").wait_for()
    (sheet,) = paper.printed(page, tmp_path / "blank.pdf")
    addresses = paper.codes_on(paper.drawn(sheet))
    codes = [address.rpartition("/")[2] for address in addresses]
    assert len({*codes, *used}) == 5, "numbers that no lot has"
    page.reload()
    page.get_by_label("Which").select_option(label="Blank ones, for lots to come")
    page.get_by_text("3 labels on 1 sheet").wait_for()

    # The next lot put away by itself gets none of them.
    steps.put_away(page, "Potato", "Ferry Stone", "30", "Root cellar")
    # The second label goes on a new crate, scanned; the third on a lot that is there, its number typed.
    page.goto(addresses[1])
    page.get_by_text("This label is on no lot yet.").wait_for()
    steps.key(page, "Put away with this label").click()
    steps.key(page, "Garlic", exact=True).click()
    steps.type_number(page, steps.measure(page), "12")
    steps.key(page, f"Put away as {codes[1]}").click()
    page.get_by_text("Another the same?").wait_for()
    steps.go(page, "/scan")
    page.get_by_label("Or its number").fill(codes[2].rpartition("-")[2])
    steps.key(page, "Open", exact=True).click()
    steps.key(page, "Give it to a lot").click()
    page.get_by_role("textbox", name="Which lot?").fill("carrot")
    steps.key(page, re.compile("^Give it to Carrot")).click()
    steps.heading(page, "Carrot, Long Ember")
    expect(page.get_by_text(codes[2]).first).to_be_visible()
    steps.go(page, "/store")
    steps.all_sent(page)
    lots = birth_codes(home)
    assert lots["garlic"] == codes[1]
    assert lots["carrot"] == codes[2]
    assert lots["potato"] not in codes
    page.goto(addresses[1])
    steps.heading(page, re.compile("^Garlic"))


def test_without_a_camera_the_number_is_typed(home: Home, phone: Phones) -> None:
    page = begun(home, phone)
    codes = birth_codes(home)
    asked = page.context.new_cdp_session(page)
    asked.send(
        "Browser.setPermission",
        {
            "permission": {"name": "camera"},
            "setting": "denied",
            "origin": f"http://localhost:{home.port}",
        },
    )
    steps.go(page, "/scan")
    told = re.compile("The camera was not allowed|There is no camera here")
    expect(page.get_by_text(told)).to_be_visible()
    field = page.get_by_label("Or its number")
    steps.key(page, "Open", exact=True).click()
    expect(page.get_by_role("alert")).to_have_text("Type the number first.")
    field.fill(codes["onion"].lower())
    field.press("Enter")
    steps.heading(page, "Onion, Brown Tallis")
    steps.go(page, "/scan")
    page.get_by_label("Or its number").fill("blue crate")
    steps.key(page, "Open", exact=True).click()
    expect(page.get_by_text("No lot here is called blue crate.")).to_be_visible()
    assert stores.waiting(page) == 0


def test_the_square_joins_a_phone_as_the_typed_code_does(home: Home, phone: Phones, tmp_path: Path) -> None:
    desk = begun(home, phone)
    code = steps.pairing_code(desk, "Ida")
    shot = tmp_path / "shown.png"
    desk.screenshot(path=shot)
    (address,) = paper.codes_on(Image.open(shot))
    assert address == f"http://localhost:{home.port}/#/join/{code}"
    other = phone("other", f"http://localhost:{home.port}")
    page = other.open(address.removeprefix(other.url))
    expect(page.get_by_role("textbox").first).to_have_value(f"{code[:4]}-{code[4:]}")
    assert code not in page.url
    page.get_by_label("What is this phone called?").fill("Hand")
    steps.key(page, "Join", exact=True).click()
    steps.key(page, re.compile("^Begin as")).click()
    steps.heading(page, "Rounds")
