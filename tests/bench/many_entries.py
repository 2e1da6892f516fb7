"""Twenty thousand invented entries of four hundred lots, the same from the same seed."""

from __future__ import annotations

import datetime as dt
import random
from typing import Any

SETTING = {
    "zone": "Europe/Vienna",
    "hemisphere": "north",
    "figures": {
        "carrot": {"count_unit": "kg", "piece_g": 100, "refuse_pct": 15},
        "cabbage": {"count_unit": "head", "piece_g": 2000, "refuse_pct": 20},
        "onion": {"count_unit": "kg", "piece_g": 120},
    },
}
_FIRST = dt.datetime(2024, 9, 1, 7, tzinfo=dt.timezone(dt.timedelta(hours=1)))
_OUT = {"findings": ["rot"], "went": [{"step": "compost"}]}


class Household:
    """Writes lines as phones write them, half an hour to an hour apart."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)
        self.lines: list[dict[str, Any]] = []
        self.now = _FIRST
        self.numbers = [0, 0, 0, 0]
        self.suspects: list[str] = []

    def write(self, kind: str, body: dict[str, Any]) -> str:
        self.now += dt.timedelta(minutes=self.dice.randint(20, 60))
        device = self.dice.randrange(4)
        self.numbers[device] += 1
        id_ = f"019{len(self.lines):05x}-0000-7000-8000-{self.dice.getrandbits(48):012x}"
        written = {
            "id": id_,
            "household": "01900000-0000-7000-8000-000000000001",
            "device": f"01900000-0000-7000-8000-0000000000d{device}",
            "device_no": self.numbers[device],
            "person": f"01900000-0000-7000-8000-0000000000e{device}",
            "kind": kind,
            "schema": 1,
            "happened_at": self.now.isoformat(timespec="milliseconds"),
            "dated": "clock" if self.dice.random() < 0.9 else "person",
            "body": body,
        }
        self.lines.append({"written": written, "seq": len(self.lines) + 1, "clock_skew_ms": 0})
        return id_

    def put_away(self) -> str:
        crop = self.dice.choice(["carrot", "cabbage", "onion"])
        amount = {"grams": 300_000} if crop == "carrot" else {"pieces": 400.0}
        return self.write("put_away", {"crop": crop, "space": "cellar", "pack": "tray", **amount})

    def live(self, lots: list[str]) -> None:
        lot, grams = self.dice.choice(lots), self.dice.randrange(100, 900, 50)
        roll = self.dice.random()
        if roll < 0.35:
            self.write("take", {"lot": lot, "grams": grams, "for": "eat"})
        elif roll < 0.65:
            self.write("inspection", self._look(lot))
        elif roll < 0.72:
            self.write("cull", {"lot": lot, "pieces": 1.0, **_OUT})
        elif roll < 0.80:
            self.write(
                "trim", {"lot": lot, "findings": ["yellowing"], "cut": {"step": "animals", "grams": 90}}
            )
        elif roll < 0.84:
            self.write("count", {"lot": lot, "grams": 200_000 + grams})
        elif roll < 0.87:
            lots.append(self.write("move", {"lot": lot, "all": False, "space": "loft", "grams": grams}))
        elif roll < 0.91:
            lies = {"lot": lot, "findings": ["unsure"], "lies": "held"}
            self.suspects.append(self.write("suspect", lies))
        elif roll < 0.95 and self.suspects:
            self.write("chore_done", {"chore": self._decide(self.suspects.pop())})
        else:
            self.write("reading", {"space": "cellar", "temp_c": 3.5})

    def _look(self, lot: str) -> dict[str, Any]:
        out = [{"pieces": 2.0, **_OUT}] if self.dice.random() < 0.3 else []
        seen = [{"finding": "rot", "pieces": 2.0}] if out else []
        look = {"way": "sample", "looked": 20.0, "counted": True, "seen": seen, "out": out, "trims": []}
        return {"lot": lot, "space": "cellar", **look}

    def _decide(self, suspect: str) -> str:
        return self.write(
            "decision", {"suspect": suspect, "do": self.dice.choice(["keep", "pot", "compost"])}
        )


def many_entries(entries: int = 20_000, lots: int = 400, seed: int = 7) -> list[dict[str, Any]]:
    household = Household(seed)
    born = [household.put_away() for _ in range(lots)]
    while len(household.lines) < entries:
        household.live(born)
    return household.lines[:entries]
