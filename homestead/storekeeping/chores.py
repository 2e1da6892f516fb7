"""Chores: what is open, what is done, who took it on (F19). Twin: `chores.ts`."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator

from homestead.storekeeping.amounts import filled
from homestead.storekeeping.days import day_text
from homestead.storekeeping.lot import Lot
from homestead.storekeeping.order import Event, by_key
from homestead.storekeeping.state import ChoreDone, Claim, Offer, OpenChore
from homestead.storekeeping.suspects import standing_decision, state_of


def open_chores(lot: Lot) -> Iterator[OpenChore]:
    """Standing decisions of a lot that are to be carried out; the key is the decision's id."""
    for doubt in lot.suspects.values():
        decided = standing_decision(doubt)
        if decided is None or state_of(doubt) != "to_do":
            continue
        body = decided.event.body
        pieces, grams = filled(doubt.pieces, doubt.grams, lot.ratio)
        yield OpenChore(
            key=decided.event.id,
            lot=lot.origin.birth.id,
            suspect=doubt.event.id,
            do=body["do"],
            animals=body.get("animals"),
            doer=body.get("doer"),
            by=body.get("by"),
            pieces=pieces,
            grams=grams,
        )


def chores_done(events: Iterable[Event], only_shown: Container[str]) -> dict[str, ChoreDone]:
    """The first of each key by F2. only_shown: ids of those that came second or too late for a suspect."""
    done: dict[str, ChoreDone] = {}
    others: list[Event] = []
    for event in sorted(events, key=by_key):
        if event.body["chore"] in done or event.id in only_shown:
            others.append(event)
            continue
        done[event.body["chore"]] = ChoreDone(
            entry=event.id,
            person=event.written["person"],
            when_ms=event.when_ms,
            day=day_text(event.day),
            minutes=event.body.get("minutes"),
            others=[],
        )
    for event in others:
        if event.body["chore"] in done:
            done[event.body["chore"]]["others"].append(event.id)
    return done


def taken(events: Iterable[Event]) -> tuple[dict[str, Claim], dict[str, Offer]]:
    """Who took each chore on, and which are free to be taken. Events are claims and offers that count."""
    claims: dict[str, Claim] = {}
    offers: dict[str, Offer] = {}
    for event in sorted(events, key=_by_seq):
        key, person, has_it = event.body["chore"], event.written["person"], claims.get(event.body["chore"])
        if event.kind == "offer":
            if has_it is None or has_it["person"] == person:
                offers.setdefault(key, Offer(entry=event.id, person=person, when_ms=event.when_ms))
        elif has_it is None or key in offers:
            claims[key] = Claim(entry=event.id, person=person, when_ms=event.when_ms, others=[])
            offers.pop(key, None)
        else:
            has_it["others"].append(event.id)
    return claims, offers


def _by_seq(event: Event) -> tuple[bool, int, tuple[int, str, int, str]]:
    return event.seq is None, event.seq or 0, event.key
