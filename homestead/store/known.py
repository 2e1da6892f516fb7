"""Is what a body names in the tables? Crops, findings and packs are text ids there, not ids of phones."""

from __future__ import annotations

import uuid
from collections.abc import Iterable

from homestead.ledger.kinds import Refused
from homestead.reference import crop_ids, finding_ids, pack_ids
from homestead.store.models import OwnCrop


def check_crop(household: uuid.UUID, crop: str, *, among: frozenset[str] | None = None) -> None:
    """Raise `Refused`; for an own crop not here yet it is not permanent, since its edit may be on the way."""
    if crop in (crop_ids() if among is None else among):
        return
    if "-" not in crop:
        raise Refused("crop_unknown", f"There is no crop {crop} in the table.", where="crop", crop=crop)
    if not OwnCrop.rows.of(household).filter(uuid=crop).exists():
        sentence = "The crop of your own that this names is not here yet: send its phone's entries first."
        raise Refused("unknown_reference", sentence, permanent=False, where="crop", crop=crop)


def check_findings(findings: Iterable[str]) -> None:
    for finding in findings:
        if finding not in finding_ids():
            sentence = f"There is no finding {finding} in the table: name another, or unsure."
            raise Refused("finding_unknown", sentence, where="findings", finding=finding)


def check_pack(pack: str | None) -> None:
    if pack is not None and pack not in pack_ids():
        raise Refused("pack_unknown", f"There is no pack {pack} in the table.", where="pack", pack=pack)
