from __future__ import annotations

from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand


class Command(BaseCommand):
    help = "Write docs/sources.md anew from the formulas and the tables."
    requires_system_checks = []

    def handle(self, *args: Any, **options: Any) -> None:
        from homestead.reference import tables
        from homestead.season.sources import page

        (settings.BASE / "docs" / "sources.md").write_text(page(tables()), encoding="utf-8")
