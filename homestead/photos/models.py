"""What photos a household has. The bytes lie in the photo storage, named by household and hash."""

from __future__ import annotations

from django.db import models

from homestead.household.rows import OfHousehold


class Photo(OfHousehold):
    """One photo. `sha256` is of the bytes as the phone sent them; what is kept is drawn anew."""

    sha256 = models.CharField(max_length=64)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    kept_bytes = models.PositiveIntegerField()
    received_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=("household", "sha256"), name="photo_once_a_household")]

    def __str__(self) -> str:
        return f"{self.sha256[:8]} {self.width} x {self.height}"
