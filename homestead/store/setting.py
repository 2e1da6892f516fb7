"""What a household's fold stands on: zone, hemisphere, figures of the crops and what its lots are called."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from typing import cast

from homestead.household.models import Household
from homestead.ledger.reads import records_of
from homestead.reference import figures_for_fold, with_own
from homestead.storekeeping.state import CropFigures, LotRecord, Setting


def setting_of(household: uuid.UUID) -> Setting:
    """Read anew for each fold: names of lots and figures of crops change by edits."""
    kept = Household.objects.get(pk=household)
    lots = {one["record"]: one["values"] for one in records_of(household, "lot")}
    return Setting(
        zone=kept.zone,
        hemisphere="south" if kept.hemisphere == "south" else "north",
        figures=figures_of(household),
        lots=cast(Mapping[str, LotRecord], lots),
    )


def figures_of(household: uuid.UUID) -> Mapping[str, CropFigures]:
    """The household's own figures before the table's; an own crop borrows those of the crop it is like."""
    own_figures = [one["values"] for one in records_of(household, "figure")]
    own_crops = [one["values"] | {"id": one["record"]} for one in records_of(household, "crop")]
    return cast(Mapping[str, CropFigures], with_own(figures_for_fold(), own_figures, own_crops))
