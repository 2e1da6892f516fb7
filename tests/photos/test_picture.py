"""What a received picture becomes, before anything is kept."""

from __future__ import annotations

import io

import exifread
import pytest
from PIL import Image

from homestead.photos.picture import NotAPicture, jpeg_tail, redraw
from tests.photos import pictures

#: JPEG markers, ITU-T T.81 (1992) table B.1, from memory: APP0 is E0, APP1 (EXIF) E1, APP2 (ICC) E2, COM FE
APP1, APP2, COMMENT = 0xE1, 0xE2, 0xFE


def markers(raw: bytes) -> set[int]:
    """The marker codes of a JPEG's segments up to the scan, read here independently of Pillow."""
    found, at = set(), 2
    assert raw[:2] == b"\xff\xd8"
    while raw[at] == 0xFF and raw[at + 1] != 0xDA:
        found.add(raw[at + 1])
        at += 2 + int.from_bytes(raw[at + 2 : at + 4], "big")
    return found


@pytest.mark.parametrize("orientation", range(1, 9))
def test_it_stands_upright_however_the_camera_was_held(orientation: int) -> None:
    """hazard 21: corner colours are right for all eight EXIF orientations."""
    stored = pictures.turned_by_a_camera(pictures.four_corners(80, 60), orientation)
    size, picture, thumb = redraw(pictures.with_place_and_turn(stored, orientation))
    assert size == (80, 60)
    for made in (picture, thumb):
        with Image.open(io.BytesIO(made)) as image:
            seen = [image.getpixel(at) for at in ((10, 10), (70, 10), (10, 50), (70, 50))]
        for got, want in zip(seen, pictures.CORNERS.values(), strict=True):
            assert isinstance(got, tuple)
            assert max(abs(a - b) for a, b in zip(got, want, strict=True)) < 24


def test_it_carries_no_place_and_no_camera() -> None:
    """hazard 22, invariant 25: checked by an independent reader (ExifRead) and by the markers themselves."""
    raw = pictures.with_place_and_turn(pictures.four_corners(64, 64), 1)
    assert any("GPS" in tag for tag in exifread.process_file(io.BytesIO(raw))), (
        "the test's own photo has a place"
    )
    assert APP1 in markers(raw)
    _, picture, thumb = redraw(raw)
    for made in (picture, thumb):
        assert exifread.process_file(io.BytesIO(made)) == {}
        assert not markers(made) & {APP1, APP2, COMMENT}


@pytest.mark.parametrize(("width", "height"), [(5657, 4243), (8000, 6000)])
def test_24_and_48_megapixels_come_out_at_1600(width: int, height: int) -> None:
    """hazard 21"""
    size, picture, thumb = redraw(pictures.jpeg(pictures.four_corners(width, height)))
    assert size == (width, height)
    with Image.open(io.BytesIO(picture)) as image:
        assert max(image.size) == 1600
        red = image.getpixel((30, 30))
        assert isinstance(red, tuple)
        assert red[0] > 150 > red[1]
    with Image.open(io.BytesIO(thumb)) as image:
        assert max(image.size) == 320


@pytest.mark.parametrize(
    ("raw", "code"),
    [
        (pictures.SVG, "photo_kind"),
        (pictures.HEIC, "photo_heic"),
        (b"<!doctype html><title>Log in to the hotel</title>", "photo_kind"),
        (b"", "photo_kind"),
        (pictures.jpeg(pictures.four_corners(640, 480))[:900], "photo_broken"),
        (pictures.jpeg(pictures.four_corners(64, 64)) + b"<script>" * 40, "photo_tail"),
    ],
)
def test_what_is_no_photo_is_refused_with_its_reason(raw: bytes, code: str) -> None:
    """hazard 23"""
    with pytest.raises(NotAPicture) as refusal:
        redraw(raw)
    assert refusal.value.code == code
    assert refusal.value.sentence.endswith(".")


def test_a_markup_comment_inside_a_photo_does_not_come_through() -> None:
    """hazard 23: a file that is both picture and page is only a picture afterwards."""
    raw = pictures.jpeg(pictures.four_corners(64, 64), comment=b"<script>alert(1)</script>")
    assert b"<script>" in raw
    _, picture, thumb = redraw(raw)
    assert b"<script>" not in picture + thumb


def test_the_tail_of_a_plain_photo_is_nothing() -> None:
    assert jpeg_tail(pictures.jpeg(pictures.four_corners(64, 64))) == 0
