"""The byproducts' tables to look at."""

from __future__ import annotations

from django.contrib import admin

from homestead.byproducts.models import AnimalGroup, Heap, HeapWork, Lay, PailLook, Scrap
from homestead.store.admin import WorkedOutAdmin


@admin.register(AnimalGroup)
class AnimalGroupAdmin(WorkedOutAdmin):
    list_display = ("household", "name", "kind", "number", "withheld", "archived")
    list_filter = ("household", "kind")


@admin.register(Scrap)
class ScrapAdmin(WorkedOutAdmin):
    list_display = ("household", "day", "crop", "lot", "person")
    list_filter = ("household",)


@admin.register(Lay)
class LayAdmin(WorkedOutAdmin):
    list_display = ("household", "day", "animals", "eggs", "broken", "hens")
    list_filter = ("household", "animals")


@admin.register(PailLook)
class PailLookAdmin(WorkedOutAdmin):
    list_display = ("household", "day", "animals", "mixed", "person")
    list_filter = ("household", "animals")


@admin.register(Heap)
class HeapAdmin(WorkedOutAdmin):
    list_display = ("household", "name", "fills_from", "fills_until", "archived")
    list_filter = ("household",)


@admin.register(HeapWork)
class HeapWorkAdmin(WorkedOutAdmin):
    list_display = ("household", "day", "heap", "did", "material", "grams", "temp_c")
    list_filter = ("household", "heap")
