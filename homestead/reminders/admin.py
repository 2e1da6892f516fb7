"""For whoever runs the server: who is reminded how. Addresses and secrets are not shown."""

from __future__ import annotations

from django.contrib import admin

from homestead.household.look_only import LookOnly
from homestead.reminders.models import PushPhone, Reminding


@admin.register(Reminding)
class RemindingAdmin(LookOnly):
    list_display = ("household", "person", "mail_on", "at", "told_on")
    list_select_related = ("household",)
    exclude = ("calendar_hash", "mail_to")


@admin.register(PushPhone)
class PushPhoneAdmin(LookOnly):
    list_display = ("household", "person", "made_at")
    list_select_related = ("household",)
    fields = ("household", "person", "device", "made_at")
