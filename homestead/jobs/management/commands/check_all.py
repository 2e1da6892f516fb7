from __future__ import annotations

import os
import sys
import tempfile
import time
from typing import Any

from django.core.management.base import BaseCommand

from homestead.jobs import node
from homestead.jobs.checking import browser, running, services, steps


class Command(BaseCommand):
    help = "Run every check and test, browser tests included; at the end, what could not be run, by name."
    requires_system_checks = []

    def handle(self, *args: Any, **options: Any) -> None:
        began = time.monotonic()
        services.fetch_missing()
        missing = services.not_here()
        with tempfile.TemporaryDirectory(prefix="rounds-checks-") as data:
            outcomes = running.run_all(steps.all_steps(missing), surroundings(data))
        self.stdout.write(f"\n{'':5}all together  {time.monotonic() - began:6.1f} s")
        for service in missing:
            self.stdout.write(f"not run: tests marked '{service.marker}' ({service.name} is not installed)")
        sys.exit(self.tell(outcomes))

    def tell(self, outcomes: list[running.Outcome]) -> int:
        failed = [one.step.name for one in outcomes if not one.is_green]
        tests = {
            word: sum(one.counted.get(word, 0) for one in outcomes) for word in ("passed", "failed", "error")
        }
        if failed:
            self.stdout.write(f"not green: {', '.join(failed)}")
        self.stdout.write(f"checks: {len(outcomes) - len(failed)} passed, {len(failed)} failed")
        self.stdout.write(f"tests: {tests['passed']} passed, {tests['failed'] + tests['error']} failed")
        return 1 if failed else 0


def surroundings(data: str) -> dict[str, str]:
    """What the steps find in their environment: a folder of their own for data, Node, a browser."""
    return {
        **node.environment(),
        "ROUNDS_DATA": data,
        "ROUNDS_CHROMIUM": str(browser.chromium()),
        # Playwright's own Node lacks a library on a bare system
        "PLAYWRIGHT_NODEJS_PATH": str(node.NODE),
        # its synchronous face runs an event loop, in which the ORM would refuse to work
        "DJANGO_ALLOW_ASYNC_UNSAFE": "1",
        "NO_COLOR": "1",
        "COLUMNS": os.environ.get("COLUMNS", "120"),
    }
