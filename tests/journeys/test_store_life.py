"""A lot's life with no signal: cured, packed, parted, counted, set aside, given, struck and brought back."""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Callable
from dataclasses import dataclass

import pytest
from playwright.sync_api import Page, expect

from tests.journeys import steps
from tests.journeys.browsers import Phone
from tests.journeys.home import Home

pytestmark = pytest.mark.browser


@dataclass(frozen=True)
class Stocked:
    """A lot as the server folded it; `tallies` in grams."""

    code: str
    grams: float
    tallies: dict[str, float]


def test_a_lot_lives_a_winter_with_no_signal_and_the_server_folds_it_alike(
    home: Home, phone: Callable[[str, str], Phone]
) -> None:
    """Numbers by hand from docs/fold.md: F10 cured is water, F13 seed is no food, F15 a part, F3 strikes."""
    ida = phone("ida", f"http://localhost:{home.port}")
    page = ida.open()
    steps.found_household(page, "Nettle Hollow", "Ida", ["root cellar", "loft"])
    steps.go(page, "/rounds")
    steps.all_sent(page)
    page.wait_for_function("() => navigator.serviceWorker.controller || navigator.serviceWorker.ready")
    ida.cut_network()

    put_away_to_cure(page)
    pack_and_weigh(page)
    part = move_a_part(page)
    count_less(page)
    cull_some(page)
    set_aside(page)
    give_some(page)
    strike_and_bring_back(page)

    ida.cut_network(False)
    page.reload()
    steps.go(page, "/rounds")
    steps.all_sent(page)
    told = lots_on_server(home)
    first, second = told["onion"]
    assert second.code == part
    assert (round(first.grams), round(second.grams)) == (24_000, 5_000)
    assert first.tallies["cured"] == pytest.approx(4_000)
    assert first.tallies["moved"] == pytest.approx(5_000)
    assert first.tallies["eaten"] == pytest.approx(5_000), "the book had 31 kg, 26 were counted"
    assert first.tallies["shrink"] == pytest.approx(1_000)
    assert first.tallies["given"] == pytest.approx(1_000)
    for lot in (first, second):
        left = ("there", "eaten", "given", "seed", "shrink", "cured", "moved", "put_by", "unknown")
        tallies = lot.tallies
        assert tallies["put_away"] + tallies["found"] == pytest.approx(sum(tallies[one] for one in left))
    home.manage("replay", "--check")


def keep(page: Page, name: str) -> None:
    """The key that writes, and then the lot's own page."""
    steps.key(page, re.compile(name)).last.click()
    page.get_by_role("heading", name="Its life").wait_for()


def put_away_to_cure(page: Page) -> None:
    steps.go(page, "/store/put-away")
    steps.key(page, "Onion", exact=True).click()
    page.get_by_label("Name of the variety").fill("Brown Tallis")
    steps.type_number(page, "Weighed", "40")
    steps.key(page, "It cures first").click()
    page.get_by_role("combobox", name="Where").select_option(label="Loft")
    steps.key(page, re.compile("^Put away as")).click()
    page.get_by_text("Another the same?").wait_for()
    steps.go(page, "/store")
    curing = page.get_by_role("region", name="Curing")
    expect(curing.get_by_text(re.compile("Day 0. Ready between"))).to_be_visible()
    expect(steps.key(curing, re.compile("^Dry: pack and weigh"))).to_be_visible()
    page.get_by_role("link", name=re.compile("^Onion")).first.click()
    page.get_by_role("heading", name="Its life").wait_for()
    expect(page.get_by_text(re.compile("^Day 0. Ready between"))).to_be_visible()


def pack_and_weigh(page: Page) -> None:
    steps.key(page, "Dry: pack and weigh").click()
    steps.type_number(page, "Weighed", "36")
    page.get_by_role("radio", name="Root cellar").check(force=True)
    keep(page, "^Packed, 36")
    expect(page.get_by_text("36\u00a0kg counted", exact=True)).to_be_visible()


def move_a_part(page: Page) -> str:
    """The part's number is told on the key before, and stands on its page after; back to the first lot."""
    first = page.evaluate("location.hash").removeprefix("#")
    steps.key(page, "Move all, or a part").click()
    steps.key(page, "a part", exact=True).click()
    steps.type_number(page, "Weighed", "5")
    page.get_by_role("radio", name="Loft").check(force=True)
    said = page.get_by_role("button", name=re.compile("^Move 5.kg as ")).inner_text()
    code = said.rsplit(" ", 1)[1]
    keep(page, "^Move 5.kg as")
    page.wait_for_function("first => location.hash !== '#' + first + '/move'", arg=first)
    expect(page.get_by_text(re.compile(f"Loft.*{code}"))).to_be_visible()
    steps.go(page, first)
    expect(page.get_by_text("31\u00a0kg counted", exact=True)).to_be_visible()
    return code


def count_less(page: Page) -> None:
    steps.key(page, "Count", exact=True).click()
    steps.type_number(page, "Weighed", "26")
    keep(page, "^Keep the count")
    expect(page.get_by_text("26\u00a0kg counted", exact=True)).to_be_visible()


def cull_some(page: Page) -> None:
    """Nobody could say what it was: no food and no feed is offered, and the form says so."""
    steps.key(page, "Some lost, or cut off").click()
    steps.key(page, re.compile("^can.t say$")).click()
    steps.key(page, "By weight").click()
    steps.type_number(page, "Weighed", "1")
    expect(page.get_by_role("radio", name=re.compile("^(Raw|Cook|Hens)"))).to_have_count(0)
    page.get_by_role("radio", name=re.compile("^Compost")).check(force=True)
    keep(page, "^Out, 1.kg")
    expect(page.get_by_text("25\u00a0kg counted", exact=True)).to_be_visible()


def set_aside(page: Page) -> None:
    steps.key(page, "Set aside for seed").click()
    steps.type_number(page, "Weighed", "2")
    keep(page, "for seed$")
    expect(page.get_by_text("kept for seed: no food")).to_be_visible()


def give_some(page: Page) -> None:
    steps.key(page, "Took some").click()
    steps.key(page, "give away").click()
    page.locator("dialog[open]").get_by_role("button", name=re.compile(r"^1.kg")).click()
    expect(page.get_by_text("24\u00a0kg counted", exact=True)).to_be_visible()


def strike_and_bring_back(page: Page) -> None:
    """Both words stay readable; struck it counts nowhere."""
    page.locator("main ol button").first.click()
    steps.key(page, "wrong amount").click()
    steps.key(page, "Strike it out").click()
    expect(page.get_by_text("25\u00a0kg counted", exact=True)).to_be_visible()
    expect(page.locator("main ol del").first).to_be_visible()
    page.locator("main ol button").first.click()
    steps.key(page, "Bring it back").click()
    expect(page.get_by_text("24\u00a0kg counted", exact=True)).to_be_visible()


def lots_on_server(home: Home) -> dict[str, list[Stocked]]:
    """By crop, in the order of their birth: a part after the lot it came from."""
    with sqlite3.connect(f"file:{home.data / 'rounds.sqlite3'}?mode=ro", uri=True) as db:
        rows = db.execute("SELECT crop, code, grams, tallies FROM store_lot ORDER BY uuid").fetchall()
    lots: dict[str, list[Stocked]] = {}
    for crop, code, grams, tallies in rows:
        lots.setdefault(crop, []).append(Stocked(code, grams, json.loads(tallies)))
    return lots
