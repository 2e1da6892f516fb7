"""Entries to stock: the fold (docs/fold.md). Pure, whatever the order of arrival.

Twin: `frontend/src/storekeeping/fold.ts`.

    folded = fold_all(lines, setting)          # everything held
    touched = fold_on(folded, line)            # one line more, or changed; lots whose state may differ
    lot_at(folded, lot_id, today)              # one lot, as plain JSON
    state_at(folded, today)                    # all of it, as plain JSON

`today` is a day of the household, `YYYY-MM-DD`: what hangs on it (presumed, edible) is worked out on asking.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from homestead.storekeeping.chores import chores_done, open_chores, taken
from homestead.storekeeping.days import day_number, day_text, zone_named
from homestead.storekeeping.folded import Folded
from homestead.storekeeping.order import (
    PLAIN_FACTS,
    RESTS_ON_OTHERS,
    Event,
    by_key,
    event_of,
    folds,
    moment,
    stands_before,
)
from homestead.storekeeping.showing import described_as, lot_state, past_entry
from homestead.storekeeping.state import (
    ChoreDone,
    Claim,
    Fact,
    FoldState,
    Line,
    LotRecord,
    LotState,
    Offer,
    OpenChore,
    PastEntry,
    Setting,
    Went,
)
from homestead.storekeeping.tallies import row_of_lot, scrap_rows

__all__ = [
    "Folded",
    "chores_done_of",
    "claims_of",
    "describe_lots",
    "facts_of",
    "fold_all",
    "fold_on",
    "lot_at",
    "lot_ids",
    "lot_without_past",
    "moment_of",
    "open_chores_of",
    "state_at",
    "went_of",
    "went_of_all",
]


def fold_all(lines: Iterable[Line], setting: Setting) -> Folded:
    """Fold everything. Edits, unknown kinds, refused lines are left out; a line given twice counts once."""
    taken: dict[str, Line] = {}
    for line in lines:
        if folds(line):
            id_ = line["written"]["id"]
            other = taken.get(id_)
            if other is None or stands_before(line, other):
                taken[id_] = line
    folded = Folded(setting)
    folded.fill(event_of(line, folded.zone) for line in taken.values())
    return folded


def fold_on(folded: Folded, line: Line) -> set[str]:
    """Add a line, or give a known one its `seq`, its skew or its refusal.

    Returns the ids of lots whose state may differ now. The result equals folding all.
    """
    known = folded.events.get(line["written"]["id"])
    if known is None:
        return folded.add(event_of(line, folded.zone)) if folds(line) else set()
    if known.seq is not None or line["written"]["device_no"] < known.written["device_no"]:
        return set()
    if not folds(line):
        return folded.remove(known)
    event = event_of(line, folded.zone)
    if event.key == known.key and event.body == known.body:
        known.seq = event.seq
        return set()
    return folded.remove(known) | folded.add(event)


def describe_lots(folded: Folded, lots: Mapping[str, LotRecord]) -> None:
    """The lots' records changed: nothing is folded again."""
    folded.setting = {**folded.setting, "lots": lots}


def lot_ids(folded: Folded) -> Sequence[str]:
    """Lots that were born and stand, in order of birth."""
    return sorted(folded.lots, key=lambda id_: folded.events[id_].key)


def lot_at(folded: Folded, lot: str, today: str) -> LotState | None:
    """One lot, None where no such lot stands."""
    if lot not in folded.lots:
        return None
    return _lot_state(folded, lot, [_past(folded, event) for event in folded.naming(lot)], today)


def lot_without_past(folded: Folded, lot: str, today: str) -> LotState | None:
    """`lot_at` for tables, which keep entries and photos elsewhere: no history, no photos, in less time."""
    return _lot_state(folded, lot, (), today) if lot in folded.lots else None


def _lot_state(folded: Folded, lot: str, past: Sequence[PastEntry], today: str) -> LotState:
    described = described_as(lot, folded.lots, folded.setting.get("lots", {}))
    return lot_state(folded.lots[lot], folded.setting, described, past, day_number(today))


def went_of(folded: Folded, lot: str) -> list[Went]:
    """What left a lot and where it went, in order."""
    stock = folded.lots.get(lot)
    return [] if stock is None else [row_of_lot(stock, row) for row in stock.rows]


def went_of_all(folded: Folded) -> list[Went]:
    """What left all lots, and scraps no lot's entry told of, in order (F2)."""
    rows = [row for lot in folded.lots for row in went_of(folded, lot)]
    for event in folded.of_kind["scrap"].values():
        if event.counts:
            lot = folded.lots.get(event.body.get("lot", ""))
            rows.extend(scrap_rows(event, None if lot is None else lot.origin.crop))
    rows.sort(key=lambda row: (folded.events[row["entry"]].key, row["lot"] or ""))
    return rows


def open_chores_of(folded: Folded) -> list[OpenChore]:
    """Decisions to be carried out, by lot in order of birth."""
    return [chore for lot in lot_ids(folded) for chore in open_chores(folded.lots[lot])]


def chores_done_of(folded: Folded) -> dict[str, ChoreDone]:
    """Of standing chores, of sheets, and of decisions where they count in their lot."""
    events = [event for event in folded.of_kind["chore_done"].values() if event.counts]
    here = [event for event in events if _of_no_decision(event) or folded.placed_in(event)]
    return chores_done(here, {event.id for event in here if folded.shown_only(event)})


def _of_no_decision(event: Event) -> bool:
    return event.kind == "chore_done" and "/" in event.body["chore"]


def claims_of(folded: Folded) -> dict[str, Claim]:
    """Who took which chore on, by its key."""
    return _taken(folded)[0]


def offers_of(folded: Folded) -> dict[str, Offer]:
    """Which chores are free to be taken, by their key."""
    return _taken(folded)[1]


def _taken(folded: Folded) -> tuple[dict[str, Claim], dict[str, Offer]]:
    both = (*folded.of_kind["claim"].values(), *folded.of_kind["offer"].values())
    return taken(event for event in both if event.counts)


def facts_of(folded: Folded) -> list[Fact]:
    """Rounds, readings, eggs, looks into a pail and work on a heap, by F2."""
    facts = [event for kind in PLAIN_FACTS for event in folded.of_kind[kind].values() if event.counts]
    return [
        Fact(
            id=event.id,
            kind=event.kind,
            person=event.written["person"],
            when_ms=event.when_ms,
            day=day_text(event.day),
            body=event.body,
            flags=["clock"] if event.clock_doubted else [],
        )
        for event in sorted(facts, key=by_key)
    ]


def state_at(folded: Folded, today: str) -> FoldState:
    """All lots, tallies, chores and claims."""
    done = chores_done_of(folded)
    past = {id_: _past(folded, event, done) for id_, event in folded.events.items()}
    went = went_of_all(folded)
    return FoldState(
        lots={
            lot: _lot_state(folded, lot, [past[event.id] for event in folded.naming(lot)], today)
            for lot in lot_ids(folded)
        },
        went=went,
        accidents=[row for row in went if row["accident"]],
        chores=open_chores_of(folded),
        chores_done=done,
        claims=claims_of(folded),
        offers=offers_of(folded),
        facts=facts_of(folded),
        past=past,
    )


def _past(folded: Folded, event: Event, done: Mapping[str, ChoreDone] = {}) -> PastEntry:
    """done: chores done, to tell which one of a standing chore is only shown."""
    counts, flags = event.counts, folded.flags(event)
    if counts and _of_no_decision(event):
        counts = done[event.body["chore"]]["entry"] == event.id
        flags = flags if counts else [*flags, "second"]
    elif counts and event.kind in RESTS_ON_OTHERS:
        placed = folded.placed_in(event)
        counts = bool(placed) and not folded.shown_only(event)
    return past_entry(event, counts, flags)


def moment_of(line: Line, zone: str) -> tuple[int, str]:
    """`when` [ms since 1970, UTC] and day of a line (F1): for the server's tables and the screens too."""
    when_ms, day = moment(line, zone_named(zone))
    return when_ms, day_text(day)
