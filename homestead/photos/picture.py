"""Decode one picture and encode it anew. Run as a child process: `python -m homestead.photos.picture`.

Reads the received bytes from standard input and writes one JSON line, then the pictures it names, to standard
output. A child, because a picture may be made to break its decoder: it has its own memory and time, knows no
settings, no database and no network, and can be killed. Only pixels come through.
"""

from __future__ import annotations

import io
import json
import sys
import warnings
from typing import Any

MAX_PIXELS = 50_000_000
LONGEST_SIDE = 1600
THUMB_SIDE = 320
MEMORY_BYTES = 1_500_000_000
CPU_SECONDS = 20
FORMATS = ("JPEG", "PNG", "WEBP")


class NotAPicture(Exception):
    """`code` for the phone and a sentence for people."""

    def __init__(self, code: str, sentence: str) -> None:
        super().__init__(sentence)
        self.code = code
        self.sentence = sentence


def _limit_myself() -> None:
    try:
        import resource
    except ImportError:  # Windows has no such limits; the parent still kills by the clock
        return
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
    resource.setrlimit(resource.RLIMIT_CPU, (CPU_SECONDS, CPU_SECONDS))


def looks_like_heic(raw: bytes) -> bool:
    return raw[4:8] == b"ftyp" and raw[8:12] in (b"heic", b"heix", b"mif1", b"hevc", b"heim", b"msf1")


def jpeg_tail(raw: bytes) -> int:
    """How many bytes follow the last end-of-image marker: a second file may hide there."""
    return len(raw) - (raw.rfind(b"\xff\xd9") + 2)


def _srgb(image: Any) -> Any:
    """The pixels in sRGB, with no profile left."""
    from PIL import ImageCms

    profile = image.info.get("icc_profile")
    if profile and image.mode in ("RGB", "L"):
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            target = ImageCms.createProfile("sRGB")
            return ImageCms.profileToProfile(image.convert("RGB"), source, target, outputMode="RGB")
        except (ImageCms.PyCMSError, OSError):
            pass  # a broken profile says nothing; the pixels are taken as sRGB
    return image


def _encoded(image: Any, side: int) -> bytes:
    copy = image.copy()
    copy.thumbnail((side, side))
    out = io.BytesIO()
    copy.save(out, "JPEG", quality=85, optimize=True)
    return out.getvalue()


def redraw(raw: bytes) -> tuple[tuple[int, int], bytes, bytes]:
    """((width, height), picture, thumbnail) as fresh JPEG bytes with no metadata.

    Raises NotAPicture: `photo_kind` (no JPEG, PNG or WebP), `photo_heic`, `photo_size` (over 50 megapixels),
    `photo_broken` (cannot be read to its end), `photo_tail` (something follows the picture).
    """
    from PIL import Image, ImageOps, UnidentifiedImageError

    Image.MAX_IMAGE_PIXELS = MAX_PIXELS
    warnings.simplefilter("error", Image.DecompressionBombWarning)
    if looks_like_heic(raw):
        raise NotAPicture("photo_heic", "This is a HEIC photo, and this server cannot read it. Send a JPEG.")
    try:
        image: Any = Image.open(io.BytesIO(raw), formats=FORMATS)
        image.load()
        if image.format == "JPEG" and jpeg_tail(raw) > 64:
            raise NotAPicture("photo_tail", "Something else follows the picture in this file.")
        image = _srgb(ImageOps.exif_transpose(image)).convert("RGB")
        image.info.clear()
        picture = _encoded(image, LONGEST_SIDE)
        return image.size, picture, _encoded(image, THUMB_SIDE)
    except UnidentifiedImageError:
        raise NotAPicture("photo_kind", "This is no photo. JPEG, PNG and WebP are taken.") from None
    except (Image.DecompressionBombWarning, Image.DecompressionBombError, MemoryError):
        raise NotAPicture("photo_size", "This picture has more than 50 million points.") from None
    except (OSError, SyntaxError, ValueError, EOFError):
        raise NotAPicture("photo_broken", "This photo cannot be read to its end.") from None


def main() -> None:
    _limit_myself()
    raw = sys.stdin.buffer.read()
    try:
        (width, height), picture, thumb = redraw(raw)
    except NotAPicture as no:
        answer: dict[str, Any] = {"code": no.code, "sentence": no.sentence}
        sys.stdout.buffer.write(json.dumps(answer).encode() + b"\n")
        return
    answer = {"width": width, "height": height, "picture": len(picture), "thumb": len(thumb)}
    sys.stdout.buffer.write(json.dumps(answer).encode() + b"\n" + picture + thumb)


if __name__ == "__main__":
    main()
