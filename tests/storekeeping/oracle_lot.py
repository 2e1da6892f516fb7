"""One lot's life, for the oracle: postings in exact fractions, read from docs/fold.md sections 3 to 5."""

from __future__ import annotations

import datetime as dt
from fractions import Fraction
from itertools import pairwise
from statistics import median
from typing import TYPE_CHECKING, Any

from tests.storekeeping.oracle_words import SMALL, Case, Json, Pair, Posting, pair

if TYPE_CHECKING:
    from tests.storekeeping.oracle import Told


class Life:
    def __init__(self, birth: Told, crop: str, figures: Json) -> None:
        self.birth, self.crop, self.figures = birth, crop, figures
        self.parent: str | None = None
        self.put_away_day = birth.day
        self.space, self.spot = birth.body["space"], birth.body.get("spot")
        self.pack, self.code = birth.body.get("pack"), birth.body.get("code")
        self.curing = "cures_until" in birth.body
        self.there: list[Fraction | None] = [None, None]
        self.start: Pair = (None, None)
        self.ratio: Fraction | None = None
        self.own = 0
        self.always_weighed = True
        self.turns: list[Told] = [birth]
        self.postings: list[Posting] = []
        self.flags: dict[str, list[str]] = {}
        self.only_shown: set[str] = set()
        self.asks = self.finished = False
        self.counted_well = True
        self.last_count: Told | None = None if birth.body.get("measured") == "guessed" else birth
        self.last_look = birth
        self.seed: Pair = (Fraction(0), Fraction(0))
        self.cases: dict[str, Case] = {}
        self.findings: list[list[Any]] = []  # finding, pieces, looked, entry
        self.takes: list[tuple[dt.date, Pair]] = []

    # -- birth

    @classmethod
    def begun(cls, birth: Told, figures: Json) -> Life:
        life = cls(birth, birth.body["crop"], figures.get(birth.body["crop"], {}))
        figure = life.figures.get("piece_g")
        life._settle_start(pair(birth.body), None if figure is None else Fraction(figure))
        return life

    def _part(self, told: Told, moved: Pair, ratio: Fraction | None) -> Life:
        life = Life(told, self.crop, self.figures)
        life.parent, life.put_away_day = self.birth.id, self.put_away_day
        life.pack = told.body.get("pack", self.pack)
        life.curing = self.curing and "pack" not in told.body
        life.findings = [list(each) for each in self.findings]
        life._settle_start(moved, ratio)
        return life

    def _settle_start(self, amount: Pair, ratio: Fraction | None) -> None:
        self.ratio = ratio
        self.there = list(self.both(amount))
        self.start = (self.there[0], self.there[1])
        self._new_ratio()
        self.own = self._own_measure(self.birth.body)
        self.always_weighed = self.there[1] is not None

    def _own_measure(self, body: Json) -> int:
        if "pieces" in body and "grams" in body:
            return 1 if self.figures.get("count_unit") == "kg" else 0
        return 0 if "pieces" in body else 1

    # -- F5 to F9

    def both(self, amount: Pair) -> Pair:
        pieces, grams = amount
        if self.ratio is None:
            return pieces, grams
        if pieces is None and grams is not None:
            return grams / self.ratio, grams
        return pieces, pieces * self.ratio if grams is None and pieces is not None else grams

    def _new_ratio(self) -> None:
        pieces, grams = self.there
        if pieces is not None and grams is not None and pieces > SMALL and grams > SMALL:
            self.ratio = grams / pieces

    def flag(self, told: Told, flag: str) -> None:
        if flag not in self.flags.setdefault(told.id, []):
            self.flags[told.id].append(flag)

    def post(
        self, told: Told, way: str, pieces: Fraction | None, grams: Fraction | None, **more: Any
    ) -> None:
        self.postings.append(Posting(told, self.birth.id, way, pieces, grams, **more))

    def _gone_in_all(self, told: Told, body: Json, ways: list[Json], of_all: bool) -> Pair:
        """What left: as written, by the ratio, by the ways' weights; all of it with `last`."""
        self._written(body)
        pieces, grams = self.both(pair(body))
        sure = grams is not None
        if grams is None and any("grams" in way for way in ways):
            grams = sum((Fraction(way["grams"]) for way in ways if "grams" in way), Fraction(0))
            sure = of_all and all("grams" in way for way in ways)
        if body.get("last"):
            sure = sure or self.there[1] is not None
            pieces, grams = self._nothing_left(told, (pieces, grams))
        else:
            for i, amount in enumerate((pieces, grams)):
                known = self.there[i]
                if known is None:
                    continue
                self.asks = self.asks or amount is None or (i == 1 and not sure)
                self.there[i] = known if amount is None else known - amount
            self._new_ratio()
        return pieces, grams if sure else None

    def _nothing_left(self, told: Told, written: Pair) -> Pair:
        left: list[Fraction | None] = []
        found: list[Fraction | None] = []
        for there, amount in zip(self.there, written, strict=True):
            if there is None:
                left.append(amount)
                found.append(None)
                continue
            leaving = amount or Fraction(0)
            left.append(leaving if leaving > there else there)
            found.append(leaving - there if leaving > there else Fraction(0))
        if any(each is not None and each > SMALL for each in found):
            self.post(told, "found", found[0], found[1])
        self.there = [Fraction(0), Fraction(0)]
        self._finish()
        return left[0], left[1]

    def _finish(self) -> None:
        self.finished, self.asks = True, False
        for case in self.cases.values():
            case.closed = case.closed or case.done_by is None

    def _written(self, body: Json) -> None:
        if ("pieces", "grams")[self.own] not in body:
            self.counted_well = False

    def _share(self, told: Told, body: Json) -> None:
        """An O: F9, F18."""
        ways = body["went"]
        pieces, grams = self._gone_in_all(told, body, ways, True)
        weights = [Fraction(way["grams"]) if "grams" in way else None for way in ways]
        if grams is not None:
            weights = self._weights(told, grams, weights)
        known = [weight for weight in weights if weight is not None]
        by_weight = len(known) == len(weights) and sum(known) > SMALL
        for way, weight in zip(ways, weights, strict=True):
            part = Fraction(1, len(ways)) if not by_weight or weight is None else weight / sum(known)
            self.post(told, way["step"], None if pieces is None else pieces * part, weight, went=way)
        self._clear(body["findings"], pieces)

    def _weights(self, told: Told, grams: Fraction, weights: list[Fraction | None]) -> list[Fraction | None]:
        said = sum((weight for weight in weights if weight is not None), Fraction(0))
        unsaid = weights.count(None)
        if said > grams + SMALL:
            self.flag(told, "more")
        elif unsaid:
            return [(grams - said) / unsaid if weight is None else weight for weight in weights]
        if said == 0:
            return [grams / len(weights) for _ in weights]
        return [(weight or Fraction(0)) * grams / said for weight in weights]

    def _clear(self, findings: list[str], pieces: Fraction | None) -> None:
        for each in self.findings:
            if each[0] in findings:
                each[1] = None if each[1] is None or pieces is None else each[1] - pieces
                each[3] = each[3] if each[1] is not None and each[1] > SMALL else "gone"
        self.findings = [each for each in self.findings if each[3] != "gone"]

    # -- entries in their turn

    def go_on(self, told: Told) -> list[Life]:
        """One entry; the parts that are born by it."""
        body, kind = told.body, told.kind
        self.turns.append(told)
        if kind not in ("decision", "chore_done") and body.get("way") != "none":
            self.finished = False
        if kind == "put_by":
            self._put_by(told)
        elif kind == "move" and not body["all"]:
            ratio = self.ratio
            moved = self._gone_in_all(told, body, [], True)
            self.post(told, "moved", *moved)
            return [self._part(told, moved, ratio)]
        else:
            getattr(self, f"_{kind}")(told, body)
        return []

    def _take(self, told: Told, body: Json) -> None:
        pieces, grams = self.both(pair(body))
        tossed = Fraction(body.get("tossed", 0))
        tossed_grams = None
        if pieces is not None and grams is not None and pieces > 0:
            tossed = min(tossed, pieces)
            tossed_grams = grams * tossed / pieces
        trimmed = body.get("trimmed")
        gone = self._gone_in_all(told, body, [trimmed] if trimmed else [], False)
        self.takes.append((told.day, gone))
        if body["for"] == "seed":
            kept = [
                None if kept is None else max(kept - (left or 0), Fraction(0))
                for kept, left in zip(self.seed, gone, strict=True)
            ]
            self.seed = (kept[0], kept[1])
        rest = None if gone[1] is None else max(gone[1] - (tossed_grams or 0), Fraction(0))
        if tossed:
            self.post(told, "compost", tossed, tossed_grams)
        if trimmed:
            rest = self._trimmed(told, trimmed, Fraction(trimmed["grams"]), rest)
        of_pieces = None if gone[0] is None else max(gone[0] - tossed, Fraction(0))
        if (of_pieces or 0) > SMALL or (rest or 0) > SMALL:
            self.post(told, {"eat": "eaten", "give": "given", "seed": "seed"}[body["for"]], of_pieces, rest)

    def _trimmed(self, told: Told, trimmed: Json, grams: Fraction, rest: Fraction | None) -> Fraction | None:
        if rest is not None and grams > rest + SMALL:
            self.flag(told, "more")
            grams = rest
        self.post(told, trimmed["step"], None, grams, went=trimmed)
        return None if rest is None else max(rest - grams, Fraction(0))

    def _cull(self, told: Told, body: Json) -> None:
        self._share(told, body)

    def _trim(self, told: Told, body: Json) -> None:
        grams = Fraction(body["cut"]["grams"]) if "grams" in body["cut"] else None
        self.post(told, body["cut"]["step"], None, grams, went=body["cut"])
        if grams is None:
            self.counted_well = self.counted_well and self.own == 0
        elif self.there[1] is not None:
            self.there[1] -= grams
            self._new_ratio()

    def _count(self, told: Told, body: Json) -> None:
        way = body.get("gone", "unknown")
        self._is_now(told, pair(body), way, way == "dried")

    def _is_now(self, told: Told, now: Pair, way: str, water: bool) -> None:
        before = list(self.there)
        self.own = 1 if now[0] is None else 0
        if None not in now:
            self.own = 1 if self.figures.get("count_unit") == "kg" else 0
        elif 0 in now:
            now = (Fraction(0), Fraction(0))
        elif water and now[0] is None and before[0] is not None:
            now = (before[0], now[1])
        else:
            now = self.both(now)
        self.there = list(now)
        self._new_ratio()
        self.always_weighed = self.always_weighed and now[1] is not None
        less = [None if b is None or n is None else b - n for b, n in zip(before, now, strict=True)]
        gone = [None if each is None else max(each, Fraction(0)) for each in less]
        found = [None if each is None else max(-each, Fraction(0)) for each in less]
        if any(each is not None and each > SMALL for each in gone):
            self.post(told, way, gone[0], gone[1], by_count=way != "cured")
        if any(each is not None and each > SMALL for each in found):
            self.post(told, "found", found[0], found[1])
        self.last_count = self.last_look = told
        self.counted_well, self.asks = True, False
        if now == (0, 0):
            self._finish()

    def _move(self, told: Told, body: Json) -> None:
        weighed = "pieces" in body or "grams" in body
        if weighed:
            self._is_now(told, pair(body), "cured" if self.curing else "unknown", self.curing)
        self.curing = self.curing and not weighed and "pack" not in body
        self.space, self.spot, self.pack = body["space"], body.get("spot"), body.get("pack", self.pack)

    def _set_aside(self, told: Told, body: Json) -> None:
        said = pair(body)
        self.seed = said if any(said) else (Fraction(0), Fraction(0))

    def _put_by(self, told: Told) -> None:
        froms, trimmed = told.body["from"], told.body.get("trimmed")
        total = sum((Fraction(each["grams"]) for each in froms if "grams" in each), Fraction(0))
        even = total == 0 or any("grams" not in each for each in froms)
        for each in froms:
            if each["lot"] != self.birth.id:
                continue
            if not trimmed:
                self.post(told, "put_by", *self._gone_in_all(told, each, [], True))
                continue
            share = Fraction(trimmed["grams"]) * (
                Fraction(1, len(froms)) if even else Fraction(each["grams"]) / total
            )
            pieces, grams = self._gone_in_all(told, each, [{"grams": share}], False)
            self.post(told, "put_by", pieces, self._trimmed(told, trimmed, share, grams))

    def _inspection(self, told: Told, body: Json) -> None:
        if body["space"] != self.space:
            self.flag(told, "other_space")
        if body["way"] == "none":
            return
        looked = Fraction(body["looked"]) if "looked" in body else None
        if body["way"] == "all" and body["counted"] and looked is not None:
            self._is_now(told, (looked, None), "unknown", False)
        if body["way"] == "all" and looked is None:
            looked = self.there[0]
        self.last_look = told
        self.findings = [
            [each["finding"], Fraction(each["pieces"]) if "pieces" in each else None, looked, told.id]
            for each in body.get("seen", [])
            if each["finding"] != "sound"
        ]
        for each in body.get("out", []):
            self._share(told, each)
        for each in body.get("trims", []):
            self._trim(told, each)

    # -- F19

    def _suspect(self, told: Told, body: Json) -> None:
        self.cases[told.id] = Case(told, Fraction(body.get("pieces", 1)), pair(body)[1])

    def _decision(self, told: Told, body: Json) -> None:
        case = self.cases[body["suspect"]]
        case.decisions.append(told)
        if case.closed:
            self._only_show(told, "after_finish")
        elif "out" in body and case.done_by:
            self._only_show(told, "second")
        elif "out" in body:
            case.done_by = told.id
            self._share(told, body["out"])

    def _chore_done(self, told: Told, body: Json) -> None:
        case, decision = next(
            (case, decision)
            for case in self.cases.values()
            for decision in case.decisions
            if decision.id == body["chore"]
        )
        keep = decision.body["do"] == "keep" and "out" not in body
        if case.closed or case.done_by or keep:
            self._only_show(
                told, "after_finish" if case.closed else "second" if case.done_by else "nothing_there"
            )
            return
        case.done_by = decision.id
        if "out" in body:
            self._share(told, body["out"])
            return
        written = {"pieces": case.pieces} | ({} if case.grams is None else {"grams": case.grams})
        pieces, grams = self._gone_in_all(told, written, [], True)
        step = {"use_first": "cook", "trim": "cook"}.get(decision.body["do"], decision.body["do"])
        animals = {"animals": decision.body["animals"]} if "animals" in decision.body else {}
        self.post(told, step, pieces, grams, went=animals)
        self._clear(case.told.body["findings"], pieces)

    def _only_show(self, told: Told, flag: str) -> None:
        self.only_shown.add(told.id)
        self.flag(told, flag)

    def open_chores(self) -> list[Json]:
        return [
            {"key": standing.id, "lot": self.birth.id, "suspect": case.told.id, "do": standing.body["do"]}
            for case in self.cases.values()
            if case.state() == "to_do" and (standing := case.standing())
        ]

    # -- what is shown

    def shown(self, today: dt.date, setting: Json) -> Json:
        from tests.storekeeping.oracle_shown import shown_of

        return shown_of(self, today, setting)

    def last_entry(self) -> Told:
        return [told for told in self.turns if told.id not in self.only_shown][-1]

    def silence(self) -> Fraction:
        days = [day for day, _amount in self.takes][-8:]
        gaps = [Fraction((later - earlier).days) for earlier, later in pairwise(days)]
        return max([Fraction(21), *([3 * median(gaps)] if gaps else [])])
