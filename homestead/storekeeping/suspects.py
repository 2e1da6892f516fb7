"""Suspects, what was decided about them, and the chores that follow (F19). Twin: `suspects.ts`."""

from __future__ import annotations

from typing import Literal

from homestead.storekeeping.amounts import Maybe, filled
from homestead.storekeeping.leaving import clear_seen, out
from homestead.storekeeping.lot import Decided, Doubt, Lot, Row
from homestead.storekeeping.order import Event
from homestead.storekeeping.state import Do, Step

#: the lower, the further to the right
_LOWER: tuple[Do, ...] = ("keep", "use_first", "trim", "raw", "cook", "pot", "animals", "compost", "bin")
_RANK: dict[Do, int] = {do: rank for rank, do in enumerate(_LOWER)}
_STEP_OF: dict[Do, Step] = {"use_first": "cook", "trim": "cook"}


def suspect(lot: Lot, event: Event) -> None:
    lot.suspects[event.id] = Doubt(event)


def decision(lot: Lot, event: Event) -> None:
    doubt = lot.suspects[event.body["suspect"]]
    decided = Decided(event)
    doubt.decisions.append(decided)
    told = event.body.get("out")
    if doubt.closed:
        lot.only_show(event, "after_finish")
    elif told is not None and doubt.gone:
        lot.only_show(event, "second")
    elif told is not None:
        doubt.gone = decided.done = True
        out(lot, event, told)


def chore_done(lot: Lot, event: Event) -> None:
    """The first one counts; a second, or one after the lot was finished, is only shown."""
    doubt, decided = _decided(lot, event.body["chore"])
    told = event.body.get("out")
    if doubt.closed:
        lot.only_show(event, "after_finish")
    elif doubt.gone:
        lot.only_show(event, "second")
    elif told is not None:
        doubt.gone = decided.done = True
        out(lot, event, told)
    elif decided.event.body["do"] == "keep":
        lot.only_show(event, "nothing_there")
    else:
        doubt.gone = decided.done = True
        _suspect_leaves(lot, event, doubt, decided)


def _decided(lot: Lot, key: str) -> tuple[Doubt, Decided]:
    return next(
        (doubt, decided)
        for doubt in lot.suspects.values()
        for decided in doubt.decisions
        if decided.event.id == key
    )


def _suspect_leaves(lot: Lot, event: Event, doubt: Doubt, decided: Decided) -> None:
    """Done as decided, with no more words: the suspect's amount goes to the decision's step."""
    body = decided.event.body
    if (doubt.grams if lot.own_measure == "grams" else doubt.pieces) is None:
        lot.counted_well = False
    pieces, grams = filled(doubt.pieces, doubt.grams, lot.ratio)
    lot.lower(pieces, grams)
    step: Step = _STEP_OF.get(body["do"], body["do"])
    lot.rows.append(Row(event, step, pieces, grams, body, doubt.event.body["findings"]))
    clear_seen(lot, doubt.event.body["findings"], pieces)


def standing_decision(doubt: Doubt) -> Decided | None:
    """Of several the lowest stands; of equal ones the first."""
    return max(doubt.decisions, key=lambda decided: _RANK[decided.event.body["do"]], default=None)


def state_of(doubt: Doubt) -> Literal["open", "kept", "to_do", "gone", "closed"]:
    """`open` undecided, `kept`, `to_do` the chore is open, `gone` it left, `closed` its lot was finished."""
    if doubt.gone:
        return "gone"
    if doubt.closed:
        return "closed"
    standing = standing_decision(doubt)
    if standing is None:
        return "open"
    return "kept" if standing.event.body["do"] == "keep" else "to_do"


def held(lot: Lot) -> tuple[Maybe, Maybe]:
    """F13: pieces and grams of suspects neither kept nor gone: stock, no food."""
    pieces: Maybe = 0.0
    grams: Maybe = 0.0
    for doubt in lot.suspects.values():
        if state_of(doubt) in ("open", "to_do"):
            its_pieces, its_grams = filled(doubt.pieces, doubt.grams, lot.ratio)
            pieces = None if pieces is None or its_pieces is None else pieces + its_pieces
            grams = None if grams is None or its_grams is None else grams + its_grams
    return pieces, grams
