"""Where each household's ledger stands, for the jobs that go from household to household."""

from __future__ import annotations

import uuid

from django.db.models import OuterRef, Subquery

from homestead.household.models import Household
from homestead.ledger.models import Line


def last_lines() -> dict[uuid.UUID, int]:
    """The seq of every household's last entry or edit, 0 for none; sheets are left out.

    One look in the index a household, so that it may be asked every minute.
    """
    last = Line.everywhere.filter(household=OuterRef("pk")).order_by("-seq").values("seq")[:1]
    return {pk: seq or 0 for pk, seq in Household.objects.values_list("pk", Subquery(last))}


def last_line_of(household: uuid.UUID) -> int:
    """The same for one household."""
    newest = Line.rows.of(household).order_by("-seq").values_list("seq", flat=True).first()
    return newest or 0
