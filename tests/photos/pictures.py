"""Pictures for the tests, good and bad, made here: nothing was downloaded."""

from __future__ import annotations

import io
import struct
import zlib

from PIL import Image

CORNERS = {"red": (200, 30, 30), "green": (30, 160, 40), "blue": (30, 50, 190), "yellow": (220, 200, 40)}


def four_corners(width: int, height: int) -> Image.Image:
    """Red, green above; blue, yellow below: shows at once whether a picture was turned or mirrored."""
    image = Image.new("RGB", (width, height))
    half_w, half_h = width // 2, height // 2
    for (x, y), colour in zip(
        ((0, 0), (half_w, 0), (0, half_h), (half_w, half_h)), CORNERS.values(), strict=True
    ):
        image.paste(colour, (x, y, x + half_w, y + half_h))
    return image


def jpeg(image: Image.Image, **how: object) -> bytes:
    out = io.BytesIO()
    image.save(out, "JPEG", quality=90, **how)
    return out.getvalue()


def png(image: Image.Image) -> bytes:
    out = io.BytesIO()
    image.save(out, "PNG")
    return out.getvalue()


def with_place_and_turn(image: Image.Image, orientation: int) -> bytes:
    """A JPEG whose EXIF says where it was taken (an invented place) and how the camera was held."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif[0x010F] = "Invented Camera Works"
    gps = exif.get_ifd(0x8825)
    gps[1], gps[2], gps[3], gps[4] = "N", (47.0, 12.0, 30.0), "E", (13.0, 5.0, 0.0)
    return jpeg(image, exif=exif)


def turned_by_a_camera(image: Image.Image, orientation: int) -> Image.Image:
    """The pixels a camera stores so that `orientation` (EXIF 2.3, tag 0x0112) puts them upright again."""
    undo = {
        1: None,
        2: Image.Transpose.FLIP_LEFT_RIGHT,
        3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90,
        7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }[orientation]
    return image if undo is None else image.transpose(undo)


def huge_png(side: int) -> bytes:
    """A true PNG of side x side black points, one bit each, written without ever holding its pixels."""
    row = b"\0" * (1 + (side + 7) // 8)
    packer = zlib.compressobj(9)
    rows = b"".join([packer.compress(row) for _ in range(side)]) + packer.flush()

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", side, side, 1, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


SVG = b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'
HEIC = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + b"\0" * 500
