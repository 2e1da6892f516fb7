"""Chromium for the journeys: phones with a memory of their own, to be closed, opened again, and killed."""

from __future__ import annotations

import contextlib
import os
import signal
import time
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal

from playwright.sync_api import BrowserContext, Page, Playwright, ViewportSize

FLAGS = [
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
]
#: two browsers and a server share two processors: a busy machine is no failure
PATIENCE_MS = 30_000
PHONE: ViewportSize = {"width": 390, "height": 844}
DESK: ViewportSize = {"width": 1280, "height": 800}


def chromium() -> str:
    return os.environ.get("ROUNDS_CHROMIUM", "/usr/bin/chromium")


@dataclass
class Phone:
    """One person's phone: a browser profile on disk, so that what it keeps survives the browser's end."""

    playwright: Playwright
    profile: Path
    url: str
    light: Literal["dark", "light"] = "dark"
    #: more flags than every phone's, as those of a camera
    flags: list[str] = field(default_factory=list)
    console: list[str] = field(default_factory=list)
    cookies: list[Any] = field(default_factory=list)
    _context: BrowserContext | None = None

    def open(self, path: str = "/", *, cut: bool = False, first_run: str | None = None) -> Page:
        """Start the browser with what it kept, and open the page.

        `cut`: with no network from the first; `first_run`: a script that runs before those of every page.
        """
        self._context = self.playwright.chromium.launch_persistent_context(
            str(self.profile),
            executable_path=chromium(),
            args=[*FLAGS, *self.flags],
            chromium_sandbox=False,
            viewport=PHONE,
            device_scale_factor=1,
            has_touch=True,
            color_scheme=self.light,
            locale="en-GB",
            timezone_id="Europe/Vienna",
        )
        self._context.set_offline(cut)
        self._context.add_cookies(self.cookies)
        if first_run:
            self._context.add_init_script(first_run)
        page = self._context.pages[0] if self._context.pages else self._context.new_page()
        page.set_default_timeout(PATIENCE_MS)
        page.on("console", lambda said: self.console.append(f"{said.type}: {said.text}"))
        page.on("framenavigated", lambda frame: self.console.append(f"went to {frame.url}"))
        page.on("pageerror", lambda error: self.console.append(f"pageerror: {error}"))
        page.goto(self.url + path)
        return page

    @property
    def context(self) -> BrowserContext:
        assert self._context
        return self._context

    def cut_network(self, cut: bool = True) -> None:
        self.context.set_offline(cut)

    def photograph(self, path: Path) -> None:
        """What its page shows now, as a picture and as words; nothing where it is closed."""
        if self._context and self._context.pages:
            path.parent.mkdir(parents=True, exist_ok=True)
            page = self._context.pages[0]
            page.screenshot(path=path)
            told = [page.url, page.inner_text("body"), *self.console]
            path.with_suffix(".txt").write_text("\n".join(told))

    def close(self) -> None:
        if self._context:
            self._context.close()
        self._context = None

    def note_cookies(self) -> None:
        self.cookies = list(self.context.cookies())

    def kill(self) -> None:
        """End every process of this browser at once, as a dead battery does.

        Chromium writes new cookies to disk within 30 seconds; a test's phone is younger than that, so they
        are put back when it opens again.
        """
        while pids := _processes_of(self.profile):
            for pid in pids:
                with contextlib.suppress(ProcessLookupError):
                    os.kill(pid, signal.SIGKILL)
            time.sleep(0.02)
        for lock in self.profile.glob("Singleton*"):
            lock.unlink()
        self._context = None


def _processes_of(profile: Path) -> list[int]:
    found = []
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                line = (entry / "cmdline").read_bytes()
            except OSError:
                continue
            if f"--user-data-dir={profile}".encode() in line and not _is_over(entry):
                found.append(int(entry.name))
    return found


def _is_over(process: Path) -> bool:
    """A process that ended and was not yet asked for its end."""
    with contextlib.suppress(OSError):
        return process.joinpath("stat").read_text().rpartition(")")[2].split()[0] in ("Z", "X")
    return True
