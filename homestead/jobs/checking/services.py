"""Programs that some tests need and no package of a lock brings. Root on Debian fetches what is missing."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Sequence
from dataclasses import dataclass

from homestead.environment import BASE
from homestead.jobs.checking.browser import WEBKIT


@dataclass(frozen=True)
class Service:
    """`marker` is the pytest marker of the tests that need it; `programs` must all be there."""

    name: str
    marker: str
    programs: tuple[str, ...]
    packages: tuple[str, ...]

    def is_wanted(self) -> bool:
        """Some test carries its marker."""
        tests = (BASE / "tests").rglob("test_*.py")
        return any(f"mark.{self.marker}" in test.read_text() for test in tests)

    def is_here(self) -> bool:
        return all(shutil.which(program) for program in self.programs)


SERVICES = (
    Service("Redis as the queue", "redis", ("redis-server",), ("redis-server",)),
    Service("WebKit", "webkit", (str(WEBKIT), "WebKitWebDriver", "Xvfb"), ("webkit2gtk-driver", "xvfb")),
    Service("Firefox", "firefox", ("firefox-esr",), ("firefox-esr",)),
)


def fetch_missing() -> None:
    """On a machine that exists for checking (CI is set), as root, with Debian's packages; nowhere else."""
    missing = [package for service in not_here() for package in service.packages]
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    if not (missing and root and os.environ.get("CI") and shutil.which("apt-get")):
        return
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", *missing]):
        subprocess.run(["apt-get", *command], env=quiet, stdout=subprocess.DEVNULL, check=False)


def not_here() -> Sequence[Service]:
    return [service for service in SERVICES if service.is_wanted() and not service.is_here()]
