"""`manage.py code`: a pairing code for a keeper whose phones are all lost, from whoever runs the server."""

from __future__ import annotations

import uuid
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from homestead.household.models import Household, Person
from homestead.household.phones import make_code


class Command(BaseCommand):
    help = "Prints a pairing code, good for 10 minutes, for a keeper of a household."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("household", nargs="?", help="its id; may be left out where there is one only")

    def handle(self, *args: Any, household: str | None = None, **options: Any) -> None:
        found = _household(household)
        keeper = Person.rows.of(found).filter(role="keeper", archived=False).order_by("name").first()
        if keeper is None:
            raise CommandError(f"{found.name} has no keeper.")
        made = make_code(found, [keeper.uuid], now=timezone.now())
        self.stdout.write(f"{made.code}   lets one phone of {keeper.name} into {found.name}, for 10 minutes")


def _household(given: str | None) -> Household:
    real = Household.objects.filter(demo=False).order_by("made_at")
    try:
        return real.get(pk=uuid.UUID(given)) if given else real.get()
    except (ValueError, Household.DoesNotExist, Household.MultipleObjectsReturned) as unclear:
        known = "\n".join(f"  {one.pk}  {one.name}" for one in real)
        raise CommandError(f"Which household? Name it by its id:\n{known}") from unclear
