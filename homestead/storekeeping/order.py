"""When an entry happened, in which order entries count and which count at all (F1 to F4).

Twin: `frontend/src/storekeeping/order.ts`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import islice
from operator import attrgetter
from typing import Any

from homestead.storekeeping.days import Zone, day_number, moment_ms
from homestead.storekeeping.state import Line

SKEW_NOTICED_MS = 120_000
SKEW_DOUBTED_MS = 3_600_000
DISORDER_DOUBTED_MS = 600_000

NAMES_A_LOT = frozenset(
    {"take", "cull", "trim", "move", "count", "set_aside", "inspection", "suspect", "scrap"}
)
#: counts nothing where what it names is not here (F4)
RESTS_ON_OTHERS = (NAMES_A_LOT - {"scrap"}) | {"decision", "chore_done"}
#: outside the lots
PLAIN_FACTS = frozenset({"round", "reading", "lay", "pail", "heap"})
KINDS = (
    NAMES_A_LOT | PLAIN_FACTS | {"put_away", "put_by", "decision", "chore_done", "claim", "offer", "strike"}
)

Key = tuple[int, str, int, str]


@dataclass(slots=True, eq=False)
class Event:
    """An entry as the fold sees it. `day` is a number (`days`); `key` sorts by F2."""

    id: str
    kind: str
    body: Mapping[str, Any]
    key: Key
    when_ms: int
    day: int
    clock_dated: bool
    skew_ms: int
    seq: int | None
    written: Mapping[str, Any]
    counts: bool = True
    struck_by: str | None = None
    clock_doubted: bool = False


by_key = attrgetter("key")


def by_device_no(event: Event) -> tuple[int, str]:
    return event.written["device_no"], event.id


def moment(line: Line, zone: Zone) -> tuple[int, int]:
    """F1: (`when` [ms since 1970], day number)."""
    written = line["written"]
    if written["dated"] == "person":
        day = day_number(written["happened_at"][:10])
        return zone.noon_of(day), day
    when_ms = moment_ms(written["happened_at"])
    skew_ms = line.get("clock_skew_ms") or 0
    if abs(skew_ms) > SKEW_NOTICED_MS:
        when_ms += skew_ms
    return when_ms, zone.day_of(when_ms)


def event_of(line: Line, zone: Zone) -> Event:
    written = line["written"]
    when_ms, day = moment(line, zone)
    return Event(
        written["id"],
        written["kind"],
        written["body"],
        (when_ms, written["device"], written["device_no"], written["id"]),
        when_ms,
        day,
        written["dated"] == "clock",
        line.get("clock_skew_ms") or 0,
        line.get("seq"),
        written,
    )


def folds(line: Line) -> bool:
    """Edits, kinds of a newer build and what lies refused in the tray are outside the fold."""
    return line.get("standing") != "refused" and line["written"]["kind"] in KINDS


def stands_before(one: Line, other: Line) -> bool:
    """Of two lines with one id the sent one is taken, else the one written last, whatever came first."""
    sent, other_sent = one.get("seq") is not None, other.get("seq") is not None
    if sent != other_sent:
        return sent
    return bool(one["written"]["device_no"] > other["written"]["device_no"])


def settle_strikes(strikes: Iterable[Event], events: Mapping[str, Event]) -> set[str]:
    """F3: says of every entry whether it counts; the ids of those for which that is now otherwise.

    A strike nobody strikes counts; what it names does not, and so on along the chain. Strikes in a ring that
    no strike from outside breaks count nothing.
    """
    strikes = list(strikes)
    struck_by = _counting_strikes(strikes, events)
    changed: set[str] = set()
    for event in strikes:
        changed.update(_mark(event, event.id in struck_by.counting, struck_by.first.get(event.id)))
    for target in {event.written["strikes"] for event in strikes}:
        struck = events.get(target)
        if struck is not None and struck.kind != "strike":
            changed.update(_mark(struck, target not in struck_by.first, struck_by.first.get(target)))
    return changed


def _mark(event: Event, counts: bool, struck_by: str | None) -> Iterable[str]:
    before = event.counts, event.struck_by
    event.counts, event.struck_by = counts, struck_by
    return () if before == (counts, struck_by) else (event.id,)


@dataclass(slots=True)
class _Struck:
    counting: set[str]
    first: dict[str, str]


def _counting_strikes(strikes: Sequence[Event], events: Mapping[str, Event]) -> _Struck:
    open_strikes: dict[str, int] = {event.id: 0 for event in strikes}
    for event in strikes:
        if event.written["strikes"] in open_strikes:
            open_strikes[event.written["strikes"]] += 1
    settled: dict[str, bool] = {}
    ready = [(event, True) for event in strikes if not open_strikes[event.id]]
    while ready:
        event, counts = ready.pop()
        if event.id in settled:
            continue
        settled[event.id] = counts
        target = event.written["strikes"]
        if target not in open_strikes:
            continue
        open_strikes[target] -= 1
        if counts or not open_strikes[target]:
            ready.append((events[target], not counts))
    counting = {id_ for id_, counts in settled.items() if counts}
    first: dict[str, str] = {}
    for event in sorted(strikes, key=by_key):
        if event.id in counting:
            first.setdefault(event.written["strikes"], event.id)
    return _Struck(counting, first)


def arranged(named: Iterable[Event]) -> list[Event]:
    """F4: a lot's counting entries, sorted by F2, its birth left out, in the order in which they count.

    A decision comes no earlier than directly after its suspect, a chore done after its decision. What names a
    suspect or decision that is not here is left out.
    """
    here: set[str] = set()
    waiting: dict[str, list[Event]] = {}
    order: list[Event] = []
    for event in named:
        ground = ground_of(event)
        if ground is not None and ground not in here:
            waiting.setdefault(ground, []).append(event)
            continue
        if event.kind not in ("suspect", "decision"):
            order.append(event)
            continue
        arrived = [event]
        while arrived:
            placed = arrived.pop()
            order.append(placed)
            if placed.kind in ("suspect", "decision"):
                here.add(placed.id)
                arrived.extend(reversed(waiting.pop(placed.id, ())))
    return order


def ground_of(event: Event) -> str | None:
    """The suspect or decision an entry rests on."""
    if event.kind == "decision":
        return str(event.body["suspect"])
    if event.kind == "chore_done":
        return str(event.body["chore"])
    return None


def doubt_clocks(of_device: Sequence[Event], at: int | None = None) -> set[str]:
    """F2: flags "clock?" on the entries of one device, sorted by `device_no`; the ids whose flag changed.

    Of two neighbours that stand over 10 minutes against their numbers nobody knows which is wrong: both.
    at: only the entry there is new or changed, so only it and its neighbours are looked at.
    """
    near = of_device if at is None else _near(of_device, at)
    telling = [event for event in near if _tells(event)]
    doubted = {event.id for event in telling if abs(event.skew_ms) > SKEW_DOUBTED_MS}
    for i in range(1, len(telling)):
        if telling[i - 1].when_ms - telling[i].when_ms > DISORDER_DOUBTED_MS:
            doubted.update((telling[i - 1].id, telling[i].id))
    judged = of_device if at is None else _near(of_device, at, 1)
    changed = set()
    for event in judged:
        if (event.id in doubted) != event.clock_doubted:
            event.clock_doubted = event.id in doubted
            changed.add(event.id)
    return changed


def _tells(event: Event) -> bool:
    return event.clock_dated and event.counts


def _near(of_device: Sequence[Event], at: int, reach: int = 2) -> list[Event]:
    """The entry at a place and so many that tell the time before and after it."""
    before = islice((of_device[i] for i in range(at - 1, -1, -1) if _tells(of_device[i])), reach)
    after = islice((of_device[i] for i in range(at + 1, len(of_device)) if _tells(of_device[i])), reach)
    return [*reversed(list(before)), of_device[at], *after]
