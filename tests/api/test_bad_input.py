"""What nobody should send: a sentence, nothing lost, nothing else held up, memory flat."""

from __future__ import annotations

import json
import tracemalloc
from typing import Any

import pytest

from api.reading import MOST_BYTES
from homestead.household.models import Household
from homestead.ledger.models import Line
from tests.api.browser import Browser, problem, told
from tests.lines import Family, Phone

PUSH = "/api/v1/sync/push"


@pytest.fixture
def phone(family: Family) -> Phone:
    return family.phones["adult"]


def lines(family: Family) -> int:
    return Line.rows.of(family.household).count()


@pytest.mark.parametrize(
    ("body", "content_type", "status", "code"),
    [
        (b'{"device": "0190', "application/json", 400, "bad_json"),
        (b"", "application/json", 400, "bad_request"),
        (b" ", "application/json", 400, "bad_json"),
        (b"<!DOCTYPE html><title>Log in</title>", "application/json", 400, "bad_json"),
        (b"<!DOCTYPE html><title>Log in</title>", "text/html", 415, "bad_type"),
        (b"device=1", "application/x-www-form-urlencoded", 415, "bad_type"),
        (b'{"device": NaN}', "application/json", 400, "bad_json"),
        (b'{"a": "\xff"}', "application/json", 400, "bad_json"),
        (b"[" * 100_000, "application/json", 400, "bad_json"),
        (b"1" * 10_000, "application/json", 400, "bad_json"),
        (b"null", "application/json", 400, "bad_request"),
        (b"[]", "application/json", 400, "bad_request"),
        (b"{}", "application/json", 400, "bad_request"),
    ],
)
def test_half_a_json_or_html_for_json_is_told(
    family: Family, phone: Phone, body: bytes, content_type: str, status: int, code: str
) -> None:
    """hazard 28"""
    before = lines(family)
    problem(Browser(phone).post(PUSH, body, content_type), status, code)
    assert lines(family) == before


@pytest.mark.parametrize(
    ("change", "where"),
    [
        ({"device": 5}, "device"),
        ({"device": "me"}, "device"),
        ({"sent_at": "yesterday"}, "sent_at"),
        ({"sent_at": "2026-11-25T09:30:00"}, "sent_at"),
        ({"build": None}, "build"),
        ({"lines": {}}, "lines"),
        ({"lines": None}, "lines"),
        ({"extra": 1}, "extra"),
    ],
)
def test_a_push_that_does_not_fit_is_told_where(phone: Phone, change: dict[str, Any], where: str) -> None:
    found = problem(Browser(phone).push(phone, **change), 400, "bad_request")
    assert found["facts"]["where"] == where


def test_ten_thousand_lines_in_one_push_are_too_many(family: Family, phone: Phone, lot: str) -> None:
    """Read no further than the limit: what is larger costs no memory."""
    line = phone.write("looked", {"lot": lot, "count": 1})
    body = json.dumps(
        {
            "device": str(phone.device.pk),
            "sent_at": "2026-11-25T09:30:00Z",
            "build": "1",
            "lines": [{"written": line}] * 10_000,
        }
    ).encode()
    assert len(body) > 3_900_000
    browser, before = Browser(phone), lines(family)
    browser.push(phone)
    tracemalloc.start()
    response = browser.post(PUSH, body)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    problem(response, 413, "too_large")
    assert peak < len(body) + 4 * MOST_BYTES
    assert lines(family) == before


def test_201_small_lines_are_too_many(phone: Phone) -> None:
    found = problem(Browser(phone).push(phone, *[{"written": {}}] * 201), 413, "too_many_lines")
    assert found["facts"] == {"most": 200}


@pytest.mark.parametrize("clock", ["2028-11-25T09:30:00.000Z", "1999-11-25T09:30:00.000Z"])
def test_a_clock_years_off_is_taken_and_told(phone: Phone, lot: str, clock: str) -> None:
    """hazard 10"""
    line = phone.write("looked", {"lot": lot, "count": 1}, happened_at=clock)
    reply = told(Browser(phone).push(phone, line, sent_at=clock))
    assert reply["receipts"][0]["result"] == "accepted"
    assert abs(reply["clock_skew_ms"]) > 365 * 24 * 3600 * 1000


@pytest.mark.parametrize("clock", ["0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59-12:00"])
def test_a_clock_at_the_end_of_time_breaks_nothing(phone: Phone, lot: str, clock: str) -> None:
    line = phone.write("looked", {"lot": lot, "count": 1})
    found = problem(Browser(phone).push(phone, line, sent_at=clock), 400, "bad_request")
    assert found["facts"]["where"] == "sent_at"


@pytest.mark.parametrize("clock", ["1900-01-02T00:00:00Z", "2199-12-30T00:00:00Z"])
@pytest.mark.parametrize("happened_at", ["1900-01-02T00:00:00Z", "2199-12-30T00:00:00Z"])
def test_the_farthest_clocks_taken_break_nothing(
    phone: Phone, lot: str, clock: str, happened_at: str
) -> None:
    line = phone.write("looked", {"lot": lot, "count": 1}, happened_at=happened_at)
    assert told(Browser(phone).push(phone, line, sent_at=clock))["receipts"][0]["result"] == "accepted"


@pytest.mark.parametrize(
    ("body", "code", "where"),
    [
        ({"count": -3}, "shape", "body.pieces"),
        ({"count": 1e12}, "number", "body.count"),
        ({"count": 3, "unit": "lb"}, "shape", "body.unit"),
        ({"count": "three"}, "shape", "body.pieces"),
    ],
)
def test_wrong_units_and_absurd_amounts_hold_up_no_other_line(
    phone: Phone, lot: str, body: dict[str, Any], code: str, where: str
) -> None:
    """hazard 7"""
    bad = phone.write("looked", {"lot": lot} | body)
    good = phone.write("looked", {"lot": lot, "count": 1})
    refused, accepted = told(Browser(phone).push(phone, bad, good))["receipts"]
    assert (refused["code"], refused["facts"]["where"]) == (code, where)
    assert refused["message"].endswith(".")
    assert accepted["result"] == "accepted"


def test_lines_that_are_anything_get_receipts_all_the_same(phone: Phone, lot: str) -> None:
    odd: list[Any] = [{"written": None}, {"written": {"id": "x"}}, {"written": {"id": lot}}]
    reply = told(Browser(phone).push(phone, *odd, lines=[None, 1, "x", [], {}, *odd]))
    assert len(reply["receipts"]) == 8
    assert {one["result"] for one in reply["receipts"]} == {"refused"}
    assert reply["receipts"][-1]["id"] == lot


@pytest.mark.parametrize(
    "path",
    [
        "/api/v1/nothing",
        "/api/v1/",
        "/api/v1/sync/pull/",
        "/api/v1/devices/x/revoke",
        "/api/v1/devices/two%0Alines/people",
    ],
)
def test_an_address_that_is_none_is_a_problem_too(phone: Phone, path: str) -> None:
    problem(Browser(phone).get(path), 404, "not_found")


def test_a_method_that_is_none_is_told(phone: Phone) -> None:
    response = Browser(phone).get(PUSH)
    problem(response, 405, "bad_method")
    assert "POST" in response.headers["Allow"]


def test_an_answer_of_another_kind_is_not_to_be_had(phone: Phone) -> None:
    response = Browser(phone).get("/api/v1/session", Accept="text/html")
    assert response.status_code in (200, 406)


def test_a_mistake_of_ours_is_told_without_its_inside(phone: Phone, caplog: pytest.LogCaptureFixture) -> None:
    from unittest import mock

    with mock.patch("api.sync.pull", side_effect=RuntimeError("secret inside")):
        found = problem(Browser(phone).pull(), 500, "fault")
    assert "secret" not in json.dumps(found)
    assert "secret inside" in caplog.text


def test_a_household_that_is_gone_signs_its_phones_out(family: Family) -> None:
    from homestead.ledger.founding import leave_demo

    phone = family.phones["adult"]
    Household.objects.filter(pk=family.household.pk).update(demo=True)
    leave_demo(family.household.pk)
    problem(Browser(phone).pull(), 401, "not_signed_in")
