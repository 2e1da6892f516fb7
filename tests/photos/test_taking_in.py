"""Photos of a household: kept once, named by what was sent, served as drawn anew."""

from __future__ import annotations

import hashlib
import io
import resource
import uuid
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from django.utils import timezone
from PIL import Image

from homestead.household.models import Household
from homestead.photos import actions, reads
from homestead.photos.models import Photo
from homestead.photos.names import kept_name
from tests.photos import pictures

pytestmark = pytest.mark.django_db


@pytest.fixture
def household(settings: Any, tmp_path: Path) -> uuid.UUID:
    settings.STORAGES = {
        **settings.STORAGES,
        "photos": {
            "BACKEND": "django.core.files.storage.FileSystemStorage",
            "OPTIONS": {"location": tmp_path / "photos"},
        },
    }
    return Household.objects.create(name="Invented").pk


def sent(raw: bytes) -> tuple[str, io.BytesIO]:
    return hashlib.sha256(raw).hexdigest(), io.BytesIO(raw)


def refused(household: uuid.UUID, raw: bytes, sha256: str | None = None) -> actions.PhotoRefused:
    own, stream = sent(raw)
    with pytest.raises(actions.PhotoRefused) as refusal:
        actions.take_in(household, sha256 or own, stream)
    assert Photo.rows.of(household).count() == 0
    return refusal.value


def test_it_is_kept_once_however_often_it_is_sent(household: uuid.UUID) -> None:
    """invariant 25: the name is the hash of what came; what is served decodes."""
    raw = pictures.with_place_and_turn(pictures.four_corners(640, 480), 1)
    sha256, stream = sent(raw)
    assert actions.take_in(household, sha256, stream)
    assert not actions.take_in(household, sha256, io.BytesIO(raw))
    served, thumb = reads.photo_bytes(household, sha256), reads.photo_bytes(household, sha256, thumb=True)
    assert served is not None
    assert thumb is not None
    with Image.open(io.BytesIO(served)) as image, Image.open(io.BytesIO(thumb)) as small:
        assert (image.size, small.size) == ((640, 480), (320, 240))
        assert not image.getexif()
    assert reads.which_are_here(household, [sha256, "0" * 64]) == {sha256}


def test_another_family_does_not_have_it(household: uuid.UUID) -> None:
    """invariant 28, invariant 36: known here, unknown there, by the same answer as for a photo nobody has."""
    sha256, stream = sent(pictures.jpeg(pictures.four_corners(64, 64)))
    actions.take_in(household, sha256, stream)
    other = Household.objects.create(name="Invented too").pk
    assert reads.photo_bytes(other, sha256) is None
    assert reads.which_are_here(other, [sha256]) == set()


def test_bytes_that_are_not_what_was_named_are_refused(household: uuid.UUID) -> None:
    answer = refused(household, pictures.jpeg(pictures.four_corners(64, 64)), "ab" * 32)
    assert answer.code == "photo_hash"


@pytest.mark.parametrize(
    ("raw", "code"),
    [
        (pictures.SVG, "photo_kind"),
        (pictures.HEIC, "photo_heic"),
        (pictures.jpeg(pictures.four_corners(64, 64)) + b"<html>" * 99, "photo_tail"),
        (b"\0" * 12_000_001, "photo_large"),
    ],
)
def test_what_is_no_photo_leaves_nothing_behind(household: uuid.UUID, raw: bytes, code: str) -> None:
    """hazard 23"""
    answer = refused(household, raw)
    assert answer.code == code


def test_a_picture_of_30_000_by_30_000_points_is_refused_at_once(household: uuid.UUID) -> None:
    """hazard 23: at once, and the server does not grow by the picture (900 MB of points)."""
    raw = pictures.huge_png(30_000)
    before, began = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss, worked_s()
    answer = refused(household, raw)
    took = worked_s() - began
    grew_mb = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024
    assert answer.code == "photo_size"
    assert took < 1, "processor time of the child, which a busy machine does not stretch"
    assert grew_mb < 50


def worked_s() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


@pytest.mark.parametrize("name", ["../../etc/passwd", "a" * 63, "g" * 64, "A" * 64, "..%2f" + "a" * 59, ""])
def test_a_name_that_is_no_hash_leads_nowhere(name: str) -> None:
    """hazard 23, invariant 28"""
    with pytest.raises(ValueError, match="64 hexadecimal digits"):
        kept_name(uuid.uuid4(), name)


def test_half_a_file_left_by_a_power_cut_is_written_over(household: uuid.UUID) -> None:
    raw = pictures.jpeg(pictures.four_corners(64, 64))
    sha256, stream = sent(raw)
    actions._keep(kept_name(household, sha256), b"half")
    actions.take_in(household, sha256, stream)
    served = reads.photo_bytes(household, sha256)
    assert served is not None
    assert served[:2] == b"\xff\xd8"


def test_photos_nobody_names_go_after_30_days_and_no_others(household: uuid.UUID) -> None:
    """hazard 24"""
    hashes = []
    for side in (64, 66, 68):
        sha256, stream = sent(pictures.jpeg(pictures.four_corners(side, side)))
        actions.take_in(household, sha256, stream)
        hashes.append(sha256)
    named, unnamed, new = hashes
    month_ago = timezone.now() - timedelta(days=31)
    Photo.rows.of(household).filter(sha256__in=[named, unnamed]).update(received_at=month_ago)
    assert actions.sweep(household, [named]) == 1
    assert reads.which_are_here(household, hashes) == {named, new}
    with pytest.raises(FileNotFoundError):
        actions.storages["photos"].open(kept_name(household, unnamed))


def test_a_family_that_leaves_takes_its_photos_along(household: uuid.UUID, tmp_path: Path) -> None:
    sha256, stream = sent(pictures.jpeg(pictures.four_corners(64, 64)))
    actions.take_in(household, sha256, stream)
    Household.objects.filter(pk=household).delete()
    assert actions.forget_household(household) == 2, "the picture and its thumbnail"
    assert actions.forget_household(household) == 0
    assert [p for p in tmp_path.rglob("*") if p.is_file()] == []
