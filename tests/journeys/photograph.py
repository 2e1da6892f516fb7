"""Pictures of every screen, to be looked at: `python -m tests.journeys.photograph [folder]`.

Each at 390 x 844 and at 1280 x 800, by lantern and by daylight, on a phone with text twice as large, and in
German; `--whole` adds the full length of the phone's. `--only` takes those alone whose name it fits (a
regular expression). With `--picture` one more: `docs/pictures/rounds.png`, a lot of the walk in its photo's
light. The pages are built before (`manage.py start` does it); what they show is the invented household and
one made on the way.
"""

from __future__ import annotations

import argparse
import re
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from PIL import Image
from playwright.sync_api import Page, Playwright, ViewportSize, sync_playwright

from tests.journeys import screens, ways
from tests.journeys.browsers import DESK, PHONE, Phone
from tests.journeys.home import BASE, Home

FOLDER = BASE / ".screens"
PICTURE = BASE / "docs" / "pictures" / "rounds.png"
#: the README is read by phones too [bytes]
PICTURE_MOST = 300_000
SIZES: dict[str, ViewportSize] = {"phone": PHONE, "desk": DESK}


def photograph(page: Page, folder: Path, name: str, *, whole: bool = False) -> None:
    """The screen in each size and light, with large text and in German; it is left as it was found."""
    for size, view in SIZES.items():
        page.set_viewport_size(view)
        page.evaluate("() => scrollTo(0, 0)")
        for light in ways.LIGHTS:
            screens.show(page, light)
            page.screenshot(path=folder / f"{name}.{size}.{light}.png")
    page.set_viewport_size(PHONE)
    if whole:
        page.screenshot(path=folder / f"{name}.whole.png", full_page=True)
    screens.speak(page, "de")
    page.screenshot(path=folder / f"{name}.german.png", full_page=whole)
    screens.speak(page, "en")
    screens.show(page, "lantern")
    page.evaluate("() => { document.documentElement.style.fontSize = '200%' }")
    ways.settle(page)
    page.screenshot(path=folder / f"{name}.text-200.png")
    page.evaluate("() => { document.documentElement.style.fontSize = '' }")


@contextmanager
def begun(playwright: Playwright, story: str) -> Iterator[ways.Here]:
    """A server and a phone at the first page of a story; both are gone afterwards."""
    with tempfile.TemporaryDirectory(prefix="rounds-") as name:
        room = Path(name)
        home = Home(room / "home").prepare()
        screens.begin_story(story, home)
        home.start()
        url = f"http://localhost:{home.port}"
        phones: list[Phone] = []

        def phone(name: str) -> Phone:
            phones.append(Phone(playwright, room / name, url))
            return phones[-1]

        try:
            first = phone("first")
            first.open()
            yield ways.Here(first, phone)
        finally:
            for one in phones:
                one.close()
            home.stop()


def every_screen(playwright: Playwright, folder: Path, only: str, *, whole: bool) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    wanted = [
        story for story, told in screens.STORIES.items() if any(re.search(only, one.name) for one in told)
    ]
    for story in wanted:
        with begun(playwright, story) as here:
            for name, page in screens.told(story, here):
                if re.search(only, name):
                    photograph(page, folder, name, whole=whole)
                    print(name, flush=True)


def picture(playwright: Playwright) -> None:
    """A lot of the root cellar with its photo, in fewer colours so that it stays small."""
    story = "an invented household"
    with begun(playwright, story) as here:
        ways.to_look_at_demo(here)
        ways.lot_in_hand(here, "Root cellar")
        PICTURE.parent.mkdir(parents=True, exist_ok=True)
        here.page.screenshot(path=PICTURE)
    with Image.open(PICTURE) as taken:
        small = taken.convert("RGB").quantize(256, method=Image.Quantize.MEDIANCUT)
    small.save(PICTURE, optimize=True)
    size = PICTURE.stat().st_size
    assert size < PICTURE_MOST, size
    print(f"{PICTURE.relative_to(BASE)}: {size} bytes")


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__.partition("\n")[0] if __doc__ else None)
    asked.add_argument("folder", nargs="?", type=Path, default=FOLDER)
    asked.add_argument("--picture", action="store_true", help="make the README's picture only")
    asked.add_argument("--only", default="", help="names of the screens to take")
    asked.add_argument("--whole", action="store_true", help="the full length of each on a phone, too")
    told = asked.parse_args()
    with sync_playwright() as playwright:
        if told.picture:
            picture(playwright)
        else:
            every_screen(playwright, told.folder, told.only, whole=told.whole)


if __name__ == "__main__":
    main()
