"""`manage.py replay`: work typed tables, records and the feed out again from the lines."""

from __future__ import annotations

import sys
import uuid
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from homestead.household.models import Household
from homestead.ledger.replay import replay

SHOWN = 20


class Command(BaseCommand):
    help = "Works typed tables, records and the feed out again from the lines, and says what differed."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--check", action="store_true", help="change nothing; exit 1 if anything differs")
        parser.add_argument("--household", help="only this one (its id)")

    def handle(self, *args: Any, **options: Any) -> None:
        differed = sum(self._one(household, options["check"]) for household in _wanted(options["household"]))
        if differed and options["check"]:
            sys.exit(1)

    def _one(self, household: Household, check: bool) -> int:
        differences = replay(household.pk, check=check)
        self.stdout.write(f"{household.name} ({household.pk}): {len(differences)} rows differ.")
        for difference in differences[:SHOWN]:
            self.stdout.write(f"  {difference}")
        return len(differences)


def _wanted(given: str | None) -> list[Household]:
    if given is None:
        return list(Household.objects.order_by("made_at"))
    try:
        return [Household.objects.get(pk=uuid.UUID(given))]
    except (ValueError, Household.DoesNotExist) as unknown:
        raise CommandError(f"No household has the id {given}.") from unknown
