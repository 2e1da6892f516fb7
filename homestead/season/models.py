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
