from __future__ import annotations

import datetime as dt
from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from fixtures.demo.load import load_demo
from homestead.household.models import Household


class Command(BaseCommand):
    help = "Make the invented household, once. A host has it only by this command."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--ends-on", type=dt.date.fromisoformat, default=None, help="its last day, today")

    def handle(self, *args: Any, **options: Any) -> None:
        if Household.objects.filter(demo=True).exists():
            self.stdout.write("The invented household is here already.")
            return
        household = load_demo(options["ends_on"] or dt.date.today())
        self.stdout.write(f"{household.name} is here: {household.next_seq - 1} lines.")
