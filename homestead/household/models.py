"""Families, their people, their phones, and the codes by which a phone is let in."""

from __future__ import annotations

import uuid
from typing import ClassVar

from django.db import models

from homestead.household.roles import ROLES
from homestead.household.rows import OfHousehold, Thing

#: how many lot numbers a phone is given at a time
CODE_BLOCK = 40

_HEMISPHERES = [("north", "north"), ("south", "south")]
_UNITS = [("metric", "kg, °C"), ("imperial", "lb, °F")]


class Household(models.Model):
    """One family. `next_seq` is the next number of its ledger, given only under this row's lock."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    name = models.CharField(max_length=100)
    zone = models.CharField(max_length=64, default="UTC", help_text="IANA name")
    hemisphere = models.CharField(max_length=5, default="north", choices=_HEMISPHERES)
    country = models.CharField(
        max_length=6, blank=True, default="", help_text="ISO 3166-1 or -2; empty: not set"
    )
    units = models.CharField(max_length=8, default="metric", choices=_UNITS)
    week_start = models.CharField(max_length=8, default="monday")
    language = models.CharField(max_length=8, default="en")
    code_prefix = models.CharField(max_length=4, blank=True, default="")
    demo = models.BooleanField(default=False, help_text="invented, and marked so wherever it is shown")

    epoch = models.PositiveIntegerField(default=1)
    next_seq = models.PositiveBigIntegerField(default=1)
    next_code = models.PositiveIntegerField(default=1)
    made_at = models.DateTimeField(auto_now_add=True)

    objects: ClassVar[models.Manager[Household]] = models.Manager()

    def __str__(self) -> str:
        return self.name


class Person(Thing):
    """Somebody of the household; set by edits of the record `person`."""

    name = models.CharField(max_length=100)
    role = models.CharField(max_length=8, choices=[(role, role) for role in ROLES])
    minutes_a_week = models.PositiveIntegerField(null=True)
    away_from = models.DateField(null=True)
    away_until = models.DateField(null=True)
    may_decide = models.BooleanField(default=False, help_text="an older child: decides, and sends to animals")
    archived = models.BooleanField(default=False)
    until = models.DateField(null=True, help_text="a minder's last day")
    born = models.PositiveSmallIntegerField(null=True, help_text="year")
    cannot = models.JSONField(default=list, help_text="needs of chores they are not asked for")
    weekdays = models.JSONField(default=list, help_text="days they can give; empty: all")
    picture = models.CharField(max_length=32, blank=True, default="", help_text="a crop's drawing")

    def __str__(self) -> str:
        return self.name


class Device(OfHousehold):
    """A phone that was let in. The token itself is on the phone alone."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    name = models.CharField(max_length=100)
    #: SHA-256; none: signed out (an empty text would not be unique)
    token_hash = models.CharField(max_length=64, unique=True, null=True)  # noqa: DJ001
    people = models.JSONField(default=list, help_text="ids of those who may write on it, the holder first")
    code_from = models.PositiveIntegerField(default=0)
    code_to = models.PositiveIntegerField(default=0)
    highest_code = models.PositiveIntegerField(default=0, help_text="highest lot number seen of the block")
    highest_no = models.PositiveBigIntegerField(default=0, help_text="highest device_no seen")
    renewed_from = models.ForeignKey("self", null=True, on_delete=models.SET_NULL, related_name="+")
    clock_skew_ms = models.BigIntegerField(default=0, help_text="server less phone, at the last push")
    last_seen = models.DateTimeField(null=True)
    revoked_at = models.DateTimeField(null=True)
    made_at = models.DateTimeField(auto_now_add=True)

    def __str__(self) -> str:
        return self.name


class PairingCode(OfHousehold):
    """Lets one phone in, once. `finder` is the code's first part, the whole is kept hashed."""

    finder = models.CharField(max_length=3, db_index=True)
    code_hash = models.CharField(max_length=64)
    people = models.JSONField(default=list)
    made_by = models.ForeignKey(Device, null=True, on_delete=models.CASCADE, related_name="+")
    made_at = models.DateTimeField()
    ends_at = models.DateTimeField()
    tries = models.PositiveSmallIntegerField(default=0)
    used_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return f"{self.finder}…"


class WrongTry(models.Model):
    """A code that fitted nothing, typed at some address: counted, so that guessing ends."""

    address_hash = models.CharField(max_length=64, db_index=True)
    at = models.DateTimeField()

    def __str__(self) -> str:
        return self.address_hash[:8]


class FirstKey(models.Model):
    """A key printed at the first start, good for making one household."""

    key_hash = models.CharField(max_length=64, unique=True)
    made_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return self.key_hash[:8]


class MinderLink(OfHousehold):
    """A week in the hands of somebody who minds the place: what the link shows, from when until when.

    The token itself is in the link alone. Not worked out from the ledger: a link is no fact of the store.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    person = models.UUIDField(help_text="the minder, as in the lines")
    token_hash = models.CharField(max_length=64, unique=True, help_text="SHA-256")
    from_day = models.DateField()
    until = models.DateField()
    home = models.JSONField(default=list, help_text="lots of which sound pieces may be taken home")
    way = models.CharField(max_length=500, blank=True, default="", help_text="the way to the place")
    note = models.CharField(max_length=500, blank=True, default="")
    opened = models.PositiveSmallIntegerField(default=0, help_text="phones it was opened on")
    made_at = models.DateTimeField()
    ended_at = models.DateTimeField(null=True, help_text="ended at once by the keeper")

    def __str__(self) -> str:
        return f"{self.from_day} to {self.until}"
