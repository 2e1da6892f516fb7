"""Keeps in the rounds' tables what the fold says of suspects and decisions, after lots were folded again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from homestead.rounds.models import Decision, Suspect
from homestead.store.folding import Refolded
from homestead.storekeeping.state import SuspectState


def keep_suspects(refolded: Sequence[Refolded]) -> None:
    """A suspect the fold does not know (struck, or its lot is) has the empty state."""
    for one in refolded:
        told = {suspect["id"]: suspect for suspect in (one.state["suspects"] if one.state else ())}
        changed = []
        for row in Suspect.rows.of(one.household).filter(lot__uuid=one.lot):
            state = told[str(row.uuid)]["state"] if str(row.uuid) in told else ""
            if row.state != state:
                row.state = state
                changed.append(row)
        Suspect.everywhere.bulk_update(changed, ["state"])
        _keep_decisions(one, told.values())


def _keep_decisions(one: Refolded, suspects: Iterable[SuspectState]) -> None:
    told = {decision["id"]: decision for suspect in suspects for decision in suspect["decisions"]}
    changed = []
    for row in Decision.rows.of(one.household).filter(suspect__lot__uuid=one.lot):
        decision = told.get(str(row.uuid))
        stands, done = (decision["stands"], decision["done"]) if decision else (False, False)
        if (row.stands, row.done) != (stands, done):
            row.stands, row.done = stands, done
            changed.append(row)
    Decision.everywhere.bulk_update(changed, ["stands", "done"])
