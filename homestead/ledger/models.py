"""The ledger's tables. `Line` is the truth; everything else here can be worked out from it again.

Only this package reads or writes these tables.
"""

from __future__ import annotations

from django.db import models
from django.db.models import Q

from homestead.household.rows import OfHousehold


class Line(OfHousehold):
    """One entry or edit as it was written, for ever: triggers of the database refuse to change or delete it.

    `written` is the canonical text (RFC 8785), `body_hash` its SHA-256. `given` is what the server had to add
    (a lot's code), as JSON. `recovered_by` is the phone that brought another phone's line back after a reset.
    """

    seq = models.PositiveBigIntegerField()
    uuid = models.UUIDField()
    kind = models.CharField(max_length=40)
    schema = models.PositiveSmallIntegerField()
    device = models.UUIDField()
    device_no = models.PositiveBigIntegerField()
    person = models.UUIDField()
    happened_at = models.DateTimeField()
    received_at = models.DateTimeField()
    clock_skew_ms = models.BigIntegerField()
    strikes = models.UUIDField(null=True)
    written = models.TextField()
    body_hash = models.CharField(max_length=64)
    given = models.TextField(blank=True, default="")
    recovered_by = models.UUIDField(null=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["household", "uuid"], name="ledger_line_once"),
            models.UniqueConstraint(fields=["household", "seq"], name="ledger_line_seq"),
        ]
        indexes = [
            models.Index(fields=["household", "device", "device_no"], name="ledger_line_device"),
            models.Index(
                fields=["household", "strikes"],
                name="ledger_line_strikes",
                condition=Q(strikes__isnull=False),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.seq} {self.kind}"


class Feed(OfHousehold):
    """What phones pull: one ready text a row, in the order of `seq`. Only a sheet's older row ever leaves."""

    seq = models.PositiveBigIntegerField()
    payload = models.TextField()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["household", "seq"], name="ledger_feed_seq")]

    def __str__(self) -> str:
        return str(self.seq)


class Sheet(OfHousehold):
    """The newest sheet of each key."""

    key = models.CharField(max_length=200)
    kind = models.CharField(max_length=40)
    seq = models.PositiveBigIntegerField()
    as_of = models.PositiveBigIntegerField()
    made_at = models.DateTimeField()
    content_hash = models.CharField(max_length=64, help_text="SHA-256 of inputs and content")
    inputs = models.JSONField()
    content = models.JSONField()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["household", "key"], name="ledger_sheet_key")]

    def __str__(self) -> str:
        return self.key


class Record(OfHousehold):
    """A description as it stands. `fields` tells of each field what last set it: see `merge.Stand`."""

    type = models.CharField(max_length=40)
    uuid = models.UUIDField()
    rev = models.PositiveIntegerField()
    values = models.JSONField(default=dict)
    fields = models.JSONField(default=dict)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["household", "type", "uuid"], name="ledger_record_once")
        ]

    def __str__(self) -> str:
        return f"{self.type} {self.uuid}"


class RecordChange(OfHousehold):
    """History: each field each edit set, whether its value stood or was passed over for a later one."""

    type = models.CharField(max_length=40)
    uuid = models.UUIDField()
    rev = models.PositiveIntegerField()
    field = models.CharField(max_length=60)
    value = models.JSONField(null=True)
    stood = models.BooleanField()
    line = models.UUIDField(help_text="the edit, or the entry that began the record")
    person = models.UUIDField()
    at = models.DateTimeField()

    class Meta:
        indexes = [models.Index(fields=["household", "type", "uuid", "rev"], name="ledger_record_change")]

    def __str__(self) -> str:
        return f"{self.type} {self.field} {self.rev}"


class Birth(OfHousehold):
    """A lot, suspect or decision that exists since a line, struck or not."""

    thing = models.CharField(max_length=20)
    uuid = models.UUIDField()
    seq = models.PositiveBigIntegerField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["household", "thing", "uuid"], name="ledger_birth_once")
        ]

    def __str__(self) -> str:
        return f"{self.thing} {self.uuid}"


class Touch(OfHousehold):
    """Which lines bear on which lot: for folding it again, and for the life of a lot."""

    thing = models.CharField(max_length=20, default="lot")
    uuid = models.UUIDField()
    seq = models.PositiveBigIntegerField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["household", "thing", "uuid", "seq"], name="ledger_touch_once")
        ]
        indexes = [models.Index(fields=["household", "seq"], name="ledger_touch_seq")]

    def __str__(self) -> str:
        return f"{self.thing} {self.uuid} {self.seq}"


class Erased(OfHousehold):
    """A line erased on a person's word: its id is never taken again."""

    uuid = models.UUIDField()
    erased_at = models.DateTimeField()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["household", "uuid"], name="ledger_erased_once")]

    def __str__(self) -> str:
        return str(self.uuid)


class Leaving(models.Model):
    """The one way past the triggers: lines of a household can be deleted while it stands here.

    Written and taken away again by `actions.leave_demo` and by the teardown of tests, by nobody else.
    """

    household = models.UUIDField(primary_key=True)

    def __str__(self) -> str:
        return str(self.household)
