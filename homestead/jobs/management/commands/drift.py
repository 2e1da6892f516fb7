from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from homestead.jobs.checking import drift


class Command(BaseCommand):
    help = "Are the interface's schema, its types and the built tables as they would be made now?"

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--write", action="store_true", help="make them anew")

    def handle(self, *args: Any, write: bool = False, **options: Any) -> None:
        if write:
            drift.make_anew()
        elif found := list(drift.drifted()):
            raise CommandError("\n".join([*found, "Make them anew: python3 manage.py drift --write"]))
