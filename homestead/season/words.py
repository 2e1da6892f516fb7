"""What the household's finished lots say, kept until a night finds that they are others."""

from __future__ import annotations

import hashlib
import uuid
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from typing import Any

import numpy as np

from homestead.science.chance import Chances
from homestead.science.household import Labels, Saying
from homestead.science.lots import checked
from homestead.science.past import Finished, learn
from homestead.science.ranges import Impossible, OutsideRange
from homestead.science.rooms import Reading, room_wave
from homestead.season.facts import Kept
from homestead.season.models import Learnt


@dataclass(frozen=True)
class Words:
    """`said` of finished lots, and a mark that changes with what they say."""

    said: tuple[Saying, ...] = ()
    mark: str = ""


NOTHING_SAID = Words()


def mark_of(*facts: object) -> str:
    """A short mark of facts: the same facts have the same. Dataclasses write themselves out whole."""
    return hashlib.sha256(repr(facts).encode()).hexdigest()[:16]


def words_of(household: uuid.UUID, kept: Iterable[Kept], chance: Chances, *, anew: bool) -> Words:
    """What the finished lots say.

    `anew`: learn again where they are others; else what was learnt last stands, as far as there is any.
    Learning takes seconds, one push need not wait for it.
    """
    done = finished(kept)
    if not done:
        return NOTHING_SAID
    mark = mark_of(done)
    row = Learnt.rows.of(household).first()
    if row is not None and (row.mark == mark or not anew):
        return Words(tuple(_read(told) for told in row.said), row.mark)
    said = tuple(learn(done, {}, chance).values())
    Learnt.everywhere.update_or_create(
        household_id=household, defaults={"mark": mark, "said": [_told(one) for one in said]}
    )
    return Words(said, mark)


def finished(kept: Iterable[Kept]) -> list[Finished]:
    """Lots that are over, as far as their facts can be; one that cannot be says nothing."""
    return [one for lot in kept if (one := _finished(lot)) is not None]


def _finished(one: Kept) -> Finished | None:
    if one.closed is None or one.facts.pieces <= 0:
        return None
    there: tuple[Reading, ...] = tuple(r for r in one.readings if one.facts.put_away <= r.day < one.closed)
    try:
        checked(one.facts)
        room_wave(one.readings)
    except (OutsideRange, Impossible):
        return None
    return Finished(str(one.lot), one.facts, one.closed, there, one.readings)


def _told(one: Saying) -> dict[str, Any]:
    """An infinite variance, which says nothing, is null: JSON has no infinity."""
    variance = [float(x) if np.isfinite(x) else None for x in one.variance]
    return {"labels": asdict(one.labels), "off": [float(x) for x in one.off], "variance": variance}


def _read(told: Mapping[str, Any]) -> Saying:
    variance = np.array([np.inf if x is None else x for x in told["variance"]])
    return Saying(Labels(**told["labels"]), np.array(told["off"]), variance)
