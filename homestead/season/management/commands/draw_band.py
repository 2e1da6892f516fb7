from __future__ import annotations

import datetime as dt
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser

from homestead.household.models import Household

GUIDE = settings.BASE / "docs" / "guide"
DAY = dt.date(2026, 11, 25)
TITLE = "Apples of the invented household: how much is sound, week by week"
#: the page tells of today and of this week
LATER = 20


class Command(BaseCommand):
    help = (
        "Draw docs/guide/apples.svg, the picture of the page on bands, from the invented household, and say "
        "the figures the page tells. Before: manage.py demo --ends-on 2026-11-25."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--day", type=dt.date.fromisoformat, default=DAY, help="the day it is drawn for")

    def handle(self, *args: Any, **options: Any) -> None:
        # what it needs is large, and `manage.py` lists all commands
        from homestead.season.facts import household_facts
        from homestead.season.outlook import sheets_content
        from homestead.season.picture import band_svg

        household = Household.objects.filter(demo=True).first()
        if household is None:
            raise CommandError("There is no invented household here: manage.py demo makes it.")
        weeks = sheets_content(household_facts(household.pk), options["day"])["outlook/apple"]["weeks"]
        (GUIDE / "apples.svg").write_text(band_svg(weeks, TITLE), encoding="utf-8")
        for number in (0, LATER):
            low, middle, high = (round(grams / 1000) for grams in weeks[number])
            self.stdout.write(f"in {number} weeks {middle} kg ({low} to {high})")
