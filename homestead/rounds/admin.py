"""The rounds' tables to look at."""

from __future__ import annotations

from django.contrib import admin

from homestead.rounds.models import (
    Chore,
    ChoreDone,
    Claim,
    Decision,
    FindingSeen,
    Inspection,
    Offer,
    Round,
    Suspect,
)
from homestead.store.admin import LookOnly, WorkedOutAdmin


class FindingSeenInline(LookOnly, admin.TabularInline[FindingSeen, Inspection]):
    model = FindingSeen


@admin.register(Inspection)
class InspectionAdmin(WorkedOutAdmin):
    list_display = ("household", "when", "lot", "way", "looked", "person")
    list_filter = ("household", "way")
    inlines = (FindingSeenInline,)


@admin.register(Round)
class RoundAdmin(WorkedOutAdmin):
    list_display = ("household", "day", "space", "person", "began_at", "ended_at")
    list_filter = ("household", "space")


@admin.register(Suspect)
class SuspectAdmin(WorkedOutAdmin):
    list_display = ("household", "day", "lot", "lies", "pieces", "state")
    list_filter = ("household", "state")


@admin.register(Decision)
class DecisionAdmin(WorkedOutAdmin):
    list_display = ("household", "day", "suspect", "do", "stands", "done")
    list_filter = ("household", "do", "stands")


admin.site.register([Chore, ChoreDone, Claim, Offer], WorkedOutAdmin)
