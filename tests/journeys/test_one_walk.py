"""The main job in a browser: a round walked with no signal, sent later, decided on another phone."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import exifread
import pytest
from PIL import Image
from playwright.sync_api import Page, Response, expect

from tests.journeys import steps
from tests.journeys.browsers import Phone
from tests.journeys.home import Home
from tests.journeys.proxy import Door
from tests.photos import pictures

pytestmark = pytest.mark.browser

#: crop as the form names it, variety, number (kg or pieces, as the crop is counted)
LOTS = (
    ("Carrot", "Long Ember", "24"),
    ("White cabbage", "Greyfell", "18"),
    ("Beetroot", "Black Tamsin", "20"),
    ("Apple", "Orrel Pippin", "30"),
    ("Potato", "Ferry Stone", "40"),
    ("Celeriac", "Knuckle Fell", "12"),
)


class Signal:
    """How the signal goes away and comes back; `seen` counts requests that reached the server's door."""

    def __init__(self, home: Home, door: Door) -> None:
        self.home, self.door = home, door

    def seen(self) -> int:
        return self.door.count()


class ServerStopped(Signal):
    """Its process ends: nothing is there to answer."""

    cut = False

    def goes(self, phone: Phone) -> None:
        self.home.stop()

    def comes(self, phone: Phone) -> None:
        self.home.start()


class BrowserCut(Signal):
    """The server runs on and counts: in that time not one request may reach it."""

    cut = True

    def goes(self, phone: Phone) -> None:
        phone.cut_network()

    def comes(self, phone: Phone) -> None:
        phone.cut_network(False)


@dataclass
class Walked:
    """What the walk wrote, to be found again on the other side."""

    lots: set[str]


@pytest.mark.parametrize("signal", [ServerStopped, BrowserCut])
def test_a_round_is_walked_without_signal_sent_later_and_decided_on_another_phone(
    home: Home, phone: Callable[[str, str], Phone], signal: type[Signal], tmp_path: Path
) -> None:
    """hazard 35, invariant 29: with the server stopped, and with the browser cut from a running one."""
    door = Door(home.port).open()
    how = signal(home, door)
    idas = phone("ida", door.url)
    page = idas.open()
    begin_the_winter(page)
    code = steps.pairing_code(page, "Jon")
    jons = phone("jon", door.url)
    other = jons.open()
    steps.join(other, code, "Jon's phone")
    steps.go(page, "/rounds")
    steps.all_sent(page)
    assert how.seen() > 0, "before, the server's door is used"
    page.wait_for_function("() => navigator.serviceWorker.controller || navigator.serviceWorker.ready")

    other.goto("about:blank")  # Jon's phone sleeps, so that every request counted is Ida's
    how.goes(idas)
    before = how.seen()
    walked = walk(page, tmp_path)
    assert walked.lots == {variety for _, variety, _ in LOTS}
    page = open_anew(idas, how)
    if how.cut:
        assert how.seen() == before, "no request reached the server while the browser was cut"
    how.comes(idas)
    page.reload()
    steps.all_sent(page)
    assert how.seen() > before, "after, the server's door is used again"

    other = jons.context.pages[0]
    other.goto(door.url)
    decide(other, tmp_path)
    do_the_chore(page)
    see_the_scraps(page)
    door.close()


def begin_the_winter(page: Page) -> None:
    steps.found_household(page, "Nettle Hollow", "Ida", ["root cellar"])
    for crop, variety, number in LOTS:
        steps.put_away(page, crop, variety, number, "Root cellar")
    steps.add_person(page, "Jon", "Adult")
    steps.all_sent(page)


def walk(page: Page, tmp_path: Path) -> Walked:
    """Six lots: some out, a trim, one not looked at, a suspect with its photo, two sound; a reload."""
    steps.go(page, "/rounds")
    steps.key(page, "Walk one anyway").click()
    page.locator("dialog").get_by_text("Root cellar").click()
    steps.key(page, re.compile("^Warmth, one more")).click()
    steps.key(page, re.compile("^Keep the 1 read")).click()
    walked = Walked(set())
    for at in range(1, len(LOTS) + 1):
        expect(page.get_by_text(f"lot {at} of {len(LOTS)}")).to_be_visible()
        title = page.get_by_role("heading", level=1).inner_text()
        crop, _, variety = title.partition(", ")
        if at == 4:
            page.reload()
            steps.heading(page, title)
            expect(page.get_by_text(f"lot {at} of {len(LOTS)}")).to_be_visible()
        LOOKS.get(crop, all_sound)(page, tmp_path)
        walked.lots.add(variety)
    steps.heading(page, re.compile("walked$"))
    expect(page.get_by_text("Not looked at, no time; stays due")).to_be_visible()
    expect(page.get_by_text("one suspect, photographed")).to_be_visible()
    expect(page.get_by_text("1 photo", exact=False).first).to_be_visible()
    return walked


def all_sound(page: Page, tmp_path: Path) -> None:
    steps.key(page, re.compile("^All .*sound$")).click()


def some_out(page: Page, tmp_path: Path) -> None:
    """Two carrots with black patches: the form offers no animal, and says why."""
    steps.key(page, "Some out").click()
    steps.key(page, "black mould", exact=True).click()
    page.get_by_role("button", name=re.compile("^black mould, one more", re.I)).click()
    expect(page.get_by_text("2 out. Where each goes")).to_be_visible()
    page.get_by_role("radio", name=re.compile("^Compost")).check(force=True)
    expect(page.get_by_text("rot and mould to none").first).to_be_visible()
    steps.key(page, re.compile("Next.lot$")).click()


def trim(page: Page, tmp_path: Path) -> None:
    """Yellow outer leaves of a cabbage, cut off in the store, to the hens."""
    steps.key(page, "Some out").click()
    steps.key(page, "Only trimmed").click()
    steps.key(page, re.compile("^yellow")).click()
    page.get_by_role("radio", name=re.compile("^Hens")).check(force=True)
    steps.key(page, re.compile("Next.lot$")).click()


def not_looked(page: Page, tmp_path: Path) -> None:
    steps.key(page, re.compile("^Not looked")).click()
    steps.key(page, "No time").click()


def suspect(page: Page, tmp_path: Path) -> None:
    """One potato photographed and set apart; the rest sound."""
    photo = tmp_path / "from the camera.jpg"
    photo.write_bytes(pictures.with_place_and_turn(pictures.four_corners(2400, 1800), 1))
    with page.expect_file_chooser() as camera:
        steps.key(page, "Unsure").click()
    camera.value.set_files(photo)
    steps.key(page, "soft rot", exact=True).click()
    steps.key(page, "It is set apart").click()
    expect(page.get_by_text("set apart").first).to_be_visible()
    all_sound(page, tmp_path)


LOOKS: dict[str, Callable[[Page, Path], None]] = {
    "Carrot": some_out,
    "White cabbage": trim,
    "Beetroot": not_looked,
    "Potato": suspect,
}


def open_anew(phone: Phone, how: Signal) -> Page:
    """The browser is closed and started again, still without signal: all is there, and nothing was sent."""
    phone.close()
    page = phone.open(cut=how.cut)
    expect(page.get_by_role("button", name=re.compile(r"\d+ to send, 1 photo"))).to_be_visible()
    return page


def decide(page: Page, tmp_path: Path) -> None:
    """The other phone sees the photo with the colours put in, no place in it, and decides."""
    came: list[Response] = []
    page.on("response", lambda reply: came.append(reply) if "/photos/" in reply.url else None)
    steps.key(
        page.get_by_role("listitem").filter(has_text="Decide on one"), re.compile("Look|Decide")
    ).click()
    steps.heading(page, re.compile("potato, set apart"))
    shown = page.get_by_role("figure").first.locator("img")
    expect(shown).to_be_visible()
    page.wait_for_function("() => document.querySelector('figure img').naturalWidth > 320")
    assert_colours_put_in(shown.screenshot())
    assert came, "the photo came from the server"
    for reply in came:
        assert exifread.process_file(io.BytesIO(reply.body())) == {}, "no metadata came through"
        assert_colours_put_in(reply.body())
    page.get_by_role("radio", name=re.compile("^Compost")).check(force=True)
    steps.key(page, re.compile("a chore for")).click()
    steps.heading(page, "Rounds")
    steps.all_sent(page)


def assert_colours_put_in(raw: bytes) -> None:
    """The four corners as the camera was given them, upright."""
    with Image.open(io.BytesIO(raw)) as opened:
        image = opened.convert("RGB")
    width, height = image.size
    corners = [image.getpixel((int(width * x), int(height * y))) for y in (0.1, 0.9) for x in (0.1, 0.9)]
    for seen, put_in in zip(corners, pictures.CORNERS.values(), strict=True):
        assert isinstance(seen, tuple)
        assert max(abs(a - b) for a, b in zip(seen, put_in, strict=True)) < 30


def do_the_chore(page: Page) -> None:
    """The decision came as a chore to the first phone; done, it is an entry."""
    steps.go(page, "/store")
    steps.go(page, "/rounds")
    steps.sync_now(page)
    chore = page.get_by_role("listitem").filter(has_text="To the compost: potato")
    steps.key(chore, re.compile("Open|compost")).click()
    steps.key(page, "Done", exact=True).click()
    steps.heading(page, "Rounds")
    expect(page.get_by_role("listitem").filter(has_text="To the compost: potato")).to_have_count(0)
    steps.all_sent(page)


def see_the_scraps(page: Page) -> None:
    """The week's scraps stand by where they went, the winter's by crop too."""
    steps.go(page, "/scraps")
    steps.heading(page, "Scraps")
    for place in ("Hens", "Compost"):
        expect(page.get_by_role("listitem").filter(has_text=place).first).to_be_visible()
    steps.go(page, "/scraps/winter")
    for crop in ("Carrot", "White cabbage", "Potato"):
        expect(page.get_by_role("rowheader", name=crop)).to_be_visible()
