"""What a household's fold stands on: zone, hemisphere, figures of the crops and what its lots are called."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from typing import cast

from homestead.household.models import Household
from homestead.ledger.reads import records_of
from homestead.reference import figures_for_fold
from homestead.storekeeping.state import LotRecord, Setting


def setting_of(household: uuid.UUID) -> Setting:
    """Read anew for each fold: names of lots and figures of crops change by edits."""
    kept = Household.objects.get(pk=household)
    lots = {str(one["record"]): one["values"] for one in records_of(household, "lot")}
    return Setting(
        zone=kept.zone,
        hemisphere="south" if kept.hemisphere == "south" else "north",
        figures=figures_for_fold(),
        lots=cast(Mapping[str, LotRecord], lots),
    )
