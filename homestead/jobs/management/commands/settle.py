from __future__ import annotations

import json
from typing import Any

from django.core.management.base import BaseCommand

from homestead.jobs import settling


class Command(BaseCommand):
    help = "What comes before opening: databases, schedule; at home certificates and a first household."

    def handle(self, *args: Any, **options: Any) -> None:
        self.stdout.write(json.dumps({"notes": settling.settle()}))
