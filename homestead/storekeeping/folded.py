"""All entries held, which lot each names, and the lots made of them. Twin: `folded.ts`.

A lot is folded from its birth on through the entries that name it; a part is born with what the lot it came
from had at that moment, so it is folded after it.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping

from homestead.storekeeping.counting import count, inspection
from homestead.storekeeping.days import zone_named
from homestead.storekeeping.leaving import cull, take, trim
from homestead.storekeeping.lot import Lot, Origin
from homestead.storekeeping.moving import move, put_away_origin, put_by, put_by_origin, set_aside
from homestead.storekeeping.order import (
    NAMES_A_LOT,
    PLAIN_FACTS,
    RESTS_ON_OTHERS,
    Event,
    arranged,
    by_device_no,
    by_key,
    doubt_clocks,
    ground_of,
    settle_strikes,
)
from homestead.storekeeping.state import Flag, Setting
from homestead.storekeeping.suspects import chore_done, decision, suspect

_RULES: Mapping[str, Callable[[Lot, Event], None]] = {
    "take": take,
    "cull": cull,
    "trim": trim,
    "move": move,
    "count": count,
    "set_aside": set_aside,
    "put_by": put_by,
    "inspection": inspection,
    "suspect": suspect,
    "decision": decision,
    "chore_done": chore_done,
}

_ASKED_BY_KIND = PLAIN_FACTS | {"strike", "claim", "offer", "chore_done", "scrap"}


class Folded:
    """Ask by the functions of `fold`; write nothing in it."""

    def __init__(self, setting: Setting) -> None:
        self.setting = setting
        self.zone = zone_named(setting["zone"])
        self.events: dict[str, Event] = {}
        self.lots: dict[str, Lot] = {}
        self.of_kind: defaultdict[str, dict[str, Event]] = defaultdict(dict)
        self._of_device: defaultdict[str, list[Event]] = defaultdict(list)
        self._naming: defaultdict[str, dict[str, Event]] = defaultdict(dict)
        self._resting_on: defaultdict[str, dict[str, Event]] = defaultdict(dict)
        self._strikes_on: defaultdict[str, dict[str, Event]] = defaultdict(dict)

    # -- which lot an entry is about

    def lots_named(self, event: Event) -> tuple[str, ...]:
        """The lots whose life an entry belongs to, known here or not; its own lot not among them."""
        kind, body = event.kind, event.body
        if kind in NAMES_A_LOT:
            lot = body.get("lot")
            return (lot,) if lot is not None and lot != event.id else ()
        if kind == "put_by":
            return tuple({each["lot"]: None for each in body["from"] if each["lot"] != event.id})
        ground = self.events.get(ground_of(event) or "")
        if ground is None or ground.kind != ("suspect" if kind == "decision" else "decision"):
            return ()
        return self.lots_named(ground)

    def naming(self, lot: str) -> list[Event]:
        """Every entry of a lot's life, struck ones too, by F2."""
        return sorted(self._naming[lot].values(), key=by_key)

    def placed_in(self, event: Event) -> list[Lot]:
        """The lots in which an entry has its turn."""
        lots = (self.lots.get(lot) for lot in self.lots_named(event))
        return [lot for lot in lots if lot is not None and event.id in lot.placed]

    def shown_only(self, event: Event) -> bool:
        return any(event.id in lot.shown_only for lot in self.placed_in(event))

    def flags(self, event: Event) -> list[Flag]:
        """What is doubtful about an entry: its clock, what it names, what its lots say."""
        flags: list[Flag] = ["clock"] if event.clock_doubted else []
        if not event.counts:
            return flags
        lots = self.placed_in(event)
        if len(lots) < self._lots_needed(event):
            flags.append("nothing_there")
        flags.extend(flag for lot in lots for flag in lot.flags.get(event.id, ()) if flag not in flags)
        return flags

    def _lots_needed(self, event: Event) -> int:
        if event.kind == "put_by":
            return len(self.lots_named(event))
        if event.kind == "chore_done" and "/" in event.body["chore"]:
            return 0
        return 1 if event.kind in RESTS_ON_OTHERS else 0

    # -- all at once

    def fill(self, events: Iterable[Event]) -> None:
        for event in sorted(events, key=by_key):
            self.events[event.id] = event
        for event in self.events.values():
            self._index(event)
            self._name(event)
            self._of_device[event.written["device"]].append(event)
        settle_strikes(self.of_kind["strike"].values(), self.events)
        for of_device in self._of_device.values():
            of_device.sort(key=by_device_no)
            doubt_clocks(of_device)
        for event in self.events.values():
            if event.kind in ("put_away", "put_by"):
                self._refold(event.id)

    # -- one by one

    def add(self, event: Event) -> set[str]:
        """Takes one more entry; the ids of lots whose state may differ."""
        self.events[event.id] = event
        self._index(event)
        self._name_with_what_rests(event)
        insort(self._of_device[event.written["device"]], event, key=by_device_no)
        changed = self._settle() if event.kind == "strike" or event.id in self._strikes_on else set()
        touched = self._doubt_near(event)
        touched |= self._place(event) if event.counts else set(self._about(event))
        return touched | self._refold_for(changed - {event.id})

    def remove(self, event: Event) -> set[str]:
        """Forgets an entry, refused or out of its place; the ids of lots whose state may differ."""
        event.counts = False
        touched = self._doubt_near(event)
        about = self._about(event)
        self._of_device[event.written["device"]].remove(event)
        self._name_with_what_rests(event, forget=True)
        self._index(event, forget=True)
        del self.events[event.id]
        changed = set()
        if event.kind == "strike":
            struck = self.events.get(event.written["strikes"])
            if struck is not None:
                changed = {struck.id}
                struck.counts, struck.struck_by = True, None
            changed |= self._settle()
        for lot in about:
            touched |= self._refold(lot)
        return touched | self._refold_for(changed)

    def _settle(self) -> set[str]:
        return settle_strikes(self.of_kind["strike"].values(), self.events)

    def _doubt_near(self, event: Event) -> set[str]:
        of_device = self._of_device[event.written["device"]]
        changed = doubt_clocks(of_device, bisect_left(of_device, by_device_no(event), key=by_device_no))
        return {lot for id_ in changed for lot in self._about(self.events[id_])}

    def _about(self, event: Event) -> tuple[str, ...]:
        """Lots an entry belongs to, with its own."""
        return (*self.lots_named(event), event.id) if event.id in self._naming else self.lots_named(event)

    def _index(self, event: Event, *, forget: bool = False) -> None:
        shelves: list[tuple[defaultdict[str, dict[str, Event]], str]] = []
        ground = ground_of(event)
        if ground is not None:
            shelves.append((self._resting_on, ground))
        if event.kind in _ASKED_BY_KIND:
            shelves.append((self.of_kind, event.kind))
        if event.kind == "strike":
            shelves.append((self._strikes_on, event.written["strikes"]))
        _put(shelves, event, forget)

    def _name(self, event: Event, *, forget: bool = False) -> None:
        shelves = [(self._naming, lot) for lot in self.lots_named(event)]
        if event.kind in ("put_away", "put_by") or (event.kind == "move" and not event.body["all"]):
            shelves.append((self._naming, event.id))
        _put(shelves, event, forget)

    def _name_with_what_rests(self, event: Event, *, forget: bool = False) -> None:
        """A suspect tells which lot its decisions are about, a decision which lot its chores are."""
        self._name(event, forget=forget)
        if event.kind in ("suspect", "decision"):
            for resting in self._resting_on.get(event.id, {}).values():
                self._name_with_what_rests(resting, forget=forget)

    # -- folding

    def _place(self, event: Event) -> set[str]:
        """An entry that sorts last is added to its lot; else that lot is folded anew."""
        touched = set()
        for id_ in self.lots_named(event):
            lot = self.lots.get(id_)
            if lot is None or event.kind == "scrap":
                touched.add(id_)
            elif event.key > lot.last_key and self._comes_last(event, lot):
                _apply(lot, event)
                touched.add(id_)
            else:
                touched |= self._refold(id_)
        return touched | self._refold(event.id) if event.id in self._naming else touched

    def _comes_last(self, event: Event, lot: Lot) -> bool:
        ground = ground_of(event)
        return (ground is None or ground in lot.placed) and not self._resting_on.get(event.id)

    def _refold_for(self, changed: Iterable[str]) -> set[str]:
        """Folds anew the lots of entries that count now, or no longer."""
        touched: set[str] = set()
        for id_ in changed:
            event = self.events[id_]
            touched |= self._doubt_near(event)
            for lot in self._about(event):
                touched |= self._refold(lot)
        return touched

    def _refold(self, first: str) -> set[str]:
        """Folds a lot anew, and the parts moved from it."""
        touched, waiting = set(), [first]
        while waiting:
            id_ = waiting.pop()
            before = self.lots.pop(id_, None)
            touched.add(id_)
            touched |= self._sharing_a_put_by(id_)
            waiting.extend(before.parts if before else ())
            origin = self._origin(id_)
            if origin is not None:
                lot = self.lots[id_] = self._run(origin)
                waiting.extend(part for part in lot.parts if before is None or part not in before.parts)
        return touched

    def _sharing_a_put_by(self, lot: str) -> set[str]:
        """A put-by stands in the lives of all its lots, with what any of them says of it."""
        put_bys = (event for event in self._naming[lot].values() if event.kind == "put_by")
        return {other for event in put_bys for other in self._about(event)}

    def _origin(self, id_: str) -> Origin | None:
        birth = self.events.get(id_)
        if birth is None or not birth.counts:
            return None
        if birth.kind == "put_away":
            return put_away_origin(birth, self.setting["figures"])
        if birth.kind == "put_by":
            return put_by_origin(birth, self.setting["figures"])
        parent = self.lots.get(birth.body["lot"]) if birth.kind == "move" else None
        return None if parent is None else parent.parts.get(id_)

    def _run(self, origin: Origin) -> Lot:
        lot = Lot(origin)
        named = self._naming[origin.birth.id].values()
        own = sorted((each for each in named if each.counts and each.kind in _RULES), key=by_key)
        for event in arranged(each for each in own if each is not origin.birth):
            _apply(lot, event)
        return lot


def _put(
    shelves: Iterable[tuple[defaultdict[str, dict[str, Event]], str]], event: Event, forget: bool
) -> None:
    for shelf, name in shelves:
        if forget:
            shelf[name].pop(event.id, None)
        else:
            shelf[name][event.id] = event


def _apply(lot: Lot, event: Event) -> None:
    """One entry in its turn. A finished lot is opened by what says that there is something (F12)."""
    if lot.finished and event.kind not in ("decision", "chore_done") and event.body.get("way") != "none":
        lot.finished = False
    _RULES[event.kind](lot, event)
    lot.placed.add(event.id)
    if event.key > lot.last_key:
        lot.last_key = event.key
    if event.id not in lot.shown_only:
        lot.last_entry = event
