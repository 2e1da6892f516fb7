"""What rooms want before tonight, as chores to be shared out: lots out of the frost, a room aired.

Both are told by the sheet `rooms` of the night before, or of today: what it cannot tell, nobody is asked for.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections import defaultdict
from collections.abc import Iterator, Mapping
from typing import Any

from homestead.ledger.reads import sheets_of
from homestead.reference import tables
from homestead.rounds.asked import Asked, What
from homestead.rounds.demands import needs_of_door
from homestead.season.heaps import LIFTING
from homestead.store.models import Lot, OwnCrop, Space

#: a sheet tells of tonight for so long
FRESH = dt.timedelta(days=1)
#: crates carried out; a door opened and shut again. Common practice, no source [min]
CARRY_MINUTES, AIR_MINUTES = 15, 5
#: before dark, whatever the month. Ours
AT = "15:30"
#: how near its freezing point a crop is carried out: as the warning's own margin. Ours [°C]
MARGIN_C = 1.0


def rooms_tonight(household: uuid.UUID, today: dt.date) -> Iterator[Asked]:
    """Keys `frost/<space>/<day>`, `vent/<space>/<day>`, `air/<space>/<day>`; each `tonight`.

    `frost` each day it is warned of. `vent` where the air outside was read and opening helps. `air` where it
    was not, and would help between two temperatures outside: once a reading, its day in the key.
    """
    for sheet in sheets_of(household, "rooms"):
        content = sheet["content"]
        if not today - FRESH <= dt.date.fromisoformat(content["day"]) <= today:
            continue
        spaces = {str(one.uuid): one for one in Space.rows.of(household).filter(archived=False)}
        for room in content["rooms"]:
            if space := spaces.get(room["space"]):
                yield from _frost(space, room, today)
                yield from _airing(space, room, today)


def _frost(space: Space, room: Mapping[str, Any], today: dt.date) -> Iterator[Asked]:
    frost = room.get("frost")
    if not frost:
        return
    lowest = frost["lowest_c"]
    lots = lots_that_freeze(space, lowest[0])
    if lots:
        about = {"lots": lots, "lowest_c": lowest, "level": frost["level"]}
        yield _tonight(space, "frost", today, (today, CARRY_MINUTES), about, LIFTING)


def lots_that_freeze(space: Space, lowest_c: float) -> list[str]:
    """Lots of crops whose highest freezing point of the tables lies no more than 1 °C below."""
    freezing: defaultdict[str, list[float]] = defaultdict(list)
    for row in tables().storage:
        if row.freezing_point_c is not None:
            freezing[row.crop_id].append(row.freezing_point_c)
    household = space.household_id
    own = OwnCrop.rows.of(household).exclude(like="").values_list("uuid", "like")
    like = {str(one): crop for one, crop in own}
    lots = Lot.rows.of(household).filter(space=space, stands=True, finished=False).order_by("uuid")
    return [
        str(lot.uuid)
        for lot in lots
        if lowest_c < max(freezing.get(like.get(lot.crop, lot.crop), ()), default=-99.0) + MARGIN_C
    ]


def _airing(space: Space, room: Mapping[str, Any], today: dt.date) -> Iterator[Asked]:
    vent, helps, last = room.get("vent"), room.get("outside_helps"), room.get("last")
    if vent and vent["open"]:
        about = {"why": vent["why"], "shut_at_c": vent["shut_at_c"]}
        yield _tonight(space, "vent", today, (today, AIR_MINUTES), about)
    elif helps and last:
        read_on = dt.datetime.fromisoformat(last["when"]).date()
        yield _tonight(space, "air", today, (read_on, AIR_MINUTES), {"outside_c": helps})


def _tonight(
    space: Space,
    what: What,
    today: dt.date,
    named: tuple[dt.date, int],
    about: Mapping[str, object],
    needs: frozenset[str] = frozenset(),
) -> Asked:
    """`named`: the day in its key, and how long it takes [min]."""
    return Asked(
        key=f"{what}/{space.uuid}/{named[0]}",
        what=what,
        day=today,
        latest=today,
        minutes=named[1],
        needs=needs | needs_of_door(space),
        at=AT,
        tonight=True,
        about={"space": str(space.uuid), **about},
    )
