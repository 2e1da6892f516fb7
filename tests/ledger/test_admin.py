"""The admin pages of the ledger and the household: to look at."""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.utils import timezone

from homestead.household.models import Device
from homestead.ledger.actions import Sheet, note_erased, write_sheet
from homestead.ledger.models import Line
from tests.lines import NOW, Family

PAGES = [
    "household/household",
    "household/person",
    "household/device",
    "household/pairingcode",
    "ledger/line",
    "ledger/record",
    "ledger/recordchange",
    "ledger/sheet",
    "ledger/erased",
]


@pytest.fixture
def admin(family: Family) -> Client:
    write_sheet(family.household.pk, Sheet("roster", "roster", 1, {}, {}), now=NOW)
    note_erased(family.household.pk, [family.household.pk], now=NOW)
    browser = Client(raise_request_exception=True, HTTP_HOST="localhost")
    browser.force_login(User.objects.create_superuser("keeper"))
    return browser


@pytest.mark.parametrize("page", PAGES)
def test_each_page_opens_and_offers_no_change(admin: Client, page: str) -> None:
    answer = admin.get(f"/admin/{page}/")
    assert answer.status_code == 200
    assert f"{page}/add/" not in answer.content.decode()
    assert admin.get(f"/admin/{page}/add/").status_code == 403


def test_a_line_is_shown_and_neither_changed_nor_deleted(admin: Client, family: Family) -> None:
    """invariant 3"""
    line = Line.rows.of(family.household).get(seq=1)
    shown = admin.get(f"/admin/ledger/line/{line.pk}/change/")
    assert line.body_hash in shown.content.decode()
    for path, body in (("change", {"written": "{}"}), ("delete", {"post": "yes"})):
        assert admin.post(f"/admin/ledger/line/{line.pk}/{path}/", body).status_code == 403
    many: dict[str, Any] = {"action": "delete_selected", "_selected_action": [line.pk]}
    admin.post("/admin/ledger/line/", many)
    assert Line.rows.of(family.household).get(seq=1).written == line.written


def test_a_phone_can_be_revoked_and_its_token_is_not_shown(admin: Client, family: Family) -> None:
    """invariant 38"""
    device = family.phones["child"].device
    path = f"/admin/household/device/{device.pk}/change/"
    assert str(device.token_hash) not in admin.get(path).content.decode()
    now = timezone.now()
    admin.post(path, {"revoked_at_0": now.date().isoformat(), "revoked_at_1": "12:00:00", "name": "other"})
    kept = Device.everywhere.get(pk=device.pk)
    assert kept.revoked_at is not None
    assert kept.name == device.name
