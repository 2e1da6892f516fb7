"""Pairing, the cookie, CSRF, phones, and households of one browser."""

from __future__ import annotations

import datetime as dt
import json
import uuid
from typing import Any

import pytest
from django.test import override_settings
from django.utils import timezone

from api.sign_in import COOKIE
from homestead.household import phones
from homestead.household.models import Device, Household
from homestead.ledger.founding import make_first_key
from homestead.ledger.models import Line
from tests.api.browser import ELSEWHERE, HERE, Browser, problem, told
from tests.lines import Family, make_family

#: fixed, since each process that runs tests must name them alike
NO_PHONE = uuid.UUID("01900000-0000-7000-8000-00000000dead")
FOUND = {
    "household": {"name": "Hollow End", "zone": "Europe/Berlin"},
    "keeper": "Ruth",
    "phone": "Ruth's phone",
}


def new_code(family: Family, *roles: str) -> str:
    browser = Browser(family.phones["keeper"])
    people = [family.people[role] for role in roles]
    return str(told(browser.post("/api/v1/codes", {"people": people}), 201)["code"])


def test_a_phone_is_let_in_by_a_code_and_signed_in_by_its_cookie(family: Family) -> None:
    code, browser = new_code(family, "adult", "child"), Browser(at=ELSEWHERE)
    problem(browser.pull(), 401, "not_signed_in")
    let_in = told(browser.post("/api/v1/pair", {"code": code, "name": "Bela's phone"}), 201)
    assert let_in["household"] == {"id": str(family.household.pk), "name": "Hollow End", "demo": False}
    assert let_in["device"]["people"] == [family.people["adult"], family.people["child"]]
    assert (let_in["minder"], let_in["last_no"], let_in["epoch"]) == (False, 0, 1)
    assert let_in["codes"]["to"] - let_in["codes"]["from"] == 39
    assert told(browser.pull())["rows"]
    assert told(browser.get("/api/v1/session"))["let_in"]["device"] == let_in["device"]


def test_the_cookie_is_kept_from_scripts_and_other_sites(family: Family) -> None:
    """ASVS 5.0, 3.3: from memory."""
    browser = Browser(at=ELSEWHERE | {"wsgi.url_scheme": "https"})
    browser.client.defaults["HTTP_REFERER"] = "https://rounds.example/"
    response = browser.post("/api/v1/pair", {"code": new_code(family, "adult"), "name": "x"})
    assert response.status_code == 201
    cookie = response.cookies[COOKIE]
    assert (cookie["httponly"], cookie["samesite"], cookie["secure"]) == (True, "Lax", True)
    assert cookie["max-age"] == 400 * 24 * 3600
    assert cookie.value not in response.content.decode()


def test_a_code_typed_wrong_five_times_is_spent_with_a_sentence(family: Family) -> None:
    code, browser = new_code(family, "adult"), Browser(at=ELSEWHERE)
    typo = code[:-1] + ("2" if code[-1] != "2" else "3")
    for left in (4, 3, 2, 1):
        found = problem(browser.post("/api/v1/pair", {"code": typo, "name": "x"}), 422, "code_wrong")
        assert found["facts"] == {"left": left}
    problem(browser.post("/api/v1/pair", {"code": typo, "name": "x"}), 410, "code_spent")
    found = problem(browser.post("/api/v1/pair", {"code": code, "name": "x"}), 410, "code_spent")
    assert "new one" in found["detail"]
    assert COOKIE not in browser.client.cookies


def test_guessing_is_told_to_wait(family: Family) -> None:
    browser = Browser(at=ELSEWHERE)
    for _ in range(phones.TRIES_AT_ADDRESS):
        browser.post("/api/v1/pair", {"code": "ZZZZZZZZ", "name": "x"})
    response = browser.post("/api/v1/pair", {"code": "ZZZZZZZZ", "name": "x"})
    problem(response, 429, "too_many_tries")
    assert response.headers["Retry-After"] == "600"


@override_settings(PROXIES=1)
def test_behind_a_proxy_of_ones_own_each_asker_is_counted_apart(family: Family) -> None:
    for place in range(phones.TRIES_AT_ADDRESS + 2):
        browser = Browser(at=HERE | {"HTTP_X_FORWARDED_FOR": f"10.9.9.9, 192.0.2.{place}"})
        problem(browser.post("/api/v1/pair", {"code": "ZZZZZZZZ", "name": "x"}), 422, "code_wrong")


@pytest.mark.parametrize(
    ("method", "path"),
    [
        ("GET", "/api/v1/sync/pull"),
        ("GET", "/api/v1/devices"),
        ("POST", "/api/v1/sync/push"),
        ("POST", "/api/v1/sync/missing"),
        ("POST", "/api/v1/codes"),
        ("POST", "/api/v1/sign-out"),
        ("POST", f"/api/v1/devices/{NO_PHONE}/revoke"),
        ("PUT", f"/api/v1/devices/{NO_PHONE}/people"),
        ("POST", "/api/v1/demo/leave"),
    ],
)
def test_nothing_is_told_or_changed_without_the_cookie(db: None, method: str, path: str) -> None:
    """invariant 42"""
    browser = Browser()
    response = browser.get(path) if method == "GET" else browser.send(method, path, {})
    problem(response, 401, "not_signed_in")
    assert response.headers["WWW-Authenticate"]


@pytest.mark.parametrize("role", ["adult", "rounds", "child", "minder"])
def test_only_a_keepers_phone_sees_phones_and_makes_codes(family: Family, role: str) -> None:
    browser, device = Browser(family.phones[role]), family.phones["keeper"].device.pk
    people = [family.people["child"]]
    problem(browser.get("/api/v1/devices"), 403, "role")
    problem(browser.post("/api/v1/codes", {"people": people}), 403, "role")
    problem(browser.post(f"/api/v1/devices/{device}/revoke"), 403, "role")
    problem(browser.send("PUT", f"/api/v1/devices/{device}/people", {"people": people}), 403, "role")
    problem(browser.post("/api/v1/demo/leave"), 403, "role")
    assert Device.everywhere.get(pk=device).revoked_at is None


def test_a_keeper_sees_each_phone_and_when_it_was_last_seen(family: Family) -> None:
    browser = Browser(family.phones["keeper"])
    found = told(browser.get("/api/v1/devices"))["devices"]
    assert [one["name"] for one in found] == [f"{role}'s phone" for role in family.people]
    assert [one["this_one"] for one in found] == [True, False, False, False, False]
    assert all(one["last_seen"].endswith("Z") for one in found)


def test_a_revoked_phone_is_refused_on_its_next_request(family: Family, lot: str) -> None:
    """hazard 30, invariant 37"""
    phone = family.phones["adult"]
    browser, unsent = Browser(phone), phone.write("looked", {"lot": lot, "count": 1})
    told(browser.pull())
    told(Browser(family.phones["keeper"]).post(f"/api/v1/devices/{phone.device.pk}/revoke"))
    problem(browser.pull(), 403, "revoked")
    problem(browser.push(phone, unsent), 403, "revoked")
    assert not Line.everywhere.filter(uuid=unsent["id"]).exists()
    again = told(browser.post("/api/v1/pair", {"code": new_code(family, "adult"), "name": "x"}), 201)
    receipts = told(browser.push(phone, unsent, device=again["device"]["id"]))["receipts"]
    assert receipts[0]["result"] == "accepted"


def test_unsent_lines_of_one_person_stay_theirs_when_another_signs_in(family: Family, lot: str) -> None:
    """hazard 30"""
    phone = family.phones["rounds"]
    unsent = [phone.write("looked", {"lot": lot, "count": n}) for n in range(5)]
    told(Browser(family.phones["keeper"]).post(f"/api/v1/devices/{phone.device.pk}/revoke"))

    def let_in_as(*roles: str) -> tuple[Browser, str]:
        browser = Browser()
        answer = browser.post("/api/v1/pair", {"code": new_code(family, *roles), "name": "again"})
        return browser, told(answer, 201)["device"]["id"]

    browser, device = let_in_as("child")
    receipts = told(browser.push(phone, *unsent, device=device))["receipts"]
    assert {(one["code"], one["permanent"]) for one in receipts} == {("person_not_here", False)}
    browser, device = let_in_as("rounds")
    receipts = told(browser.push(phone, *unsent, device=device))["receipts"]
    assert {one["result"] for one in receipts} == {"accepted"}
    writers = Line.everywhere.filter(uuid__in=[line["id"] for line in unsent]).values_list(
        "person", flat=True
    )
    assert {str(writer) for writer in writers} == {phone.writer}


def test_a_sign_in_that_ran_out_loses_nothing(family: Family, lot: str) -> None:
    """hazard 29: 401, sign in, and the five lines are taken."""
    phone = family.phones["adult"]
    browser = Browser(phone)
    unsent = [phone.write("looked", {"lot": lot, "count": n}) for n in range(5)]
    del browser.client.cookies[COOKIE]
    problem(browser.push(phone, *unsent), 401, "not_signed_in")
    code = new_code(family, "adult")
    device = told(browser.post("/api/v1/pair", {"code": code, "name": "x"}), 201)["device"]["id"]
    receipts = told(browser.push(phone, *unsent, device=device))["receipts"]
    assert {one["result"] for one in receipts} == {"accepted"}


def test_signing_out_makes_the_token_worthless(family: Family) -> None:
    phone = family.phones["adult"]
    browser = Browser(phone)
    response = browser.post("/api/v1/sign-out")
    told(response)
    assert response.cookies[COOKIE]["max-age"] == 0
    problem(Browser(phone).pull(), 401, "not_signed_in")


def test_the_cookie_lives_on_while_it_is_used(family: Family) -> None:
    phone = family.phones["adult"]
    Device.everywhere.filter(pk=phone.device.pk).update(last_seen=timezone.now() - dt.timedelta(days=3))
    browser = Browser(phone)
    first, second = browser.pull(), browser.pull()
    assert first.cookies[COOKIE].value == phone.token
    assert first.cookies[COOKIE]["max-age"] == 400 * 24 * 3600
    assert COOKIE not in second.cookies
    assert Device.everywhere.get(pk=phone.device.pk).last_seen > timezone.now() - dt.timedelta(minutes=1)


def test_one_browser_holds_several_households_and_says_which_is_meant(family: Family) -> None:
    other = make_family("Nether End")
    browser = Browser()
    for house in (family, other):
        browser.post("/api/v1/pair", {"code": new_code(house, "adult"), "name": "x"})

    def household(**headers: str) -> str:
        answer = told(browser.get("/api/v1/session", **headers))
        return str(answer["let_in"]["household"]["name"])

    assert household() == "Nether End"
    assert household(**{"X-Household": str(family.household.pk)}) == "Hollow End"
    assert "let_in" not in told(browser.get("/api/v1/session", **{"X-Household": str(uuid.uuid4())}))
    browser.post("/api/v1/sign-out")
    assert household() == "Hollow End"


def test_signing_in_again_to_a_household_replaces_its_token(family: Family) -> None:
    browser = Browser()
    for _ in range(2):
        browser.post("/api/v1/pair", {"code": new_code(family, "adult"), "name": "x"})
    assert "." not in browser.client.cookies[COOKIE].value


def test_who_may_write_on_a_phone_is_set_by_a_keeper(family: Family) -> None:
    browser, device = Browser(family.phones["keeper"]), family.phones["adult"].device.pk
    people = [family.people["adult"], family.people["child"]]
    told(browser.send("PUT", f"/api/v1/devices/{device}/people", {"people": people}))
    assert Device.everywhere.get(pk=device).people == people
    wrong = {"people": people[::-1]}
    problem(browser.send("PUT", f"/api/v1/devices/{device}/people", wrong), 409, "people_on_phone")


class TestOtherFamilies:
    """hazard 31, invariant 36: another family's phones and people answer as unknown ones do."""

    def test_a_strangers_ids_answer_as_unknown_ones(self, family: Family) -> None:
        other = make_family("Nether End")
        browser = Browser(family.phones["keeper"])
        device, person = other.phones["adult"].device.pk, other.people["adult"]
        own_device = family.phones["adult"].device.pk
        asked: list[tuple[str, str, str, dict[str, Any]]] = [
            ("POST", f"/api/v1/devices/{device}/revoke", f"/api/v1/devices/{uuid.uuid4()}/revoke", {}),
            (
                "PUT",
                f"/api/v1/devices/{device}/people",
                f"/api/v1/devices/{uuid.uuid4()}/people",
                {"people": [family.people["child"]]},
            ),
        ]
        for method, foreign, unknown, body in asked:
            answers = [browser.send(method, path, body) for path in (foreign, unknown)]
            assert [one.status_code for one in answers] == [404, 404]
            assert answers[0].content == answers[1].content
        for path in ("/api/v1/codes", f"/api/v1/devices/{own_device}/people"):
            method = "POST" if path.endswith("codes") else "PUT"
            for who in (person, str(uuid.uuid4())):
                found = problem(browser.send(method, path, {"people": [who]}), 409, "unknown_person")
                assert found["facts"] == {"people": [who]}
        assert Device.everywhere.get(pk=device).revoked_at is None

    def test_a_strangers_lines_are_missing_and_never_pulled(self, family: Family, lot: str) -> None:
        other = make_family("Nether End")
        browser = Browser(other.phones["keeper"])
        assert told(browser.post("/api/v1/sync/missing", {"ids": [lot]})) == {"missing": [lot], "erased": []}
        rows = told(browser.pull())["rows"]
        assert {row["written"]["household"] for row in rows} == {str(other.household.pk)}


class TestFirstRun:
    def test_a_household_is_made_on_the_computer_itself(self, db: None) -> None:
        browser = Browser()
        assert told(browser.get("/api/v1/session"))["may"] == {"open_demo": False, "found_household": True}
        let_in = told(browser.post("/api/v1/households", FOUND), 201)
        assert let_in["household"]["name"] == "Hollow End"
        assert let_in["last_no"] == 2
        rows = told(browser.pull())["rows"]
        assert [row["outcome"]["type"] for row in rows] == ["person", "household"]

    @pytest.mark.parametrize(
        "at",
        [
            ELSEWHERE,
            {"HTTP_HOST": "rounds.example", "REMOTE_ADDR": "127.0.0.1"},
            {"HTTP_HOST": "localhost", "REMOTE_ADDR": "192.0.2.7"},
            HERE | {"HTTP_X_FORWARDED_FOR": "127.0.0.1"},
            HERE | {"HTTP_FORWARDED": "for=127.0.0.1"},
        ],
    )
    def test_from_elsewhere_it_needs_the_key(self, db: None, at: dict[str, str]) -> None:
        """Another name for this computer, or a proxy before it, is elsewhere."""
        make_family("Invented", demo=True)
        browser = Browser(at=at)
        assert told(browser.get("/api/v1/session"))["may"] == {"open_demo": False, "found_household": False}
        problem(browser.post("/api/v1/households", FOUND), 403, "key_wrong")
        problem(browser.post("/api/v1/demo"), 403, "not_here")
        key = make_first_key(now=timezone.now())
        assert told(browser.post("/api/v1/households", FOUND | {"key": key}), 201)

    @override_settings(OPEN_HERE=False)
    def test_a_host_opens_nothing_by_itself(self, db: None) -> None:
        browser = Browser()
        problem(browser.post("/api/v1/households", FOUND), 403, "key_wrong")
        problem(browser.post("/api/v1/demo"), 403, "not_here")

    def test_a_household_that_does_not_fit_is_told_where(self, db: None) -> None:
        wrong = FOUND | {"household": {"name": "Hollow End", "zone": "Middle/Earth"}}
        found = problem(Browser().post("/api/v1/households", wrong), 400, "bad_request")
        assert found["facts"]["where"] == "household.zone"

    def test_the_invented_household_opens_and_is_left_with_all_its_rows(self, db: None) -> None:
        demo = make_family("Invented", demo=True)
        browser = Browser()
        assert told(browser.get("/api/v1/session"))["may"]["open_demo"] is True
        let_in = told(browser.post("/api/v1/demo"), 201)
        assert let_in["household"] == {"id": str(demo.household.pk), "name": "Invented", "demo": True}
        assert told(browser.pull())["rows"]
        told(browser.post("/api/v1/demo/leave"))
        assert not Household.objects.filter(pk=demo.household.pk).exists()
        problem(browser.post("/api/v1/demo"), 404, "no_demo")
        problem(browser.pull(), 401, "not_signed_in")

    def test_a_household_of_ones_own_is_not_left_like_that(self, family: Family) -> None:
        problem(Browser(family.phones["keeper"]).post("/api/v1/demo/leave"), 409, "not_invented")
        assert Household.objects.filter(pk=family.household.pk).exists()


def test_no_secret_is_in_any_answer_or_log_line(family: Family, caplog: pytest.LogCaptureFixture) -> None:
    """invariant 38"""
    import logging

    from homestead.masking import Masked

    phone = family.phones["adult"]
    browser, photo = Browser(phone), "ab" * 32
    caplog.set_level(logging.DEBUG)
    for answer in (browser.pull(), browser.get(f"/api/v1/photos/{photo}"), browser.get("/api/v1/session")):
        assert phone.token not in json.dumps(dict(answer.headers)) + answer.content.decode(errors="ignore")
    logging.getLogger("anything").error("token %s, photo %s", phone.token, f"/api/v1/photos/{photo}")
    written = "\n".join(Masked("{message}", style="{").format(record) for record in caplog.records)
    assert "token …, photo /api/v1/photos/…" in written
    assert phone.token not in written
    assert photo not in written


def test_what_is_logged_in_earnest_is_masked() -> None:
    """invariant 38"""
    from django.conf import settings

    assert settings.LOGGING["handlers"]["console"]["formatter"] == "masked"
    assert settings.LOGGING["root"]["handlers"] == ["console"]
