"""The household page is told of the work that runs by itself, each family of its own alone."""

from __future__ import annotations

import datetime as dt

import pytest
from django.test import Client
from django.utils import timezone

from homestead.household.models import Household
from homestead.jobs.models import Beat, Run
from homestead.ledger.founding import found_household

pytestmark = pytest.mark.django_db(databases=["default", "queue"])
NOW = timezone.now()


def signed_in(name: str) -> tuple[Client, Household]:
    fields = {"name": name, "zone": "Europe/Vienna"}
    let_in = found_household(fields, "Keeper", "phone", key=None, trusted=True, now=NOW)
    client = Client()
    client.cookies["rounds_device"] = let_in.token
    return client, let_in.device.household


def test_it_tells_what_never_ran() -> None:
    client, _ = signed_in("Invented")
    told = client.get("/api/v1/jobs").json()
    # two lines made the household: its keeper and itself
    names = ("roster", "tally", "outlook", "rooms", "year", "remind")
    assert told["jobs"] == [{"name": name, "ok": False, "behind": 2} for name in names]
    assert told["working"] is False
    assert "last_beat" not in told


def test_it_tells_when_work_last_ran_and_how_long_it_took() -> None:
    client, household = signed_in("Invented")
    Beat.objects.create(pk=1, at=timezone.now())
    ran = dt.datetime(2026, 11, 25, 2, 0, 3, tzinfo=dt.UTC)
    Run.everywhere.create(
        household=household, what="roster", result="done", finished_at=ran, done_at=ran, took_ms=1250, as_of=1
    )
    told = client.get("/api/v1/jobs").json()
    roster = told["jobs"][0]
    assert (roster["ok"], roster["seconds"]) == (True, 1.25)
    assert roster["ended_at"] == roster["figures_as_of"] == "2026-11-25T02:00:03.000Z"
    assert told["working"] is True


def test_it_tells_why_work_failed() -> None:
    client, household = signed_in("Invented")
    Run.everywhere.create(
        household=household, what="tally", result="failed", why="ValueError: no", finished_at=NOW
    )
    tally = client.get("/api/v1/jobs").json()["jobs"][1]
    assert (tally["ok"], tally["why"]) == (False, "ValueError: no")
    assert "figures_as_of" not in tally


def test_another_family_s_work_is_not_told() -> None:
    client, _ = signed_in("Invented")
    _, other = signed_in("Other")
    Run.everywhere.create(household=other, what="roster", result="failed", why="theirs", finished_at=NOW)
    assert "why" not in client.get("/api/v1/jobs").json()["jobs"][0]


def test_who_is_not_signed_in_is_told_nothing() -> None:
    answer = Client().get("/api/v1/jobs")
    assert answer.status_code == 401
    assert answer.json()["code"] == "not_signed_in"
