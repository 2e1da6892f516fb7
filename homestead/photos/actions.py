"""Taking photos in, and letting them go."""

from __future__ import annotations

import hashlib
import json
import subprocess
import sys
import uuid
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta
from typing import IO

from django.conf import settings
from django.core.files.base import ContentFile
from django.core.files.storage import storages
from django.utils import timezone

from homestead.photos.models import Photo
from homestead.photos.names import kept_name

SECONDS_TO_READ = 25
PIECE = 64 * 1024


class PhotoRefused(Exception):
    """The photo is not kept. `code` is for the phone, `sentence` for people."""

    def __init__(self, code: str, sentence: str) -> None:
        super().__init__(sentence)
        self.code = code
        self.sentence = sentence


@dataclass(frozen=True)
class Redrawn:
    width: int
    height: int
    picture: bytes
    thumb: bytes


def take_in(household: uuid.UUID, sha256: str, stream: IO[bytes]) -> bool:
    """Keep the photo named `sha256`; true if it is new, false if it was there.

    Raises PhotoRefused: too many bytes, another hash, another format, a broken picture.
    """
    raw = _read(stream, settings.PHOTO_MAX_BYTES)
    if hashlib.sha256(raw).hexdigest() != sha256:
        raise PhotoRefused("photo_hash", "What came is not the photo that was named. Send it again.")
    if Photo.rows.of(household).filter(sha256=sha256).exists():
        return False
    redrawn = _redraw(raw)
    _keep(kept_name(household, sha256), redrawn.picture)
    _keep(kept_name(household, sha256, thumb=True), redrawn.thumb)
    _, made = Photo.rows.of(household).get_or_create(
        sha256=sha256,
        defaults={
            "household_id": household,
            "width": redrawn.width,
            "height": redrawn.height,
            "kept_bytes": len(redrawn.picture),
        },
    )
    return made


def sweep(household: uuid.UUID, named: Iterable[str]) -> int:
    """Let go of photos that no line has named for 30 days; how many went. `named`: hashes in the ledger."""
    old = Photo.rows.of(household).filter(received_at__lt=timezone.now() - timedelta(days=30))
    keep = set(named)
    gone = [photo for photo in old if photo.sha256 not in keep]
    for photo in gone:
        _let_go(household, photo.sha256)
        photo.delete()
    return len(gone)


def forget_household(household: uuid.UUID) -> int:
    """Every photo of a household, bytes and rows: its people left and said so. How many files went.

    Goes by what lies in the storage, so that it may come after the household's rows are gone.
    """
    storage, gone = storages["photos"], 0
    try:
        folders, _ = storage.listdir(str(household))
    except FileNotFoundError:
        return 0
    for folder in folders:
        for name in storage.listdir(f"{household}/{folder}")[1]:
            storage.delete(f"{household}/{folder}/{name}")
            gone += 1
    Photo.rows.of(household).delete()
    return gone


def _read(stream: IO[bytes], limit: int) -> bytes:
    pieces, length = [], 0
    while piece := stream.read(min(PIECE, limit + 1 - length)):
        pieces.append(piece)
        length += len(piece)
        if length > limit:
            raise PhotoRefused("photo_large", f"A photo may have at most {limit // 1_000_000} MB.")
    return b"".join(pieces)


def _redraw(raw: bytes) -> Redrawn:
    """Decode and encode in a child process with memory and time of its own."""
    child = [sys.executable, "-I", "-c", _CHILD, str(settings.BASE)]
    try:
        done = subprocess.run(child, input=raw, capture_output=True, timeout=SECONDS_TO_READ, check=False)
    except subprocess.TimeoutExpired:
        raise PhotoRefused("photo_slow", "This photo took too long to read.") from None
    line, _, rest = done.stdout.partition(b"\n")
    if done.returncode != 0 or not line:
        raise PhotoRefused("photo_broken", "This photo cannot be read to its end.")
    answer = json.loads(line)
    if "code" in answer:
        raise PhotoRefused(answer["code"], answer["sentence"])
    picture = rest[: answer["picture"]]
    return Redrawn(answer["width"], answer["height"], picture, rest[answer["picture"] :])


#: `-I` keeps the child from the environment and the working folder; it is told where the code lies
_CHILD = "import sys; sys.path.insert(0, sys.argv[1]); from homestead.photos.picture import main; main()"


def _keep(name: str, content: bytes) -> None:
    """Overwrites: the same name is the same picture, and half a file may lie there from a power cut."""
    storage = storages["photos"]
    if storage.exists(name):
        storage.delete(name)
    storage.save(name, ContentFile(content))


def _let_go(household: uuid.UUID, sha256: str) -> None:
    for thumb in (False, True):
        storages["photos"].delete(kept_name(household, sha256, thumb=thumb))
