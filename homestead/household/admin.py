"""For whoever runs the server: families, people and phones. Hashes of secrets are not shown."""

from __future__ import annotations

from typing import Any

from django.contrib import admin
from django.http import HttpRequest

from homestead.household.look_only import LookOnly
from homestead.household.models import (
    Device,
    Household,
    MinderLink,
    PairingCode,
    Person,
)


@admin.register(Household)
class HouseholdAdmin(LookOnly):
    list_display = ("name", "zone", "country", "demo", "epoch", "made_at")
    list_filter = ("demo",)
    search_fields = ("name", "id")


@admin.register(Person)
class PersonAdmin(LookOnly):
    list_display = ("name", "household", "role", "archived", "until")
    list_filter = ("role", "archived")
    list_select_related = ("household",)
    search_fields = ("name", "uuid")


@admin.register(Device)
class DeviceAdmin(LookOnly):
    """A phone can be revoked here too, by saying when; nothing else of it is changed."""

    list_display = ("name", "household", "last_seen", "revoked_at", "clock_skew_ms")
    list_select_related = ("household",)
    fields = (
        *("household", "name", "people", "code_from", "code_to", "highest_no"),
        *("renewed_from", "clock_skew_ms", "last_seen", "revoked_at"),
    )
    readonly_fields = tuple(name for name in fields if name != "revoked_at")

    def has_change_permission(self, request: HttpRequest, obj: Any | None = None) -> bool:
        return admin.ModelAdmin.has_change_permission(self, request, obj)


@admin.register(PairingCode)
class PairingCodeAdmin(LookOnly):
    list_display = ("household", "made_at", "ends_at", "tries", "used_at")
    list_select_related = ("household",)
    exclude = ("code_hash", "finder")


@admin.register(MinderLink)
class MinderLinkAdmin(LookOnly):
    list_display = ("household", "from_day", "until", "opened", "ended_at")
    list_select_related = ("household",)
    exclude = ("token_hash",)
