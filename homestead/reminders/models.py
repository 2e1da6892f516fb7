"""How each person wishes to be reminded. Wishes, not facts of the store: not in the ledger, not in the feed.

An address for mail and the secrets of a push are told to no phone but the one that gave them.
"""

from __future__ import annotations

import datetime as dt

from django.db import models
from django.db.models import CASCADE, ForeignKey, UniqueConstraint

from homestead.household.models import Device
from homestead.household.rows import OfHousehold

#: when the day's summary comes, and the hours in which nothing does. Ours, no source
SUMMARY_AT = dt.time(7, 0)
QUIET_FROM = dt.time(20, 0)
QUIET_UNTIL = dt.time(6, 30)


class Reminding(OfHousehold):
    """One person's wishes, and what they were told last, so that nothing is told twice."""

    person = models.UUIDField(help_text="as in the lines")
    #: SHA-256 of the link's token; none: no link, or it was taken back (an empty text would not be unique)
    calendar_hash = models.CharField(max_length=64, unique=True, null=True)  # noqa: DJ001
    calendar_made_at = models.DateTimeField(null=True)
    mail_to = models.EmailField(blank=True, default="")
    mail_on = models.BooleanField(default=False)
    at = models.TimeField(default=SUMMARY_AT, help_text="when the day's summary comes")
    quiet_from = models.TimeField(default=QUIET_FROM)
    quiet_until = models.TimeField(default=QUIET_UNTIL)
    told_on = models.DateField(null=True, help_text="the day of the last summary")
    told_keys = models.JSONField(default=list, help_text="chores before dark that it named")
    tonight_told_on = models.DateField(null=True, help_text="the day told of what came up since for tonight")

    class Meta:
        constraints = [UniqueConstraint(fields=["household", "person"], name="reminders_reminding_once")]

    def __str__(self) -> str:
        return str(self.person)


class PushPhone(OfHousehold):
    """Where a browser is reached for one person, as it said itself (RFC 8030, RFC 8291)."""

    device = ForeignKey(Device, CASCADE, related_name="+")
    person = models.UUIDField()
    endpoint = models.URLField(max_length=1000)
    p256dh = models.CharField(max_length=100, help_text="the browser's public key, base64url")
    auth = models.CharField(max_length=40, help_text="its authentication secret, base64url")
    made_at = models.DateTimeField()

    class Meta:
        constraints = [UniqueConstraint(fields=["device", "person"], name="reminders_pushphone_once")]

    def __str__(self) -> str:
        return str(self.person)
