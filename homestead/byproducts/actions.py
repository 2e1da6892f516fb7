"""What changes the byproducts' tables beside the kinds themselves."""

from __future__ import annotations

from homestead.byproducts.models import Scrap
from homestead.ledger.followers import Touched
from homestead.store.days import of_the_household
from homestead.store.models import Went


def keep_scrap_days(touched: Touched) -> None:
    """What went where of scraps is on the scraps' day; of lots the fold tells it."""
    if not of_the_household(touched):
        return
    days = dict(Scrap.rows.of(touched.household).values_list("uuid", "day"))
    rows = Went.rows.of(touched.household).filter(lot=None)
    moved = [row for row in rows if row.entry in days and row.day != days[row.entry]]
    for row in moved:
        row.day = days[row.entry]
    Went.everywhere.bulk_update(moved, ["day"])
