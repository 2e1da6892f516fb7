"""Paper for the journeys: what the browser prints, and what a camera would see of it.

Outside: pages are drawn by PDFium and read by ZXing-C++, two readers the app has nothing of.
"""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

import pypdfium2  # type: ignore[import-untyped]
import zxingcpp
from PIL import Image
from playwright.sync_api import Page

#: fine enough for half a millimetre a module
DOTS_AN_INCH = 200
MM_AN_INCH = 25.4
#: a page of PDFium, which tells no types
Sheet = Any


def printed(page: Page, into: Path) -> list[Sheet]:
    """What comes out when the page is printed, on the paper it asks for."""
    page.pdf(path=into, prefer_css_page_size=True, print_background=True)
    return list(pypdfium2.PdfDocument(into))


def drawn(sheet: Sheet) -> Image.Image:
    picture: Image.Image = sheet.render(scale=DOTS_AN_INCH / 72).to_pil()
    return picture.convert("RGB")


def codes_on(picture: Image.Image) -> list[str]:
    """Texts of the QR codes in a picture, from the top, then from the left."""
    found = zxingcpp.read_barcodes(picture, formats=zxingcpp.barcode_formats_from_str("QRCode"))
    by_place = sorted(found, key=lambda one: (round(one.position.top_left.y / 40), one.position.top_left.x))
    return [one.text for one in by_place]


def letters_on(sheet: Sheet) -> str:
    """All letters of a sheet in the order they are drawn, without the spaces between: how far they stand
    apart is the printer's affair."""
    words: str = sheet.get_textpage().get_text_range()
    return "".join(words.split())


def cut_out(sheet: Image.Image, *, left: float, top: float, width: float, height: float) -> Image.Image:
    """A label cut from a sheet, all in millimetres."""
    dots = DOTS_AN_INCH / MM_AN_INCH
    return sheet.crop(
        (round(left * dots), round(top * dots), round((left + width) * dots), round((top + height) * dots))
    )


def held_before_the_camera(label: Image.Image, into: Path, *, turned: float = 6) -> Path:
    """A film of one still picture: the label, held aslant before something brown and uneven.

    Frames of JPEG one after another are what Chromium takes for a camera
    (`--use-file-for-fake-video-capture`).
    """
    dice = random.Random(7)
    grain = Image.new("L", (160, 120))
    grain.putdata([dice.randrange(40, 120) for _ in range(160 * 120)])
    ground = Image.merge("RGB", [grain.point(lambda v, k=k: v * k // 10) for k in (12, 8, 5)])
    frame = ground.resize((640, 480), Image.Resampling.BICUBIC)
    small = label.resize((400, round(400 * label.height / label.width)), Image.Resampling.LANCZOS)
    aslant = small.convert("RGBA").rotate(turned, expand=True, resample=Image.Resampling.BICUBIC)
    frame.paste(aslant, ((640 - aslant.width) // 2, (480 - aslant.height) // 2), aslant)
    frame.save(into, "JPEG", quality=80)
    into.write_bytes(into.read_bytes() * 3)
    return into
