"""Plays a recorded run of the simulator to the real views: same requests, same moments, same losses."""

from __future__ import annotations

import datetime as dt
import json
import subprocess
import uuid
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from django.db import transaction
from django.test import Client
from django.utils import timezone

from homestead.household.models import Device, Household
from homestead.household.tokens import token_hash
from homestead.jobs import node
from homestead.ledger.actions import Sheet, begin_epoch, write_down, write_sheet

Json = dict[str, Any]
SIMULATOR = Path(__file__).parents[1] / "ledger_simulator"


def recorded(first: int, count: int) -> Iterator[Json]:
    """Runs as the exporter prints them, made anew by Node each time."""
    command = [str(node.NODE), "--import", "./bare_imports.js", "export_schedules.ts", str(first), str(count)]
    printed = subprocess.run(command, cwd=SIMULATOR, capture_output=True, text=True, check=True)
    for line in printed.stdout.splitlines():
        yield json.loads(line)


class Played:
    """The household of one run in the real database. `differences` are answers that were not alike."""

    def __init__(self, run: Json, monkeypatch: pytest.MonkeyPatch) -> None:
        self.run = run
        self.differences: list[str] = []
        self.asked = 0
        self._now = timezone.now()
        self._savepoint = ""
        self._client = Client()
        monkeypatch.setattr(timezone, "now", lambda: self._now)
        self._found()

    def _found(self) -> None:
        founding, devices = self.run["founding"], self.run["devices"]
        household = Household.objects.create(
            id=uuid.UUID(self.run["household"]), name="Simulated", zone="Europe/Vienna"
        )
        self.household = household.pk
        first_at = self.run["events"][0]["at"]
        receipts = write_down(household.pk, founding, now=dt.datetime.fromisoformat(first_at))
        assert {receipt.result for receipt in receipts} == {"accepted"}
        Household.objects.filter(pk=household.pk).update(next_code=devices[-1]["to"] + 1)
        for device in devices:
            Device.everywhere.create(
                id=uuid.UUID(device["id"]),
                household=household,
                name="phone",
                people=device["people"],
                token_hash=token_hash(device["id"]),
                code_from=device["from"],
                code_to=device["to"],
                highest_code=device["from"] - 1,
            )

    def play(self) -> None:
        for event in self.run["events"]:
            if "at" in event:
                self._now = dt.datetime.fromisoformat(event["at"])
            getattr(self, f"_{event['event']}")(event)

    def _sheet(self, event: Json) -> None:
        text = Sheet(event["key"], "roster", event["as_of"], {}, event["content"])
        write_sheet(self.household, text, now=self._now)

    def _signed_in(self, event: Json) -> None:
        known = token_hash(event["device"]) if event["signed_in"] else None
        Device.rows.of(self.household).filter(pk=event["device"]).update(token_hash=known)

    def _backup(self, event: Json) -> None:
        self._savepoint = transaction.savepoint()

    def _restore(self, event: Json) -> None:
        """Back to the backup, but for what it knows of phones: pairing them anew is another story."""
        phones = list(Device.rows.of(self.household).values())
        before = Household.objects.get(pk=self.household)
        transaction.savepoint_rollback(self._savepoint)
        for phone in phones:
            Device.rows.of(self.household).filter(pk=phone.pop("id")).update(**phone)
        Household.objects.filter(pk=self.household).update(next_code=before.next_code, epoch=before.epoch)
        begin_epoch(self.household)

    def _asked(self, event: Json) -> None:
        self.asked += 1
        self._client.cookies["rounds_device"] = event["device"]
        path, body = event["path"], event.get("body")
        if body is None:
            reply = self._client.get(path)
        else:
            reply = self._client.post(path, json.dumps(body), content_type="application/json")
        expected, told = (
            told_alike(event["status"], event["answer"]),
            told_alike(reply.status_code, reply.json()),
        )
        if expected != told:
            place = f"seed {self.run['seed']}, request {self.asked}, {path}"
            self.differences.append(f"{place}:\n  model {json.dumps(expected)}\n  views {json.dumps(told)}")


def told_alike(status: int, answer: Json) -> Json:
    """What of an answer phones act upon: sentences, and what only a person reads, are left out."""
    if status >= 400:
        return {"status": status, "code": answer["code"]}
    told: Json = {
        "status": status,
        **{name: answer[name] for name in answer if name not in ("receipts", "rows")},
    }
    if "receipts" in answer:
        told["receipts"] = [_receipt(receipt) for receipt in answer["receipts"]]
    if "rows" in answer:
        told["rows"] = answer["rows"]
    return told


def _receipt(receipt: Json) -> Json:
    acted_upon = ("id", "result", "seq", "rev", "code", "permanent")
    told = {name: receipt[name] for name in acted_upon if name in receipt}
    named = receipt.get("facts", {}).get("id")
    conflicts = receipt.get("conflicts")
    return told | ({"names": named} if named else {}) | ({"conflicts": conflicts} if conflicts else {})
