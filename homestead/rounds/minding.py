"""The one document a minder's phone gets: chores and walks of its days, whom to ring, and nothing else.

Of the store only the lots on those walks, without amounts; of the family only whom the household wrote down
to be rung. docs/sync.md tells its shape.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterable, Iterator
from typing import Any
from zoneinfo import ZoneInfo

from homestead.household.models import Household, MinderLink
from homestead.ledger.reads import records_of, sheets_of
from homestead.rounds.asked import occurrences
from homestead.rounds.models import Chore, FindingSeen, Inspection, Suspect
from homestead.store.models import Lot, Space


def document_of(link: MinderLink, now: dt.datetime) -> dict[str, Any]:
    """Everything of those days. Worked out anew at each asking: the roster looks 14 days ahead."""
    household = Household.objects.get(pk=link.household_id)
    walks = list(_walks(link))
    lots = {lot for walk in walks for lot in walk["lots"]}
    today = now.astimezone(ZoneInfo(household.zone)).date()
    return {
        "household": household.name,
        "zone": household.zone,
        "language": household.language,
        "person": str(link.person),
        "from": link.from_day.isoformat(),
        "until": link.until.isoformat(),
        "ring": _ring(link.household_id),
        "way": link.way,
        "note": link.note,
        "animals": _animals(link.household_id),
        "chores": list(_chores(link, max(link.from_day, today))),
        "walks": walks,
        "spaces": _spaces(link.household_id, {walk["space"] for walk in walks}),
        "lots": [_told_lot(lot) for lot in _lots(link.household_id, lots)],
        "home": [_told_lot(lot) for lot in _sound(_lots(link.household_id, set(link.home)))],
    }


def _ring(household: uuid.UUID) -> list[dict[str, str]]:
    [record] = records_of(household, "household")
    found: list[dict[str, str]] = list(record["values"].get("ring", ()))
    return found


def _animals(household: uuid.UUID) -> list[dict[str, Any]]:
    """Groups and how many there are, so that they can be counted at dusk."""
    groups = [(one["record"], one["values"]) for one in records_of(household, "animals")]
    return [
        {"id": record, "name": told["name"], "kind": told["kind"], "number": told.get("number")}
        for record, told in sorted(groups)
        if not told.get("archived")
    ]


def _chores(link: MinderLink, first: dt.date) -> Iterator[dict[str, Any]]:
    """Standing and free chores that fall on those days, each day one."""
    rows = Chore.rows.of(link.household_id).filter(archived=False).select_related("space")
    for chore in rows.order_by("at", "uuid"):
        for day in _days_of(chore, first, link.until):
            yield {
                "key": f"{chore.uuid}/{day}",
                "day": day.isoformat(),
                "at": chore.at,
                "name": chore.name,
                "note": chore.note,
                "minutes": chore.minutes,
                "needs": list(chore.needs),
                "photo": chore.photo or None,
                "animals": str(chore.animals) if chore.animals else None,
                "cautions": list(chore.space.cautions) if chore.space else [],
            }


def _days_of(chore: Chore, first: dt.date, until: dt.date) -> list[dt.date]:
    found: set[dt.date] = set()
    day = first
    while day <= until:
        found |= {one for one in occurrences(chore, day) if first <= one <= until}
        day += dt.timedelta(days=14)
    return sorted(found)


def _walks(link: MinderLink) -> Iterator[dict[str, Any]]:
    """Walks whose day falls in it; what is late already is the first day's."""
    for sheet in sheets_of(link.household_id, "roster"):
        for walk in sheet["content"]["walks"]:
            if walk["day"] <= link.until.isoformat() and walk["lots"]:
                yield {
                    "key": f"{sheet['key']}/{walk['day']}",
                    "day": max(walk["day"], link.from_day.isoformat()),
                    "space": sheet["content"]["space"],
                    "minutes": walk["minutes"],
                    "lots": walk["lots"],
                }


def _spaces(household: uuid.UUID, ids: Iterable[str]) -> list[dict[str, Any]]:
    rows = Space.rows.of(household).filter(uuid__in=list(ids)).order_by("order", "uuid")
    return [
        {"id": str(one.uuid), "name": one.name, "cautions": list(one.cautions), "note": one.note}
        for one in rows
    ]


def _lots(household: uuid.UUID, ids: Iterable[str]) -> list[Lot]:
    return list(
        Lot.rows.of(household).filter(uuid__in=list(ids), stands=True, finished=False).order_by("uuid")
    )


def _sound(lots: Iterable[Lot]) -> Iterator[Lot]:
    """Of what the keeper ticked: nothing was seen at its last look, no piece of it is doubted."""
    for lot in lots:
        household = lot.household_id
        doubted = Suspect.rows.of(household).filter(lot=lot, state__in=("open", "to_do"))
        looks = Inspection.rows.of(household).filter(lot=lot).exclude(way="none").order_by("-when", "-uuid")
        seen = FindingSeen.rows.of(household).filter(inspection=looks.first(), told_in="seen")
        if not doubted.exists() and not seen.exclude(finding="sound").exists():
            yield lot


def _told_lot(lot: Lot) -> dict[str, Any]:
    """What it is and where it stands; how much there is, is nobody's business."""
    seen = Inspection.rows.of(lot.household_id).filter(lot=lot).order_by("-when")
    photo = next((photos[-1] for photos in seen.values_list("photos", flat=True) if photos), None)
    told = {"id": str(lot.uuid), "crop": lot.crop, "variety": lot.variety, "code": lot.code, "spot": lot.spot}
    return told | {"photo": photo}
