"""Where a photo lies. Made only from a household's id and a checked hash, so nothing can point elsewhere."""

from __future__ import annotations

import re
import uuid

HASH = re.compile(r"[0-9a-f]{64}")


def kept_name(household: uuid.UUID, sha256: str, *, thumb: bool = False) -> str:
    """`<household>/<aa>/<sha256>.jpg`, below the photo storage. Raises ValueError for what is no hash."""
    if not HASH.fullmatch(sha256):
        raise ValueError("A photo is named by the 64 hexadecimal digits of its SHA-256.")
    return f"{household}/{sha256[:2]}/{sha256}{'.thumb' if thumb else ''}.jpg"
