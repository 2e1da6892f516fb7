"""Pictures as cameras make them, sized and stripped by a real browser, read again by Pillow."""

from __future__ import annotations

import base64
import hashlib
import io
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from PIL import ExifTags, Image
from playwright.sync_api import Page, Playwright, sync_playwright

from homestead.jobs import node
from tests.journeys.browsers import FLAGS, chromium

HERE = Path(__file__).parent
FRONTEND = HERE.parents[1] / "frontend"
VITE = FRONTEND / "node_modules/vite/bin/vite.js"
pytestmark = pytest.mark.browser

RED, GREEN, BLUE, YELLOW = (200, 30, 30), (30, 160, 40), (40, 60, 200), (220, 200, 40)
#: corners as seen: top left, top right, bottom left, bottom right
UPRIGHT = (RED, GREEN, BLUE, YELLOW)
#: how an upright picture lies in the file for each orientation (Exif 2.32, tag 274)
STORED = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}
CAPTURE = """async () => {
  const file = document.querySelector('input').files[0];
  const captured = await camera.capture(file);
  if (!captured.ok) return captured;
  const { bytes, thumbnail, ...rest } = captured.photo;
  const letters = (buffer) => Array.from(new Uint8Array(buffer), (byte) => String.fromCharCode(byte));
  const text = (buffer) => buffer && btoa(letters(buffer).join(''));
  return { ok: true, ...rest, bytes: text(bytes), thumbnail: text(thumbnail) };
}"""


@pytest.fixture(scope="module")
def script(tmp_path_factory: pytest.TempPathFactory) -> Path:
    built = tmp_path_factory.mktemp("camera")
    command = [
        str(node.NODE),
        str(VITE),
        "build",
        "--config",
        str(HERE / "vite.config.js"),
        "--outDir",
        str(built),
    ]
    subprocess.run(command, cwd=FRONTEND, check=True, capture_output=True)
    return built / "camera.js"


@pytest.fixture(scope="module")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="module")
def page(playwright: Playwright, script: Path) -> Iterator[Page]:
    browser = playwright.chromium.launch(executable_path=chromium(), args=FLAGS, chromium_sandbox=False)
    page = browser.new_page()
    page.set_content("<input type=file>")
    page.add_script_tag(path=script)
    yield page
    browser.close()


def photograph(size: tuple[int, int], orientation: int = 1) -> bytes:
    """A JPEG with a colour in each corner, as a phone held that way stores it, with where it was taken."""
    width, height = size
    upright = Image.new("RGB", (2, 2))
    upright.putdata(UPRIGHT)
    upright = upright.resize((width, height), Image.Resampling.NEAREST)
    turned = STORED[orientation]
    stored = upright if turned is None else upright.transpose(turned)
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = orientation
    exif.get_ifd(ExifTags.IFD.GPSInfo).update({1: "N", 2: (47.0, 3.0, 12.0), 3: "E", 4: (15.0, 1.0, 5.0)})
    out = io.BytesIO()
    stored.save(out, "JPEG", quality=90, exif=exif)
    return out.getvalue()


def capture(page: Page, content: bytes, name: str = "photo.jpg", kind: str = "image/jpeg") -> dict[str, Any]:
    page.set_input_files("input", {"name": name, "mimeType": kind, "buffer": content})
    told: dict[str, Any] = page.evaluate(CAPTURE)
    for part in ("bytes", "thumbnail"):
        if told.get(part):
            told[part] = base64.b64decode(told[part])
    return told


def corners(image: Image.Image) -> list[tuple[int, int, int]]:
    width, height = image.size
    near = [(width // 8, height // 8), (width * 7 // 8, height // 8)]
    far = [(width // 8, height * 7 // 8), (width * 7 // 8, height * 7 // 8)]
    return [image.convert("RGB").getpixel(at) for at in near + far]  # type: ignore[misc]


def alike(seen: list[tuple[int, int, int]], wanted: tuple[tuple[int, int, int], ...]) -> bool:
    return all(
        abs(one - other) < 24
        for pixel, colour in zip(seen, wanted, strict=True)
        for one, other in zip(pixel, colour, strict=True)
    )


def markers(jpeg: bytes) -> list[int]:
    """Marker codes up to the picture itself (ITU-T T.81, annex B)."""
    found, at = [], 2
    while jpeg[at] == 0xFF and jpeg[at + 1] != 0xDA:
        found.append(jpeg[at + 1])
        at += 2 + int.from_bytes(jpeg[at + 2 : at + 4], "big")
    return found


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_photo_of_24_megapixels_comes_out_upright_small_and_without_its_place(
    page: Page, orientation: int
) -> None:
    """hazards 21 and 22, invariant 25: corner colours right in every orientation, no APP1."""
    taken = photograph((6000, 4000), orientation)
    assert 0xE1 in markers(taken)
    kept = capture(page, taken)
    assert kept["ok"], kept
    picture = Image.open(io.BytesIO(kept["bytes"]))
    assert (picture.format, picture.size) == ("JPEG", (1600, 1067))
    assert alike(corners(picture), UPRIGHT), corners(picture)
    assert 0xE1 not in markers(kept["bytes"])
    assert not picture.getexif()
    assert kept["hash"] == hashlib.sha256(kept["bytes"]).hexdigest()
    small = Image.open(io.BytesIO(kept["thumbnail"]))
    assert small.size == (320, 213)
    assert alike(corners(small), UPRIGHT)
    assert 0xE1 not in markers(kept["thumbnail"])


@pytest.mark.parametrize("orientation", [1, 6])
def test_a_photo_of_48_megapixels_is_not_black(page: Page, orientation: int) -> None:
    """hazard 21: more than the largest canvas a phone gives."""
    kept = capture(page, photograph((6000, 8000), orientation))
    assert kept["ok"], kept
    picture = Image.open(io.BytesIO(kept["bytes"]))
    assert picture.size == (1200, 1600)
    assert alike(corners(picture), UPRIGHT)


def test_a_small_picture_keeps_its_size(page: Page) -> None:
    kept = capture(page, photograph((640, 480), 8))
    assert (kept["width"], kept["height"]) == (640, 480)
    assert alike(corners(Image.open(io.BytesIO(kept["bytes"]))), UPRIGHT)


def test_what_the_browser_cannot_read_is_kept_only_when_it_is_heic(page: Page) -> None:
    heic = b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic" + bytes(64)
    kept = capture(page, heic, "photo.heic", "image/heic")
    assert kept["ok"]
    assert kept["undecoded"]
    assert kept["bytes"] == heic
    for content in (
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        b"not a picture",
        photograph((64, 64))[:200],
    ):
        assert capture(page, content) == {"ok": False, "why": "spoiled"}
