"""A short winter with every kind in it, as lines not yet sent, and the tables as plain rows to compare."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.db import models

from homestead.byproducts import models as byproducts
from homestead.rounds import models as rounds
from homestead.store import models as store
from tests.bodies import out
from tests.factories import Home

TABLES: tuple[type[models.Model], ...] = (
    *(store.Lot, store.Happening, store.Went, store.Reading),
    *(rounds.Round, rounds.Inspection, rounds.FindingSeen, rounds.Suspect),
    *(rounds.Decision, rounds.Claim, rounds.Offer, rounds.ChoreDone),
    *(byproducts.Scrap, byproducts.Lay, byproducts.PailLook, byproducts.HeapWork),
)

#: rows that stay when their entry is struck, since others name them, and the column that tells
STAY = {store.Lot: "stands", rounds.Suspect: "state", rounds.Decision: "stands"}

Rows = dict[str, list[dict[str, Any]]]


def tables_of(home: Home) -> Rows:
    """All rows of the home, without keys the database counts up, in one order."""
    return {model._meta.label: _rows(model, home) for model in TABLES}


def counting_tables_of(home: Home) -> Rows:
    """The same without rows that only stay to be named."""
    told = tables_of(home)
    for model, column in STAY.items():
        label = model._meta.label
        told[label] = [row for row in told[label] if row[column]]
    return told


def _rows(model: type[Any], home: Home) -> list[dict[str, Any]]:
    """What points at another row is told by that row's own id, so that two families can be compared."""
    columns = [_told_by(field) for field in model._meta.concrete_fields if field.name not in _OWN]
    return sorted(model.rows.of(home.id).values(*columns), key=repr)


#: names of rows in the database, and the number a family's ledger gave
_OWN = {"id", "key", "household", "seq"}


def _told_by(field: models.Field[Any, Any]) -> str:
    return f"{field.name}__uuid" if field.is_relation else field.attname


@dataclass
class Winter:
    """Two spaces, hens, two lots; `lines` of everything else, in an order in which each finds what it
    names. Every line is its own, so that any of them may be struck or left out."""

    home: Home

    def __post_init__(self) -> None:
        home = self.home
        self.cellar, self.pantry = home.space("Root cellar"), home.space("Pantry", kind="pantry", order=1)
        self.hens = home.animals()
        self.heap = home.edit("heap", {"name": "Left heap", "fills_from": "2026-09-01"})
        self.carrot = home.lot(self.cellar, "carrot", variety="Long Ember", pack="sand", code="1")
        self.cabbage = home.lot(self.cellar, "cabbage", pieces=23, pack="open_shelf", code="2")

    def lines(self) -> dict[str, dict[str, Any]]:
        """One line of each kind, strike left out."""
        home, carrot, cabbage = self.home, self.carrot, self.cabbage
        told = {
            "put_away": home.line(
                "put_away", {"crop": "onion", "space": self.cellar, "grams": 9_000, "code": "3"}
            ),
            "round": home.line("round", self._round(), **{"with": [home.keeper]}),
            "reading": home.line(
                "reading", {"space": self.cellar, "temp_c": 2.5, "rh_pct": 93, "low_c": 1.0}
            ),
            "inspection": home.line("inspection", self._inspection(), photos=["a" * 64]),
            "suspect": home.line("suspect", self._suspect(), photos=["b" * 64]),
            "take": home.line("take", {"lot": cabbage, "pieces": 2, "for": "eat", "tossed": 0.5}),
            "cull": home.line("cull", {"lot": carrot} | out(pieces=5)),
            "trim": home.line("trim", {"lot": cabbage, "findings": ["yellowing"], "cut": self._cut()}),
            "move": home.line("move", self._move()),
            "count": home.line("count", {"lot": cabbage, "pieces": 18, "gone": "eaten"}),
            "set_aside": home.line("set_aside", {"lot": cabbage, "pieces": 3}),
            "put_by": home.line("put_by", self._put_by()),
            "scrap": home.line("scrap", self._scrap()),
            "lay": home.line("lay", {"animals": self.hens, "day": "2026-11-25", "eggs": 6, "broken": 1}),
            "pail": home.line("pail", {"animals": self.hens, "mixed": False}),
            "heap": home.line("heap", {"heap": self.heap, "did": "warmth", "temp_c": 54.5}),
        }
        suspect = told["suspect"]["id"]
        told["decision"] = home.line("decision", {"suspect": suspect, "do": "compost", "by": "2026-11-28"})
        told["claim"] = home.line("claim", {"chore": told["decision"]["id"]})
        told["offer"] = home.line("offer", {"chore": told["decision"]["id"]})
        told["chore_done"] = home.line("chore_done", {"chore": told["decision"]["id"], "minutes": 5})
        return told

    def _round(self) -> dict[str, Any]:
        times = {"began_at": "2026-11-25T10:24:53.123+01:00", "ended_at": "2026-11-25T10:41:02.000+01:00"}
        return {"space": self.cellar} | times

    def _inspection(self) -> dict[str, Any]:
        return {
            "lot": self.carrot,
            "space": self.cellar,
            "way": "sample",
            "looked": 20,
            "counted": False,
            "seen": [{"finding": "black_mould", "pieces": 2}, {"finding": "shrivelled"}],
            "out": [out(pieces=3, findings=["soft_rot", "wet"])],
            "trims": [{"pieces": 1, "findings": ["black_mould"], "cut": {"step": "compost", "grams": 60}}],
        }

    def _suspect(self) -> dict[str, Any]:
        ring = {"x": 0.412, "y": 0.5, "r": 0.1}
        return {"lot": self.cabbage, "findings": ["unsure"], "lies": "set_apart", "ring": ring}

    def _move(self) -> dict[str, Any]:
        return {"lot": self.carrot, "all": False, "space": self.pantry, "pieces": 40, "code": "4"}

    def _cut(self) -> dict[str, Any]:
        return {
            "step": "animals",
            "grams": 600,
            "animals": self.hens,
            "cut_in": "store",
            "part": "outer leaves",
        }

    def _put_by(self) -> dict[str, Any]:
        return {
            "from": [{"lot": self.carrot, "grams": 6_000}],
            "method": "freeze",
            "crop": "frozen",
            "label": "Carrot, sliced",
            "space": self.pantry,
            "pack": "freezer_bag",
            "pieces": 9,
            "grams": 5_400,
            "code": "5",
            "trimmed": {"step": "compost", "grams": 600},
        }

    def _scrap(self) -> dict[str, Any]:
        went = [
            {"step": "animals", "grams": 400, "animals": self.hens, "cut_in": "yard", "part": "tops"},
            {"step": "compost", "grams": 250},
        ]
        return {"crop": "carrot", "lot": self.carrot, "findings": ["sound"], "went": went}
