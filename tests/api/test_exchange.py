"""Push, pull and missing, over HTTP."""

from __future__ import annotations

import json
import re
import uuid
from unittest import mock

import pytest
from django.test import override_settings
from django.utils import timezone

from homestead.household.phones import renew
from homestead.ledger import actions
from homestead.ledger.actions import begin_epoch, note_erased
from homestead.ledger.models import Line
from tests.api.browser import Browser, problem, told
from tests.lines import NOW, Family, Phone, new_id


@pytest.fixture
def phone(family: Family) -> Phone:
    return family.phones["adult"]


def test_a_push_answers_each_line_in_its_order(phone: Phone, lot: str) -> None:
    good, bad = (
        phone.write("looked", {"lot": lot, "count": 1}),
        phone.write("looked", {"lot": lot, "count": -1}),
    )
    reply = told(Browser(phone).push(phone, good, bad, good))
    assert [(one["id"], one["result"]) for one in reply["receipts"]] == [
        (good["id"], "accepted"),
        (bad["id"], "refused"),
        (good["id"], "duplicate"),
    ]
    assert reply["receipts"][0].keys() == {"id", "result", "seq"}
    assert reply["receipts"][1].keys() == {"id", "result", "code", "message", "permanent", "facts"}
    assert reply["codes"] == {"from": phone.device.code_from, "to": phone.device.code_to}
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z", reply["now"])
    assert "renew" not in reply


def test_a_reply_that_never_came_is_made_good_by_sending_again(phone: Phone, lot: str) -> None:
    """hazard 1: the server breaks between commit and reply; one row, and the second push says which."""
    browser, line = Browser(phone), phone.write("looked", {"lot": lot, "count": 1})
    with mock.patch("api.sync._told_push", side_effect=ConnectionError("gone")):
        problem(browser.push(phone, line), 500, "fault")
    assert Line.everywhere.filter(uuid=line["id"]).count() == 1
    [receipt] = told(browser.push(phone, line))["receipts"]
    assert receipt["result"] == "duplicate"
    assert Line.everywhere.filter(uuid=line["id"]).count() == 1


def test_two_edits_of_one_field_are_told_in_the_receipt(family: Family, space: str) -> None:
    one, two = family.phones["adult"], family.phones["keeper"]
    Browser(one).push(one, one.edit("space", space, {"name": "Attic"}, base=1))
    later = {"happened_at": "2026-11-25T11:00:00.000+01:00"}
    reply = told(Browser(two).push(two, two.edit("space", space, {"name": "Garret"}, base=1, **later)))
    [receipt] = reply["receipts"]
    assert receipt["rev"] == 3
    [conflict] = receipt["conflicts"]
    assert (conflict["standing"], conflict["other"], conflict["other_person"]) == (
        "Garret",
        "Attic",
        one.writer,
    )


def test_a_pull_gives_the_rows_as_they_were_pushed(phone: Phone, lot: str) -> None:
    browser = Browser(phone)
    head = told(browser.pull())["next"]
    line = phone.write("looked", {"lot": lot, "count": 1})
    browser.push(phone, line)
    page = told(browser.pull(head))
    [row] = page["rows"]
    assert (row["type"], row["written"]) == ("entry", line)
    assert page["next"] == page["head"] == f"1.{row['seq']}"
    assert page["more"] is False


def test_pages_follow_each_other(phone: Phone, lot: str) -> None:
    browser, after, found = Browser(phone), "0", []
    while True:
        page = told(browser.pull(after, limit=3))
        found += [row["seq"] for row in page["rows"]]
        after = page["next"]
        if not page["more"]:
            break
    assert found == list(range(1, len(found) + 1))
    assert after == page["head"]


@pytest.mark.parametrize(
    "after", ["x", "1", "1.", ".1", "-1.3", "1.2.3", "1.9999999999999999", "1.1;--", "%00"]
)
def test_a_cursor_that_is_none_is_told(phone: Phone, after: str) -> None:
    problem(Browser(phone).pull(after), 400, "bad_cursor")


@pytest.mark.parametrize("limit", ["0", "501", "x", "-1", "99999"])
def test_a_limit_out_of_bounds_is_told(phone: Phone, limit: str) -> None:
    problem(Browser(phone).get(f"/api/v1/sync/pull?limit={limit}"), 400, "bad_request")


def test_a_cursor_of_another_epoch_is_reset_and_then_all_is_pulled_anew(phone: Phone, lot: str) -> None:
    """hazard 12"""
    browser = Browser(phone)
    cursor = told(browser.pull())["next"]
    begin_epoch(phone.device.household_id)
    reset = problem(browser.pull(cursor), 409, "reset")
    assert reset["facts"]["epoch"] == 2
    assert told(browser.pull("0"))["next"].startswith("2.")


def test_missing_lines_are_told_apart_from_erased_ones(phone: Phone, lot: str) -> None:
    """hazard 12"""
    erased, unknown = new_id(), new_id()
    note_erased(phone.device.household_id, [uuid.UUID(erased)], now=NOW)
    reply = told(Browser(phone).post("/api/v1/sync/missing", {"ids": [lot, erased, unknown]}))
    assert reply == {"missing": [unknown], "erased": [erased]}


def test_a_minders_phone_pushes_and_pulls_nothing(family: Family, lot: str) -> None:
    phone = family.phones["minder"]
    browser = Browser(phone)
    problem(browser.pull(), 403, "minder_pulls_nothing")
    [receipt] = told(browser.push(phone, phone.write("looked", {"lot": lot, "count": 1})))["receipts"]
    assert receipt["result"] == "accepted"


def test_a_copied_phone_goes_on_as_a_new_device(phone: Phone, lot: str) -> None:
    """hazard 11, invariant 24"""
    one, two = Browser(phone), Browser(phone)
    first, second = (
        phone.write("looked", {"lot": lot, "count": 1}),
        phone.write("looked", {"lot": lot, "count": 2}),
    )
    second["device_no"] = first["device_no"]
    assert "renew" not in told(one.push(phone, first))
    reply = told(two.push(phone, second))
    assert reply["receipts"][0]["result"] == "accepted"
    renewed = reply["renew"]["device"]
    assert renewed != str(phone.device.pk)
    assert reply["codes"]["from"] > phone.device.code_to
    later = phone.write("looked", {"lot": lot, "count": 3}, device=renewed)
    after = told(two.push(phone, later, device=renewed))
    assert after["receipts"][0]["result"] == "accepted"
    assert "renew" not in after
    assert "renew" not in told(one.push(phone, first))


def test_a_copied_phone_that_missed_its_new_name_is_told_again(phone: Phone, lot: str) -> None:
    """hazard 11: the cookie came, but the phone was closed before it took the name down."""
    browser = Browser(phone)
    household = phone.device.household
    let_in = renew(household, phone.device, NOW)
    browser.client.cookies["rounds_device"] = let_in.token
    reply = told(browser.push(phone, phone.write("looked", {"lot": lot, "count": 1})))
    assert reply["renew"] == {"device": str(let_in.device.pk)}


def test_a_push_in_the_name_of_another_phone_is_not_taken(family: Family, lot: str) -> None:
    phone, other = family.phones["adult"], family.phones["keeper"]
    line = phone.write("looked", {"lot": lot, "count": 1})
    problem(Browser(other).push(phone, line), 401, "other_phone")
    assert not Line.everywhere.filter(uuid=line["id"]).exists()


@override_settings(OLDEST_BUILD=7)
def test_an_old_build_is_asked_to_renew_itself(phone: Phone, lot: str) -> None:
    """invariant 41"""
    line = phone.write("looked", {"lot": lot, "count": 1})
    response = Browser(phone).push(phone, line, build="6")
    problem(response, 426, "update_needed")
    assert response.headers["Upgrade"]
    assert told(Browser(phone).push(phone, line, build="7"))["receipts"][0]["result"] == "accepted"


def test_the_skew_of_a_phones_clock_is_told(phone: Phone) -> None:
    """hazard 10"""
    with mock.patch.object(timezone, "now", return_value=NOW):
        reply = told(Browser(phone).push(phone, sent_at="2028-11-25T09:30:00.000Z"))
    assert reply["clock_skew_ms"] == -731 * 24 * 3600 * 1000


def test_a_busy_database_asks_to_try_again(phone: Phone, lot: str) -> None:
    """hazard 32"""
    from django.db import OperationalError

    with mock.patch.object(actions, "lock", side_effect=OperationalError("database is locked")):
        response = Browser(phone).push(phone, phone.write("looked", {"lot": lot, "count": 1}))
    problem(response, 503, "busy")
    assert int(response.headers["Retry-After"]) > 0


def test_what_goes_by_word_of_mouth_is_never_kept_by_a_cache(phone: Phone) -> None:
    assert Browser(phone).pull().headers["Cache-Control"] == "no-store"


def test_a_pulled_page_is_whole_json_with_any_text_in_it(phone: Phone, space: str) -> None:
    browser = Browser(phone)
    name = 'Zoë\'s "cold" room \\ \u2028 </script> \U0001f955'
    browser.push(phone, phone.edit("space", space, {"note": name}, base=1))
    page = json.loads(browser.pull().content)
    assert page["rows"][-1]["outcome"]["values"]["note"] == name
