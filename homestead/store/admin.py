"""The store's tables to look at. Nothing is changed here: they are worked out from the ledger."""

from __future__ import annotations

from typing import Any

from django.contrib import admin
from django.db import models
from django.http import HttpRequest

from homestead.store.models import (
    Guests,
    Happening,
    Lot,
    OwnCrop,
    OwnFigure,
    Reading,
    Space,
    Vessel,
    WeeklyUse,
    Went,
)


class LookOnly:
    """A change here would be lost with the next replay, so there is none: strike out or edit on a phone."""

    def has_add_permission(self, request: HttpRequest, obj: models.Model | None = None) -> bool:
        return False

    def has_change_permission(self, request: HttpRequest, obj: models.Model | None = None) -> bool:
        return False

    def has_delete_permission(self, request: HttpRequest, obj: models.Model | None = None) -> bool:
        return False


class WorkedOutAdmin(LookOnly, admin.ModelAdmin[Any]):
    """Base of the pages of tables that are worked out."""


@admin.register(Lot)
class LotAdmin(WorkedOutAdmin):
    list_display = ("household", "code", "crop", "variety", "space", "pieces", "grams", "stands", "finished")
    list_filter = ("household", "stands", "finished", "crop")
    search_fields = ("code", "variety", "label")


@admin.register(Happening)
class HappeningAdmin(WorkedOutAdmin):
    list_display = ("household", "day", "kind", "lot", "pieces", "grams", "person")
    list_filter = ("household", "kind")
    date_hierarchy = "day"


@admin.register(Went)
class WentAdmin(WorkedOutAdmin):
    list_display = ("household", "day", "crop", "way", "grams", "pieces", "animals", "accident")
    list_filter = ("household", "way", "accident")
    date_hierarchy = "day"


@admin.register(Reading)
class ReadingAdmin(WorkedOutAdmin):
    list_display = ("household", "when", "space", "temp_c", "rh_pct", "low_c", "high_c")
    list_filter = ("household", "space")


@admin.register(Space)
class SpaceAdmin(WorkedOutAdmin):
    list_display = ("household", "name", "kind", "order", "archived")
    list_filter = ("household", "archived")


admin.site.register([OwnCrop, WeeklyUse, Guests, Vessel, OwnFigure], WorkedOutAdmin)
