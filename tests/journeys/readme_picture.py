"""Makes the picture of the README: `python -m tests.journeys.readme_picture`, with the pages built.

Three screens of the invented household by lantern light, as a phone of 390 x 844 shows them.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from PIL import Image
from playwright.sync_api import sync_playwright

from tests.journeys import screens
from tests.journeys.browsers import Phone
from tests.journeys.home import BASE, Home

STORY = "an invented household"
SHOWN = ("rounds", "round-some-out", "suspect")
PICTURE = BASE / "docs" / "pictures" / "rounds.png"
GAP = 18


def main() -> None:
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        home = Home(Path(folder) / "home").prepare(demo_ends_on="2026-11-25").start()
        try:
            phone = Phone(playwright, Path(folder) / "phone", f"http://localhost:{home.port}")
            side_by_side(photographed(phone, Path(folder)))
        finally:
            home.stop()
    print(PICTURE.relative_to(BASE))


def photographed(phone: Phone, folder: Path) -> list[Path]:
    phone.open()
    here = screens.Here(phone, another=lambda name: Phone(phone.playwright, folder / name, phone.url))
    taken = {}
    for name, page in screens.told(STORY, here):
        if name in SHOWN:
            taken[name] = folder / f"{name}.png"
            page.screenshot(path=taken[name])
        if len(taken) == len(SHOWN):
            break
    phone.close()
    return [taken[name] for name in SHOWN]


def side_by_side(paths: list[Path]) -> None:
    pictures = [Image.open(path).convert("RGB") for path in paths]
    width = sum(picture.width for picture in pictures) + GAP * (len(pictures) - 1)
    whole = Image.new("RGB", (width, pictures[0].height), "white")
    for number, picture in enumerate(pictures):
        whole.paste(picture, (number * (picture.width + GAP), 0))
    PICTURE.parent.mkdir(exist_ok=True)
    whole.quantize(256).save(PICTURE, optimize=True)


if __name__ == "__main__":
    main()
