"""Keeps in the rounds' tables what the fold says of suspects and decisions, after lots were folded again."""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Sequence

from homestead.rounds.models import Decision, Suspect
from homestead.store.folding import Refolded
from homestead.storekeeping.state import SuspectState


def keep_suspects(refolded: Sequence[Refolded]) -> None:
    """A suspect the fold does not know (struck, or its lot is) has the empty state. All of one household."""
    if not refolded:
        return
    household = refolded[0].household
    lots = [one.lot for one in refolded]
    told = [suspect for one in refolded if one.state for suspect in one.state["suspects"]]
    states = {suspect["id"]: suspect["state"] for suspect in told}
    changed = []
    for row in Suspect.rows.of(household).filter(lot__uuid__in=lots):
        state = states.get(str(row.uuid), "")
        if row.state != state:
            row.state = state
            changed.append(row)
    Suspect.everywhere.bulk_update(changed, ["state"])
    _keep_decisions(household, lots, told)


def _keep_decisions(
    household: uuid.UUID, lots: Iterable[uuid.UUID], suspects: Iterable[SuspectState]
) -> None:
    told = {decision["id"]: decision for suspect in suspects for decision in suspect["decisions"]}
    changed = []
    for row in Decision.rows.of(household).filter(suspect__lot__uuid__in=lots):
        decision = told.get(str(row.uuid))
        stands, done = (decision["stands"], decision["done"]) if decision else (False, False)
        if (row.stands, row.done) != (stands, done):
            row.stands, row.done = stands, done
            changed.append(row)
    Decision.everywhere.bulk_update(changed, ["stands", "done"])
