"""A lot as people and tables read it, as of a day (F12 to F18). Twin: `showing.ts`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple, cast

from homestead.storekeeping.amounts import NEAR, Maybe, filled
from homestead.storekeeping.days import day_number, day_text, winter_of
from homestead.storekeeping.edible import edible_grams, refuse_share
from homestead.storekeeping.known import COUNTED_DAYS, known_as, shown_amount
from homestead.storekeeping.lot import Decided, Doubt, Lot
from homestead.storekeeping.order import Event
from homestead.storekeeping.state import (
    Amount,
    DecisionState,
    Flag,
    LotRecord,
    LotState,
    Mark,
    PastEntry,
    SeedKept,
    Setting,
    StandingFinding,
    SuspectState,
)
from homestead.storekeeping.suspects import held, standing_decision, state_of
from homestead.storekeeping.tallies import tallies_of


class Food(NamedTuple):
    shown: Amount
    seed: SeedKept
    held: Amount
    food: Amount


def food_of(lot: Lot, shown: tuple[Maybe, Maybe]) -> Food:
    """F13: food = there - seed - suspects, in each measure."""
    kept = filled(*lot.seed, lot.ratio)
    seed = _at_most(kept[0], shown[0]), _at_most(kept[1], shown[1])
    doubted = held(lot)
    return Food(
        _amount(shown),
        SeedKept(pieces=seed[0], grams=seed[1], treated=lot.seed_treated),
        _amount(doubted),
        Amount(
            pieces=_food(shown[0], seed[0], doubted[0]),
            grams=_food(shown[1], seed[1], doubted[1]),
        ),
    )


def _amount(pair: tuple[Maybe, Maybe]) -> Amount:
    return Amount(pieces=pair[0], grams=pair[1])


def _at_most(amount: Maybe, there: Maybe) -> Maybe:
    return amount if amount is None or there is None else min(amount, there)


def _food(there: Maybe, seed: Maybe, doubted: Maybe) -> Maybe:
    return None if there is None or seed is None or doubted is None else max(there - seed - doubted, 0.0)


def lot_state(
    lot: Lot, setting: Setting, described: LotRecord, past: Sequence[PastEntry], today: int
) -> LotState:
    """described: what the lot's record, or its parent's, says in place of its birth."""
    origin = lot.origin
    known = known_as(lot, today)
    food = food_of(lot, shown_amount(lot, today, known))
    refuse = refuse_share(origin.crop, setting["figures"].get(origin.crop, {}), today - origin.put_away_day)
    photos = [photo for entry in past if entry["counts"] for photo in entry["photos"]]
    return LotState(
        id=origin.birth.id,
        crop=origin.crop,
        variety=described.get("variety", origin.variety),
        label=described.get("label", origin.label),
        code=described.get("code", origin.code),
        parent=origin.parent,
        born_by=origin.birth.kind,  # type: ignore[typeddict-item]
        method=origin.method,
        space=lot.space,
        spot=lot.spot,
        pack=lot.pack,
        put_away_day=day_text(origin.put_away_day),
        born_day=day_text(origin.birth.day),
        winter=described.get("winter", winter_of(origin.put_away_day, setting["hemisphere"])),
        curing=lot.curing,
        cures_until=origin.cures_until,
        keeps_until=origin.keeps_until,
        pieces=lot.pieces,
        grams=lot.grams,
        ratio=lot.ratio,
        own_measure=lot.own_measure,
        known=known,
        counted_until=_counted_until(lot) if known == "counted" else None,
        shown=food.shown,
        seed=food.seed,
        held=food.held,
        food=food.food,
        edible_grams=edible_grams(food.food["grams"], refuse),
        asks_count=lot.asks_count or below_nought(lot),
        finished=lot.finished,
        tallies=tallies_of(lot),
        suspects=[suspect_state(lot, doubt) for doubt in lot.suspects.values()],
        standing=standing_findings(lot),
        last_look=mark(lot.last_look),
        last_count=None if lot.last_count is None else mark(lot.last_count),
        last_entry=mark(lot.last_entry),
        look_on=look_on(lot),
        first_photo=photos[0] if photos else None,
        last_photo=photos[-1] if photos else None,
        history=list(past),
    )


def _counted_until(lot: Lot) -> str | None:
    return None if lot.last_count is None else day_text(lot.last_count.day + COUNTED_DAYS)


def below_nought(lot: Lot) -> bool:
    return (lot.pieces or 0.0) < -NEAR or (lot.grams or 0.0) < -NEAR


def mark(event: Event) -> Mark:
    return Mark(entry=event.id, when_ms=event.when_ms, day=day_text(event.day))


def standing_findings(lot: Lot) -> list[StandingFinding]:
    """F18: what the last look saw, less what went out since, and the findings of open suspects."""
    standing = [
        StandingFinding(
            finding=seen.finding,
            entry=seen.event.id,
            pieces=seen.pieces,
            looked=seen.looked,
            share=_share(seen.pieces, seen.looked),
            suspect=False,
        )
        for seen in lot.standing
    ]
    among = _looked_last(lot)
    for doubt in lot.suspects.values():
        if state_of(doubt) == "open":
            standing.extend(
                StandingFinding(
                    finding=finding,
                    entry=doubt.event.id,
                    pieces=doubt.pieces,
                    looked=among,
                    share=_share(doubt.pieces, among),
                    suspect=True,
                )
                for finding in doubt.event.body["findings"]
            )
    return standing


def _share(pieces: Maybe, looked: Maybe) -> Maybe:
    return None if pieces is None or not looked or looked < 0 else min(pieces / looked, 1.0)


def _looked_last(lot: Lot) -> Maybe:
    """Pieces the last look saw; without a number those that are there."""
    looked: Maybe = lot.last_look.body.get("looked")
    return lot.pieces if looked is None else looked


def look_on(lot: Lot) -> str | None:
    """F17: the earliest day a standing decision asks to look again, not looked at on that day or since."""
    days = [
        decided.event.body["look_on"]
        for doubt in lot.suspects.values()
        if state_of(doubt) in ("kept", "to_do") and (decided := standing_decision(doubt)) is not None
        if "look_on" in decided.event.body
    ]
    return min((day for day in days if day_number(day) > lot.last_look.day), default=None)


def suspect_state(lot: Lot, doubt: Doubt) -> SuspectState:
    event, standing = doubt.event, standing_decision(doubt)
    pieces, grams = filled(doubt.pieces, doubt.grams, lot.ratio)
    return SuspectState(
        id=event.id,
        lot=lot.origin.birth.id,
        person=event.written["person"],
        when_ms=event.when_ms,
        day=day_text(event.day),
        state=state_of(doubt),
        lies=event.body["lies"],
        findings=list(event.body["findings"]),
        pieces=pieces,
        grams=grams,
        photos=list(event.written.get("photos", ())),
        decisions=[_decision_state(decided, decided is standing) for decided in doubt.decisions],
    )


def _decision_state(decided: Decided, stands: bool) -> DecisionState:
    event = decided.event
    body = event.body
    return DecisionState(
        id=event.id,
        person=event.written["person"],
        when_ms=event.when_ms,
        do=body["do"],
        animals=body.get("animals"),
        doer=body.get("doer"),
        by=body.get("by"),
        look_on=body.get("look_on"),
        with_out="out" in body,
        stands=stands,
        done=decided.done,
    )


def past_entry(event: Event, counts: bool, flags: list[Flag]) -> PastEntry:
    return PastEntry(
        id=event.id,
        kind=event.kind,
        person=event.written["person"],
        when_ms=event.when_ms,
        day=day_text(event.day),
        counts=counts,
        struck_by=event.struck_by,
        flags=flags,
        photos=list(event.written.get("photos", ())),
    )


def described_as(lot: str, lots: Mapping[str, Lot], records: Mapping[str, LotRecord]) -> LotRecord:
    """A part is described as the lot it came from, but for its own code and what its own record says.

    A field left empty in a record says nothing.
    """
    described: dict[str, Any] = {}
    parent = lots[lot].origin.parent
    if parent is not None and parent in lots:
        described |= described_as(parent, lots, records)
        described.pop("code", None)
    own = records.get(lot, {})
    return cast(LotRecord, described | {name: value for name, value in own.items() if value})
