"""A winter of a household in the browser: two phones, offline a week at a time, and rounds that go wrong.

After every week both phones and the server fold to the same stock, and the balance of docs/fold.md holds
for every lot. What each week wrote is held against figures worked by hand.
"""

from __future__ import annotations

import datetime as dt
import json
import re
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import Page, expect

from tests.journeys import later, steps, stores
from tests.journeys.browsers import Phone
from tests.journeys.home import Home
from tests.storekeeping.agreement import balances

pytestmark = pytest.mark.browser

Json = dict[str, Any]
Look = Callable[[Page], None]

#: an evening in autumn; each week begins at the same hour
FIRST_EVENING = dt.datetime(2026, 10, 5, 17, 0, tzinfo=ZoneInfo("Europe/Vienna"))
WEEK = dt.timedelta(days=7)
#: grams of a pack of freezer goods: fixtures/reference/piece_weights.csv
A_PACK_G = 650
JARS, FROZEN = "Preserves in jars", "Freezer goods"
#: what of a lot's state says nothing of its stock: the phone keeps it without its past
PAST = {"history"}


class Winter:
    """One server and two phones, and the evening they all believe it is."""

    def __init__(self, folder: Path, phone: Callable[[str, str], Phone]) -> None:
        self._clock = folder / "moved on"
        self.evening = FIRST_EVENING
        self._move_server()
        self.home = Home(
            folder / "home",
            own={later.MOVED_ON: str(self._clock)},
            program=("-m", "tests.journeys.later"),
        )
        self.home.prepare().start()
        self._phones = [phone(name, f"http://localhost:{self.home.port}") for name in ("ida", "jon")]
        self.ida, self.jon = (self._open(one) for one in self._phones)

    def _move_server(self) -> None:
        self._clock.write_text(str(self.evening.timestamp() - time.time()))

    def _open(self, phone: Phone) -> Page:
        page = phone.open("/robots.txt")
        page.context.clock.install(time=self.evening)
        page.goto(phone.url)
        return page

    @property
    def today(self) -> str:
        return self.evening.date().isoformat()

    def a_week_later(self) -> None:
        """Both phones are out of reach of the server, and start anew on that evening."""
        self.evening += WEEK
        self._move_server()
        for phone, page in zip(self._phones, (self.ida, self.jon), strict=True):
            phone.cut_network()
            page.context.clock.set_system_time(self.evening)
            page.reload()
            steps.go(page, "/rounds")
            steps.heading(page, "Rounds")

    def home_again(self) -> dict[str, Json]:
        """Both phones send and hear of each other; lots by id, the same on both and on the server."""
        for phone in self._phones:
            phone.cut_network(False)
        for page in (self.ida, self.jon):
            steps.sync_now(page)
            steps.all_sent(page)
        known = {line for _, line, _ in stores.server_lines(self.home)}
        on_server: dict[str, Json] = json.loads(
            self.home.manage("shell", "-v0", "-c", stores.FOLD % self.today)
        )
        for page in (self.ida, self.jon):
            steps.sync_now(page)
            hears_all(page, known)
            assert stock(folded_by(page, self.today)) == stock(on_server)
        for lot in on_server.values():
            assert balances(lot), lot
        return on_server


def hears_all(page: Page, known: set[str]) -> None:
    for _ in range(100):
        if stores.kept_ids(page) >= known:
            return
        page.wait_for_timeout(200)
    raise AssertionError(f"not heard of: {known - stores.kept_ids(page)}")


def folded_by(page: Page, today: str) -> dict[str, Json]:
    """Each lot as this phone folded it: what it keeps of its fold, once that stands on all its lines."""
    for _ in range(100):
        held = stores.phone_stores(page)
        kept = next((row["value"] for row in held["meta"] if row["name"] == "worked_out"), None)
        if kept and json.loads(kept["mark"])[-3:] == [
            len(held[name]) for name in ("entries", "outbox", "tray")
        ]:
            lots: list[Json] = json.loads(kept["text"])[today]
            return {lot["id"]: lot for lot in lots}
        page.wait_for_timeout(200)
    raise AssertionError("the phone did not keep what it folded")


def stock(lots: dict[str, Json]) -> dict[str, Json]:
    """Every field of each lot but its past, sums to the hundredth that vectors compare to."""
    return {id_: rounded({k: v for k, v in lot.items() if k not in PAST}) for id_, lot in lots.items()}


def rounded(value: Any) -> Any:
    if isinstance(value, dict):
        return {name: rounded(one) for name, one in value.items()}
    if isinstance(value, list):
        return [rounded(one) for one in value]
    return round(value, 2) + 0.0 if isinstance(value, int | float) and not isinstance(value, bool) else value


def of_crop(lots: dict[str, Json], crop: str) -> Json:
    (lot,) = [lot for lot in lots.values() if lot["crop"] == crop]
    return lot


@pytest.fixture
def winter(tmp_path: Path, phone: Callable[[str, str], Phone]) -> Iterator[Winter]:
    begun = Winter(tmp_path, phone)
    yield begun
    begun.home.stop()


def test_two_phones_a_week_offline_at_a_time_and_the_server_fold_a_winter_to_the_same_stock(
    winter: Winter,
) -> None:
    begin(winter)
    put_away(winter)
    rounds_go_wrong(winter)
    mice_and_picking_over(winter)
    a_chore_of_it(winter)
    mend_the_book(winter)
    pack_part_and_set_aside(winter)


def begin(winter: Winter) -> None:
    ida, jon = winter.ida, winter.jon
    steps.found_household(ida, "Nettle Hollow", "Ida", ["root cellar", "loft", "pantry", "freezer"])
    steps.all_sent(ida)
    steps.add_person(ida, "Jon", "Adult")
    steps.join(jon, steps.pairing_code(ida, "Jon"), "Jon's phone")
    steps.go(ida, "/rounds")
    steps.all_sent(ida)


def put_away(winter: Winter) -> None:
    winter.a_week_later()
    for crop, number, space in (("Carrot", "24", "Root cellar"), ("White cabbage", "18", "Root cellar")):
        steps.put_away(winter.ida, crop, "Greyfell", number, space)
    steps.put_away(winter.ida, "Garlic", "Amber Hod", "40", "Loft")
    put_away_to_cure(winter.ida)
    put_away_sealed(winter.jon, JARS, "Pieces", "12", "Pantry")
    put_away_sealed(winter.jon, FROZEN, "Weighed", "9", "Freezer")
    lots = winter.home_again()
    assert {lot["crop"]: lot["tallies"]["put_away"] for lot in lots.values()}["carrot"] == 24_000
    assert len(lots) == 6


def put_away_to_cure(page: Page) -> None:
    steps.go(page, "/store")
    steps.heading(page, "Store")
    steps.go(page, "/store/put-away")
    steps.key(page, "Onion", exact=True).click()
    steps.type_number(page, "Weighed", "30")
    steps.key(page, "It cures first").click()
    page.get_by_role("combobox", name="Where").select_option(label="Loft")
    steps.key(page, re.compile("^Put away as")).click()
    page.get_by_text("Another the same?").wait_for()


def put_away_sealed(page: Page, crop: str, how: str, number: str, space: str) -> None:
    steps.go(page, "/store")
    steps.heading(page, "Store")
    steps.go(page, "/store/put-away")
    steps.key(page, "Another crop").click()
    page.get_by_role("combobox").first.select_option(label=crop)
    steps.type_number(page, how, number)
    page.get_by_role("combobox", name="Where").select_option(label=space)
    page.get_by_role("button", name=re.compile("^Put away")).last.click()
    page.get_by_text("Another the same?").wait_for()


def walk(page: Page, space: str, looks: dict[str, Look]) -> None:
    """Through a space to its end: each crop as `looks` says, the others sound with one touch."""
    steps.go(page, "/rounds")
    steps.heading(page, "Rounds")
    page.get_by_role("link", name=re.compile(space)).first.click()
    steps.key(page, "Go in, nothing read").click()
    left = dict(looks)
    walked = page.get_by_role("heading", name=re.compile("walked$"), level=1)
    while True:
        walked.or_(steps.key(page, re.compile("^All .*sound$"))).first.wait_for()
        if walked.count():
            break
        lot = page.get_by_role("heading", level=1).inner_text()
        left.pop(lot.partition(",")[0], all_sound)(page)
        expect(page.get_by_role("heading", level=1)).not_to_have_text(lot)
    assert not left, f"never came to {left}"
    steps.key(page, "Done for today").click()
    steps.heading(page, "Rounds")


def all_sound(page: Page) -> None:
    steps.key(page, re.compile("^All .*sound$")).click()


def out_of_reach(page: Page) -> None:
    steps.key(page, re.compile("^Not looked")).click()
    steps.key(page, "Out of reach").click()


def all_gone_eaten(page: Page) -> None:
    steps.key(page, "All gone").click()
    steps.key(page, "Eaten", exact=True).click()


def some_out(finding: str, to: str, more: Look = lambda page: None) -> Look:
    """One piece of that finding, and where it goes."""

    def look(page: Page) -> None:
        steps.key(page, "Some out").click()
        steps.key(page, finding, exact=True).click()
        page.get_by_role("radio", name=re.compile(f"^{to}")).check(force=True)
        more(page)
        steps.key(page, re.compile("Next.lot$")).click()

    return look


def rounds_go_wrong(winter: Winter) -> None:
    """The cabbages stand out of reach; a jar has its lid up; the freezer was off."""
    winter.a_week_later()
    walk(winter.ida, "Root cellar", {"White cabbage": out_of_reach})
    walk(winter.jon, "Pantry", {JARS: some_out("lid up", "Bin")})
    walk(winter.jon, "Freezer", {FROZEN: some_out("thawed", "Bin")})
    lots = winter.home_again()
    birth = (winter.evening - WEEK).date().isoformat()
    assert of_crop(lots, "cabbage")["last_look"]["day"] == birth, "not looked at is no look"
    steps.go(winter.jon, "/rounds")
    expect(winter.jon.get_by_role("link", name=re.compile("Root cellar"))).to_contain_text("due today")
    assert of_crop(lots, "jar")["shown"]["pieces"] == 11
    frozen = of_crop(lots, "frozen")
    assert frozen["shown"]["grams"] == 9_000 - A_PACK_G


def mice_and_picking_over(winter: Winter) -> None:
    """Carrots are picked over at once; mice at the onions warn of the garlic; the cabbages are eaten."""
    winter.a_week_later()
    rot = some_out("soft rot", "Compost", pick_over)
    walk(winter.ida, "Root cellar", {"Carrot": rot, "White cabbage": all_gone_eaten})
    walk(winter.jon, "Loft", {"Onion": some_out("gnawed", "Compost"), "Garlic": beside_mice})
    lots = winter.home_again()
    carrot = of_crop(lots, "carrot")
    assert carrot["tallies"]["shrink"] == pytest.approx(24_000 - carrot["grams"])
    assert carrot["last_look"]["day"] == winter.today
    assert of_crop(lots, "onion")["standing"] == [], "the gnawed one is out"
    cabbage = of_crop(lots, "cabbage")
    assert cabbage["finished"]
    assert cabbage["tallies"]["eaten"] == cabbage["tallies"]["put_away"]


def beside_mice(page: Page) -> None:
    expect(page.get_by_text("Mice were at onion")).to_be_visible()
    all_sound(page)


def pick_over(page: Page) -> None:
    steps.key(page, "Pick over now").click()
    expect(page.get_by_text("Every piece is looked at now")).to_be_visible()


def a_chore_of_it(winter: Winter) -> None:
    """What spreads in a sample is left as a chore; a week later it is done, and every piece was looked at."""
    winter.a_week_later()
    walk(winter.ida, "Root cellar", {"Carrot": some_out("soft rot", "Compost")})
    winter.home_again()
    winter.a_week_later()
    steps.key(winter.jon, re.compile("^Open: Pick over: carrot")).click()
    steps.key(winter.jon, "Pick it over now").click()
    all_sound(winter.jon)
    steps.key(winter.jon, "Done for today").click()
    steps.heading(winter.jon, "Rounds")
    winter.home_again()
    for page in (winter.ida, winter.jon):
        steps.go(page, "/rounds")
        expect(page.get_by_text("Pick over: carrot")).to_have_count(0)


def mend_the_book(winter: Winter) -> None:
    """More garlic than the book has, less in the freezer; a count is struck, and brought back elsewhere."""
    winter.a_week_later()
    count(winter.ida, "Garlic", "Pieces", "45")
    count(winter.jon, FROZEN, "Weighed", "6", "Lost")
    lots = winter.home_again()
    garlic, frozen = of_crop(lots, "garlic"), of_crop(lots, "frozen")
    assert garlic["shown"]["pieces"] == 45
    assert garlic["tallies"]["found"] == pytest.approx(5 * garlic["ratio"])
    assert frozen["tallies"]["shrink"] == 3_000, "a pack to the bin and what the count called lost"

    winter.a_week_later()
    newest_entry(winter.ida, "Garlic")
    steps.key(winter.ida, "Strike it out").click()
    winter.ida.locator("dialog[open]").wait_for(state="detached")
    lots = winter.home_again()
    assert of_crop(lots, "garlic")["shown"]["pieces"] == 40, "struck out, the count says nothing"

    winter.a_week_later()
    newest_entry(winter.jon, "Garlic")
    steps.key(winter.jon, "Bring it back").click()
    winter.jon.locator("dialog[open]").wait_for(state="detached")
    assert of_crop(winter.home_again(), "garlic")["shown"]["pieces"] == 45


def pack_part_and_set_aside(winter: Winter) -> None:
    """Onions are packed and weighed on one phone; on the other carrots parted, garlic kept for seed."""
    before = of_crop(winter.home_again(), "onion")
    assert before["curing"]
    winter.a_week_later()
    open_lot(winter.ida, "Onion")
    steps.key(winter.ida, "Dry: pack and weigh").click()
    steps.type_number(winter.ida, "Weighed", "27")
    kept(winter.ida, "^Packed, 27")
    open_lot(winter.jon, "Carrot")
    steps.key(winter.jon, "Move all, or a part").click()
    steps.key(winter.jon, "a part", exact=True).click()
    steps.type_number(winter.jon, "Weighed", "5")
    winter.jon.get_by_role("radio", name="Loft").check(force=True)
    kept(winter.jon, "^Move 5.kg as")
    open_lot(winter.jon, "Garlic")
    steps.key(winter.jon, "Set aside for seed").click()
    steps.type_number(winter.jon, "Pieces", "4")
    kept(winter.jon, "for seed$")
    lots = winter.home_again()
    onion = of_crop(lots, "onion")
    assert not onion["curing"]
    assert onion["tallies"]["cured"] == pytest.approx(before["grams"] - 27_000), "water, no shrink"
    (part,) = [lot for lot in lots.values() if lot["crop"] == "carrot" and lot["parent"]]
    assert part["tallies"]["put_away"] == lots[part["parent"]]["tallies"]["moved"] == 5_000
    garlic = of_crop(lots, "garlic")
    assert garlic["food"]["pieces"] == garlic["shown"]["pieces"] - 4, "seed is no food"


def kept(page: Page, name: str) -> None:
    """The key that writes, and then the lot's own page."""
    steps.key(page, re.compile(name)).last.click()
    page.get_by_role("heading", name="Its life").wait_for()


def open_lot(page: Page, crop: str) -> None:
    steps.go(page, "/store")
    page.get_by_role("link", name=re.compile(f"^{crop}")).first.click()
    steps.heading(page, re.compile(f"^{crop}"))


def count(page: Page, crop: str, how: str, number: str, gone: str | None = None) -> None:
    open_lot(page, crop)
    steps.key(page, "Count", exact=True).click()
    steps.type_number(page, how, number)
    if gone:
        page.get_by_role("radio", name=re.compile(f"^{gone}")).check(force=True)
    page.locator(".reach .key").last.click()
    steps.key(page, "Count", exact=True).wait_for()


def newest_entry(page: Page, crop: str) -> None:
    open_lot(page, crop)
    page.locator("main ol button").first.click()
    page.locator("dialog[open] h2").wait_for()
