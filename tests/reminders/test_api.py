"""Reminders over HTTP: set on a phone the person writes on; the calendar's link is private and taken back."""

from __future__ import annotations

import uuid
from typing import Any

import pytest
from django.conf import LazySettings
from django.utils import timezone
from icalendar import Calendar

from homestead.household.models import Household, Person
from homestead.household.phones import let_in
from homestead.reminders.models import PushPhone, Reminding
from tests.api.browser import ELSEWHERE, Browser, problem, told
from tests.factories import Home
from tests.lines import Phone
from tests.reminders.conftest import AUTH, P256DH, roster

SET = {"mail_to": "", "mail_on": False, "at": "07:00", "quiet_from": "20:00", "quiet_until": "06:30"}
PUSH = {"endpoint": "https://push.example.net/send/abc", "p256dh": P256DH, "auth": AUTH}


@pytest.fixture(autouse=True)
def _names_of_this_server(settings: LazySettings) -> None:
    settings.ALLOWED_HOSTS = ["localhost", "rounds.example"]


def browser_of(home: Home, *people: str) -> Browser:
    rows = [Person.rows.of(home.id).get(uuid=person) for person in people]
    entered = let_in(Household.objects.get(pk=home.id), rows, "A phone", now=timezone.now())
    return Browser(Phone(entered.device, entered.token, people[0]))


def path(person: str, rest: str = "") -> str:
    return f"/api/v1/reminders/{person}{rest}"


def calendar(token: str) -> Any:
    """As a calendar asks: from elsewhere, with no cookie."""
    return Browser(at=ELSEWHERE).get(f"/api/v1/calendar/{token}.ics")


def test_nothing_is_sent_until_somebody_wishes_it(home: Home) -> None:
    wishes = told(browser_of(home, home.keeper).get(path(home.keeper)))
    assert "calendar_made_at" not in wishes
    assert not wishes["mail_on"]
    assert not wishes["push_on"]


def test_wishes_are_kept_and_told_back(home: Home) -> None:
    ruth = browser_of(home, home.keeper)
    asked = SET | {"mail_to": "ruth@example.org", "mail_on": True, "at": "08:15"}
    assert told(ruth.send("PUT", path(home.keeper), asked))["at"] == "08:15"
    assert told(ruth.get(path(home.keeper)))["mail_to"] == "ruth@example.org"


@pytest.mark.parametrize(
    "wrong",
    [{"mail_to": "ruth"}, {"mail_to": "a@b.example,c@d.example"}, {"at": "25:00"}, {"quiet_from": "8"}],
)
def test_wishes_that_cannot_be_kept_are_refused(home: Home, wrong: dict[str, str]) -> None:
    problem(browser_of(home, home.keeper).send("PUT", path(home.keeper), SET | wrong), 400, "bad_request")


def test_mail_without_an_address_is_refused(home: Home) -> None:
    ruth = browser_of(home, home.keeper)
    problem(ruth.send("PUT", path(home.keeper), SET | {"mail_on": True}), 409, "no_address")


def test_a_calendar_is_read_by_its_link_alone_until_it_is_taken_back(home: Home) -> None:
    home.lot(home.space("Root cellar"))
    roster(home, timezone.now())
    ruth = browser_of(home, home.keeper)
    token = told(ruth.post(path(home.keeper, "/calendar")), 201)["token"]
    answer = calendar(token)
    assert answer.status_code == 200
    assert answer.headers["Content-Type"] == "text/calendar; charset=utf-8"
    assert answer.headers["Cache-Control"] == "no-store"
    events = Calendar.from_ical(answer.content).walk("VEVENT")
    assert "Walk: Root cellar" in {str(event["SUMMARY"]) for event in events}
    assert b"Ruth" not in answer.content
    assert not Reminding.rows.of(home.id).filter(calendar_hash=token).exists(), "kept hashed only"
    told(ruth.post(path(home.keeper, "/calendar/end")))
    problem(calendar(token), 404, "unknown_link")


def test_a_new_link_ends_the_one_before(home: Home) -> None:
    ruth = browser_of(home, home.keeper)
    first, second = (told(ruth.post(path(home.keeper, "/calendar")), 201)["token"] for _ in range(2))
    problem(calendar(first), 404, "unknown_link")
    assert calendar(second).status_code == 200


def test_a_link_of_who_has_left_is_none(home: Home) -> None:
    tom = home.person("Tom", "adult")
    token = told(browser_of(home, tom).post(path(tom, "/calendar")), 201)["token"]
    home.edit("person", {"archived": True}, tom)
    problem(calendar(token), 404, "unknown_link")


def test_a_calendar_holds_the_days_of_its_person_alone(home: Home) -> None:
    tom = home.person("Tom", "adult")
    for name, doer in (("Feed", tom), ("Water", home.keeper)):
        home.edit("chore", {"name": name, "doer": doer})
    roster(home, timezone.now())
    token = told(browser_of(home, tom).post(path(tom, "/calendar")), 201)["token"]
    found = {str(one["SUMMARY"]) for one in Calendar.from_ical(calendar(token).content).walk("VEVENT")}
    assert found == {"Feed"}


ASKED: list[tuple[str, str, Any]] = [
    ("GET", "", None),
    ("PUT", "", SET),
    ("POST", "/calendar", {}),
    ("POST", "/calendar/end", {}),
    ("POST", "/push", PUSH),
    ("POST", "/push/end", {}),
]


@pytest.mark.parametrize(("method", "rest", "body"), ASKED)
def test_another_persons_reminders_are_nobodys_business(
    home: Home, method: str, rest: str, body: Any
) -> None:
    """invariant 36 too: a stranger's id answers as one that is unknown."""
    tom = browser_of(home, home.person("Tom", "adult"))
    for person in (home.keeper, str(uuid.uuid4())):
        asked = tom.get(path(person)) if method == "GET" else tom.send(method, path(person, rest), body)
        problem(asked, 403, "role")
    nobody = Browser()
    problem(nobody.get(path(home.keeper)), 401, "not_signed_in")


def test_a_parent_sets_a_childs_reminders_on_a_phone_both_write_on(home: Home) -> None:
    pip = home.person("Pip", "child")
    both = browser_of(home, home.keeper, pip)
    assert told(both.send("PUT", path(pip), SET))["at"] == "07:00"


def test_a_minder_has_a_document_and_no_reminders(home: Home) -> None:
    bea = home.person("Bea", "minder", until="2027-01-01")
    problem(browser_of(home, bea).get(path(bea)), 409, "unknown_person")


def test_a_browser_is_told_on_and_off(home: Home) -> None:
    ruth = browser_of(home, home.keeper)
    told(ruth.post(path(home.keeper, "/push"), PUSH))
    told(ruth.post(path(home.keeper, "/push"), PUSH | {"endpoint": "https://push.example.net/send/new"}))
    assert told(ruth.get(path(home.keeper)))["push_on"] is True
    assert PushPhone.rows.of(home.id).get().endpoint.endswith("/new")
    told(ruth.post(path(home.keeper, "/push/end")))
    assert told(ruth.get(path(home.keeper)))["push_on"] is False


@pytest.mark.parametrize(
    "endpoint",
    [
        "http://push.example.net/x",
        "https://127.0.0.1/x",
        "https://[::1]/x",
        "https://localhost/x",
        "https://10.0.0.7/x",
        "https://push.example.net:8443/x",
        "https://u:p@push.example.net/x",
        "file:///etc/passwd",
    ],
)
def test_the_server_is_not_sent_to_an_address_of_this_house(home: Home, endpoint: str) -> None:
    """A browser names where it is reached; only a name of the open net is taken."""
    ruth = browser_of(home, home.keeper)
    problem(ruth.post(path(home.keeper, "/push"), PUSH | {"endpoint": endpoint}), 409, "bad_push")


@pytest.mark.parametrize("address", ["127.0.0.1", "192.168.1.7", "169.254.169.254", "::1", "fd00::1"])
def test_a_name_that_points_into_a_house_is_not_asked(monkeypatch: pytest.MonkeyPatch, address: str) -> None:
    """The blocks are those of the IANA special-purpose registries, as the standard library knows them."""
    import socket

    from homestead.reminders.sending import NotThere, post

    found = [(socket.AF_INET, socket.SOCK_STREAM, 6, "", (address, 443))]
    monkeypatch.setattr(socket, "getaddrinfo", lambda *_, **__: found)
    with pytest.raises(NotThere):
        post("https://push.example.net/x", b"", {})


def test_keys_that_are_none_are_refused(home: Home) -> None:
    ruth = browser_of(home, home.keeper)
    problem(ruth.post(path(home.keeper, "/push"), PUSH | {"auth": "short"}), 409, "bad_push")
