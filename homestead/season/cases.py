"""Questions in, answers out: one line each, in order, as a household would have lived them. No database.

A question may use only lines above it, of its own household, and records dated before its `as_of`.
"""

from __future__ import annotations

import datetime as dt
import json
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass, field
from typing import Any

from homestead.science.chance import Chances, chances
from homestead.science.household import Saying, belief_of
from homestead.science.lots import Handbook, Look, Lot, Take, checked
from homestead.science.outlook import Ahead, look_ahead
from homestead.science.past import Finished, learn, lot_temps_c
from homestead.science.rooms import Reading, daily_temps_c, room_wave
from homestead.science.survival import fit_lot

SEED = 20_230_915
AHEAD_DAYS = 406


class MalformedLine(ValueError):
    """A line that is no question and no finished lot; `number` counts from 1."""

    def __init__(self, number: int, why: object) -> None:
        super().__init__(f"line {number}: {why}")
        self.number = number


@dataclass(frozen=True)
class Line:
    """A finished lot (`is_question` false) or a question about one."""

    is_question: bool
    name: str
    household: str
    as_of: dt.date
    lot: Lot
    target: dt.date | None
    readings: tuple[Reading, ...]


def read_line(text: str) -> Line:
    """A line of the exchange format. Raises KeyError, TypeError or ValueError when it is none."""
    given = json.loads(text)
    is_question = "case" in given
    as_of = _day(given["as_of"])
    readings = tuple(Reading(_day(one["day"]), float(one["c"])) for one in given["temps"])
    target = given["lot"].get("target")
    return Line(
        is_question, given["case"] if is_question else given["past"], given["household"], as_of,
        _lot(given["lot"], int(given["year"])), _day(target) if target else None,
        tuple(one for one in readings if one.day < as_of),
    )  # fmt: skip


def _day(text: str) -> dt.date:
    return dt.date.fromisoformat(text)


def _lot(given: dict[str, Any], season: int) -> Lot:
    weighed = given["unit"] == "kg"
    return checked(
        Lot(
            given["crop"], given["variety"], given["space"], season, _day(given["put_away"]),
            float(given["pieces"]),
            _handbook(given["handbook"]), float(given["planned_pieces_per_week"]), weighed,
            looks=tuple(_look(one) for one in given["inspections"]),
            takes=tuple(_take(one, float(given["piece_kg"])) for one in given["uses"]),
        )
    )  # fmt: skip


def _handbook(given: dict[str, Any]) -> Handbook:
    low, high = given["life_days"]
    return Handbook(float(low), float(high), float(given["t_ref"]), float(given["q10"]))


def _look(given: dict[str, Any]) -> Look:
    if given["mode"] not in ("all", "sample"):
        raise ValueError(f"mode is {given['mode']!r}, not all or sample")
    return Look(_day(given["day"]), float(given["looked"]), float(given["culled"]), given["mode"] == "all")


def _take(given: dict[str, Any], piece_kg: float) -> Take:
    pieces = float(given["pieces"]) if "pieces" in given else float(given["kg"]) / piece_kg
    return Take(_day(given["day"]), pieces, float(given.get("turning", 0)), float(given.get("tossed", 0)))


@dataclass
class Book:
    """What has been read of one household: its finished lots, and what they said when last asked."""

    finished: list[Line] = field(default_factory=list)
    asked_with: tuple[str, ...] = ()
    told: dict[str, Saying] = field(default_factory=dict)

    def known_by(self, day: dt.date) -> list[Line]:
        """Finished lots closed by a day."""
        return [one for one in self.finished if one.as_of <= day]

    def readings_of(self, space: str, day: dt.date) -> list[Reading]:
        """All readings of a space in finished lots, dated before a day."""
        return [r for one in self.finished if one.lot.space == space for r in one.readings if r.day < day]

    def words(self, day: dt.date, chance: Chances) -> list[Saying]:
        """What the lots finished by `day` say; worked out anew only when there are others than last time."""
        known = self.known_by(day)
        names = tuple(one.name for one in known)
        if names != self.asked_with:
            told = self.told if set(self.asked_with) <= set(names) else {}
            self.told = learn([self._finished(one) for one in known], told, chance)
            self.asked_with = names
        return list(self.told.values())

    def _finished(self, line: Line) -> Finished:
        everything = tuple(self.readings_of(line.lot.space, line.as_of))
        return Finished(line.name, line.lot, line.as_of, line.readings, everything)


def answers(lines: Iterable[str], chance: Chances | None = None) -> Iterator[dict[str, Any]]:
    """One answer for each question, as soon as it is read. Raises MalformedLine."""
    books: defaultdict[str, Book] = defaultdict(Book)
    for number, text in enumerate(lines, start=1):
        if not text.strip():
            continue
        try:
            line = read_line(text)
            book = books[line.household]
            if line.is_question:
                yield answer(line, book, chance or chances(SEED))
            else:
                book.finished.append(line)
        except (KeyError, TypeError, ValueError, AttributeError, OverflowError) as why:
            raise MalformedLine(number, _said(why)) from why


def _said(why: Exception) -> str:
    return f"{why.args[0]!r} is missing" if isinstance(why, KeyError) else str(why)


def answer(line: Line, book: Book, chance: Chances) -> dict[str, Any]:
    """The answer to one question from the household's book."""
    lot = line.lot.before(line.as_of)
    past = book.readings_of(lot.space, line.as_of)
    fitted = fit_lot(
        lot, lot_temps_c(lot, line.as_of, line.readings, past), line.as_of,
        belief_of(lot, book.words(line.as_of, chance)), chance,
    )  # fmt: skip
    wave = room_wave([*past, *line.readings])
    ahead = look_ahead(fitted, daily_temps_c(line.as_of, AHEAD_DAYS, wave, line.readings), chance)
    return told(line, ahead)


def told(line: Line, ahead: Ahead) -> dict[str, Any]:
    """The answer's shape."""
    bands = {
        "sound_now": ahead.sound_in(0),
        "sound_28": ahead.sound_in(28),
        "sound_56": ahead.sound_in(56),
        "lost_56": ahead.lost_in(56),
        "run_out_day": ahead.run_out(),
    }
    days = (line.target - line.as_of).days if line.target else 0
    return {
        "case": line.name,
        **{name: asdict(one) for name, one in bands.items()},
        "p_lasts": ahead.chance_to_last(days),
    }
