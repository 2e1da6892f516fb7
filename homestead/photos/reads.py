"""Photos of a household, looked up within it."""

from __future__ import annotations

import uuid
from collections.abc import Iterable

from django.core.files.storage import storages

from homestead.photos.models import Photo
from homestead.photos.names import kept_name


def photo_bytes(household: uuid.UUID, sha256: str, *, thumb: bool = False) -> bytes | None:
    """The picture, or its thumbnail, as JPEG; None where this household has no such photo."""
    if not Photo.rows.of(household).filter(sha256=sha256).exists():
        return None
    with storages["photos"].open(kept_name(household, sha256, thumb=thumb)) as kept:
        return bytes(kept.read())


def which_are_here(household: uuid.UUID, hashes: Iterable[str]) -> set[str]:
    """Those of `hashes` that this household has."""
    found = Photo.rows.of(household).filter(sha256__in=list(hashes))
    return set(found.values_list("sha256", flat=True))
