from __future__ import annotations

from django.db import models


class Beat(models.Model):
    """One row: when the jobs last showed that they are alive."""

    at = models.DateTimeField()

    def __str__(self) -> str:
        return f"alive at {self.at:%Y-%m-%d %H:%M:%S}"


class Run(models.Model):
    """One piece of work for one household: when it was asked for, when it last ran, what came of it."""

    class Result(models.TextChoices):
        NEVER = "never"
        RUNNING = "running"
        DONE = "done"
        FAILED = "failed"

    household = models.ForeignKey("household.Household", on_delete=models.CASCADE, related_name="+")
    what = models.CharField(max_length=40)
    asked_at = models.DateTimeField(null=True)
    started_at = models.DateTimeField(null=True)
    finished_at = models.DateTimeField(null=True)
    took_ms = models.PositiveIntegerField(default=0)
    result = models.CharField(max_length=8, choices=Result, default=Result.NEVER)
    why = models.CharField(max_length=300, blank=True)
    as_of = models.BigIntegerField(default=0)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["household", "what"], name="one_run_of_each_work")]

    def __str__(self) -> str:
        return f"{self.what}: {self.result}"
