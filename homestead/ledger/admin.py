"""The ledger to look at: its lines, records and sheets. Nothing can be changed here, nor by other ways."""

from __future__ import annotations

from django.contrib import admin

from homestead.household.look_only import LookOnly
from homestead.ledger.models import Erased, Line, Record, RecordChange, Sheet


@admin.register(Line)
class LineAdmin(LookOnly):
    list_display = ("household", "seq", "kind", "happened_at", "received_at", "device_no", "person")
    list_display_links = ("seq",)
    list_filter = ("household", "kind")
    list_select_related = ("household",)
    search_fields = ("uuid", "device", "person", "strikes")
    ordering = ("household", "-seq")
    show_full_result_count = False


@admin.register(Record)
class RecordAdmin(LookOnly):
    list_display = ("household", "type", "uuid", "rev")
    list_filter = ("household", "type")
    list_select_related = ("household",)
    search_fields = ("uuid",)


@admin.register(RecordChange)
class RecordChangeAdmin(LookOnly):
    list_display = ("household", "type", "uuid", "rev", "field", "value", "stood", "at")
    list_filter = ("household", "type", "stood")
    list_select_related = ("household",)
    search_fields = ("uuid", "line")


@admin.register(Sheet)
class SheetAdmin(LookOnly):
    list_display = ("household", "key", "kind", "as_of", "made_at")
    list_filter = ("household", "kind")
    list_select_related = ("household",)


@admin.register(Erased)
class ErasedAdmin(LookOnly):
    list_display = ("household", "uuid", "erased_at")
    list_select_related = ("household",)
