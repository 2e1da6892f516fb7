from __future__ import annotations

from typing import ClassVar

from django.db import models

from homestead.household.rows import OfHousehold


class Beat(models.Model):
    """One row: when the jobs last showed that they are alive."""

    at = models.DateTimeField()

    objects: ClassVar[models.Manager[Beat]] = models.Manager()

    def __str__(self) -> str:
        return f"alive at {self.at:%Y-%m-%d %H:%M:%S}"


class Run(OfHousehold):
    """One piece of work for one household: when it was asked for, when it last ran, what came of it."""

    class Result(models.TextChoices):
        NEVER = "never"
        DONE = "done"
        FAILED = "failed"

    what = models.CharField(max_length=40)
    asked_at = models.DateTimeField(null=True, help_text="waits in the queue since then")
    started_at = models.DateTimeField(null=True, help_text="set while it runs: a lease")
    finished_at = models.DateTimeField(null=True)
    done_at = models.DateTimeField(null=True, help_text="last finished well")
    took_ms = models.PositiveIntegerField(default=0)
    result = models.CharField(max_length=8, choices=Result, default=Result.NEVER)
    why = models.CharField(max_length=300, blank=True, default="")
    failures = models.PositiveSmallIntegerField(default=0, help_text="in a row")
    as_of = models.PositiveBigIntegerField(default=0, help_text="seq of the last line it had read")

    class Meta:
        constraints = [models.UniqueConstraint(fields=["household", "what"], name="jobs_run_of_each_work")]

    def __str__(self) -> str:
        return f"{self.what}: {self.result}"
