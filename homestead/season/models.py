"""What the season keeps beside its sheets."""

from __future__ import annotations

from django.db import models
from django.db.models import UniqueConstraint

from homestead.household.rows import OfHousehold


class Learnt(OfHousehold):
    """What a household's finished lots say, worked out once for as long as they are the same."""

    mark = models.CharField(max_length=16)
    said = models.JSONField(default=list)

    class Meta:
        constraints = [UniqueConstraint(fields=["household"], name="season_learnt_once")]

    def __str__(self) -> str:
        return self.mark


class Forecast(OfHousehold):
    """A forecast of one lot as it was made, one a week, and what came of it.

    `told` and `plain` hold [P10, P50, P90] or a chance by quantity, ours and the handbook's alone; `happened`
    a number by quantity, once it is known.
    """

    lot = models.UUIDField()
    crop = models.CharField(max_length=64)
    day = models.DateField()
    inputs = models.JSONField(default=dict, help_text="versions of tables and sums, number of the ledger")
    told = models.JSONField(default=dict)
    plain = models.JSONField(default=dict)
    happened = models.JSONField(default=dict)

    class Meta:
        constraints = [UniqueConstraint(fields=["household", "lot", "day"], name="season_forecast_once")]

    def __str__(self) -> str:
        return f"{self.crop} {self.day}"
