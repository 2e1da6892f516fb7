from __future__ import annotations

import json
import sys
from typing import Any

from django.core.management.base import BaseCommand


class Command(BaseCommand):
    help = "Read finished lots and questions from standard input, a line each; answer each question at once."
    requires_system_checks = []

    def handle(self, *args: Any, **options: Any) -> None:
        # what it needs is large, and `manage.py` lists all commands
        from homestead.season.cases import MalformedLine, answers

        try:
            for answer in answers(sys.stdin):
                self.stdout.write(json.dumps(answer))
                self.stdout.flush()
        except MalformedLine as why:
            self.stderr.write(str(why))
            sys.exit(1)
