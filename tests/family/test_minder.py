"""Whoever minds the place: a link lets a phone in, shows its days and nothing else, and ends."""

from __future__ import annotations

import datetime as dt
import json
import uuid
from typing import Any

import pytest
from django.conf import LazySettings
from django.utils import timezone

from api.sign_in import COOKIE
from homestead.household.models import Device, Household, MinderLink, Person
from homestead.household.phones import let_in
from homestead.rounds.planning import make_roster
from tests.api.browser import ELSEWHERE, Browser, problem, told
from tests.factories import Home, HomeFactory
from tests.lines import Phone

TODAY = timezone.now().date()


@pytest.fixture(autouse=True)
def _names_of_this_server(settings: LazySettings) -> None:
    settings.ALLOWED_HOSTS = ["localhost", "rounds.example"]


@pytest.fixture
def home(db: None) -> Home:
    return HomeFactory()


@pytest.fixture
def keeper(home: Home) -> Browser:
    people = list(Person.rows.of(home.id).filter(uuid=home.keeper))
    entered = let_in(Household.objects.get(pk=home.id), people, "Ruth's", now=timezone.now())
    return Browser(Phone(entered.device, entered.token, home.keeper))


def week(home: Home, until: int = 6) -> dict[str, Any]:
    """A minder kept, and what is asked for their link."""
    last = (TODAY + dt.timedelta(days=until)).isoformat()
    bea = home.person("Bea", "minder", until=last)
    asked = {"person": bea, "from_day": TODAY.isoformat(), "until": last, "way": "past the mill", "note": ""}
    return asked | {"home": []}


def opened(keeper: Browser, asked: dict[str, Any]) -> tuple[Browser, Device, str]:
    made = told(keeper.post("/api/v1/minder/links", asked), 201)
    browser = Browser(at=ELSEWHERE)
    entered = told(browser.post("/api/v1/minder/open", {"token": made["token"]}), 201)
    assert entered["minder"] is True
    return browser, Device.everywhere.get(pk=entered["device"]["id"]), made["id"]


def test_the_document_holds_the_walks_without_amounts_and_no_people(home: Home, keeper: Browser) -> None:
    home.person("Tom", "adult")
    cellar, loft = home.space("Root cellar", cautions=["gas"]), home.space("Far loft")
    hens = home.animals()
    lot = home.lot(cellar, "onion", grams=31_417, variety="Ember")
    home.edit("chore", {"name": "Shut the hens in", "animals": hens, "at": "16:30"})
    ring = [{"what": "vet", "name": "Surgery", "number": "01632 960 417"}]
    home.edit("household", {"ring": ring}, str(home.id))
    make_roster(home.id, now=timezone.now())
    browser, _, _ = opened(keeper, week(home, 8) | {"home": [lot]})
    document = told(browser.get("/api/v1/minder"))
    assert [walk["lots"] for walk in document["walks"]] == [[lot]] * len(document["walks"])
    assert document["walks"]
    assert document["lots"] == document["home"]
    assert (document["lots"][0]["crop"], document["lots"][0]["variety"]) == ("onion", "Ember")
    assert [one["name"] for one in document["spaces"]] == ["Root cellar"]
    assert document["ring"] == ring
    assert len(document["chores"]) == 9
    text = json.dumps(document)
    assert not [
        word for word in ("31417", "grams", "pieces", "Tom", "Ruth", loft, home.keeper) if word in text
    ]


def test_a_minders_phone_pulls_nothing_and_sees_no_phones_and_no_links(home: Home, keeper: Browser) -> None:
    browser, _, _ = opened(keeper, week(home))
    problem(browser.pull(), 403, "minder_pulls_nothing")
    problem(browser.get("/api/v1/minder/links"), 403, "role")
    problem(browser.get("/api/v1/devices"), 403, "role")
    problem(keeper.get("/api/v1/minder"), 403, "role")


def test_a_link_ended_shows_nothing_and_takes_what_was_written_before(home: Home, keeper: Browser) -> None:
    cellar = home.space()
    lot = home.lot(cellar)
    browser, device, link = opened(keeper, week(home))
    before = timezone.now() - dt.timedelta(seconds=1)
    told(keeper.post(f"/api/v1/minder/links/{link}/end"))
    problem(browser.get("/api/v1/minder"), 410, "minder_ended")
    look = {"lot": lot, "space": cellar, "way": "sample", "looked": 4, "counted": False}
    bea = device.people[0]
    as_bea = {"person": bea, "device": str(device.pk)}
    phone = Phone(device, browser.client.cookies[COOKIE].value, bea)
    sooner = home.line("inspection", look, at=before, device_no=1, **as_bea)
    later = home.line("inspection", look, at=timezone.now() + dt.timedelta(seconds=2), device_no=2, **as_bea)
    receipts = told(browser.push(phone, sooner, later))["receipts"]
    assert [one["result"] for one in receipts] == ["accepted", "refused"]
    assert receipts[1]["code"] == "minder_ended"
    problem(keeper.post(f"/api/v1/minder/links/{link}/end"), 404, "unknown_link")


def test_a_link_that_is_over_or_unknown_lets_nobody_in(home: Home, keeper: Browser) -> None:
    made = told(keeper.post("/api/v1/minder/links", week(home)), 201)
    yesterday = TODAY - dt.timedelta(days=2)
    MinderLink.everywhere.update(until=yesterday, from_day=yesterday)
    browser = Browser(at=ELSEWHERE)
    problem(browser.post("/api/v1/minder/open", {"token": made["token"]}), 410, "minder_ended")
    problem(browser.post("/api/v1/minder/open", {"token": "x" * 43}), 404, "unknown_link")


def test_a_link_opens_on_five_phones_and_is_kept_hashed(home: Home, keeper: Browser) -> None:
    made = told(keeper.post("/api/v1/minder/links", week(home)), 201)
    for _ in range(5):
        told(Browser(at=ELSEWHERE).post("/api/v1/minder/open", {"token": made["token"]}), 201)
    problem(Browser(at=ELSEWHERE).post("/api/v1/minder/open", {"token": made["token"]}), 410, "link_spent")
    assert made["token"] not in json.dumps(list(MinderLink.everywhere.values()), default=str)


def test_a_link_is_for_a_minder_and_their_own_last_day(home: Home, keeper: Browser) -> None:
    asked = week(home)
    problem(keeper.post("/api/v1/minder/links", asked | {"person": home.keeper}), 409, "unknown_person")
    problem(keeper.post("/api/v1/minder/links", asked | {"until": asked["from_day"]}), 409, "unknown_person")
    problem(keeper.post("/api/v1/minder/links", asked | {"person": str(uuid.uuid4())}), 409, "unknown_person")


def test_what_may_be_taken_home_is_sound_on_the_day_it_is_asked(home: Home, keeper: Browser) -> None:
    """A lot that was sound when it was ticked drops out with the first finding or doubt, and no sooner."""
    cellar = home.space()
    ticked = [home.lot(cellar, crop) for crop in ("carrot", "onion", "beet")]
    browser, _, _ = opened(keeper, week(home) | {"home": ticked})
    look = {"space": cellar, "way": "sample", "looked": 5, "counted": False}

    def to_take() -> list[str]:
        return [lot["crop"] for lot in told(browser.get("/api/v1/minder"))["home"]]

    assert to_take() == ["carrot", "onion", "beet"]
    seen = home.write("inspection", look | {"lot": ticked[0], "seen": [{"finding": "soft_rot", "pieces": 1}]})
    doubt = home.write("suspect", {"lot": ticked[1], "findings": ["unsure"], "lies": "held"})
    assert to_take() == ["beet"]
    home.write("decision", {"suspect": doubt, "do": "keep"})
    home.strike(seen)
    assert to_take() == ["carrot", "onion", "beet"]


def test_a_chore_is_told_with_what_to_mind_and_how_it_is_done(home: Home, keeper: Browser) -> None:
    loft = home.space("Loft", cautions=["ladder"])
    fields = {"name": "Air the loft", "space": loft, "needs": ["not_alone"], "note": "The far hatch"}
    home.edit("chore", fields | {"photo": "a" * 64})
    browser, _, _ = opened(keeper, week(home, 0))
    [chore] = told(browser.get("/api/v1/minder"))["chores"]
    assert (chore["cautions"], chore["needs"]) == (["ladder"], ["not_alone"])
    assert (chore["note"], chore["photo"]) == ("The far hatch", "a" * 64)
