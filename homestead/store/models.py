"""The store's tables, worked out from the ledger and thrown away at will. A crop is a text id.

A lot's row is there for good once it was put away, struck or not, since entries go on naming it; `stands`
tells. What the fold says of it is written here after every change; what hangs on the day it is asked
(presumed, edible) is not, and is asked of `reads`.
"""

from __future__ import annotations

from typing import Any

from django.db import models
from django.db.models import CASCADE, ForeignKey, Index, Q, UniqueConstraint

from homestead.household.models import Person
from homestead.household.rows import OfHousehold, Thing

STEPS = ("raw", "cook", "pot", "animals", "compost", "bin")


def one_of(*words: str) -> list[tuple[str, str]]:
    return [(word, word.replace("_", " ")) for word in words]


def by_person() -> ForeignKey[Any, Any]:
    return ForeignKey(Person, CASCADE, related_name="+")


class Dated(OfHousehold):
    """Rows of entries: the moment it happened, and the day that was in the household's zone."""

    when = models.DateTimeField()
    day = models.DateField()

    class Meta:
        abstract = True


class Space(Thing):
    """A place in the store; set by edits of the record `space`."""

    name = models.CharField(max_length=500)
    kind = models.CharField(max_length=20, blank=True, default="")
    order = models.PositiveIntegerField(default=0)
    cautions = models.JSONField(default=list, help_text="words that stand at its door")
    note = models.CharField(max_length=500, blank=True, default="")
    archived = models.BooleanField(default=False)

    def __str__(self) -> str:
        return self.name


class Lot(Thing):
    """One variety, put away together, in one space, packed one way. `uuid` is the entry that began it."""

    # told by the entry that began it
    crop = models.CharField(max_length=64)
    born_by = models.CharField(max_length=8, choices=one_of("put_away", "put_by", "move"))
    method = models.CharField(max_length=8, blank=True, default="")
    parent = ForeignKey("self", CASCADE, null=True, related_name="parts")
    cures_until = models.DateField(null=True)
    keeps_until = models.DateField(null=True)

    # told by the lot's record
    notes = models.CharField(max_length=500, blank=True, default="")

    # told by the fold, as of the lot's last entry
    stands = models.BooleanField(default=False, help_text="its birth counts")
    code = models.CharField(max_length=16, blank=True, default="")
    variety = models.CharField(max_length=500, blank=True, default="")
    label = models.CharField(max_length=500, blank=True, default="")
    born_day = models.DateField(null=True)
    put_away_day = models.DateField(null=True, help_text="of a part: that of the lot it came from")
    winter = models.SmallIntegerField(null=True, help_text="the year it began in")
    space = ForeignKey(Space, CASCADE, null=True, related_name="lots")
    pack = models.CharField(max_length=64, blank=True, default="")
    spot = models.CharField(max_length=500, blank=True, default="")
    curing = models.BooleanField(default=False)
    pieces = models.FloatField(null=True, help_text="may be below nought")
    grams = models.FloatField(null=True, help_text="may be below nought [g]")
    ratio = models.FloatField(null=True, help_text="grams a piece [g]")
    own_measure = models.CharField(max_length=8, blank=True, default="")
    counted_on = models.DateField(null=True)
    asks_count = models.BooleanField(default=False)
    finished = models.BooleanField(default=False)
    seed_pieces = models.FloatField(null=True)
    seed_grams = models.FloatField(null=True)
    seed_treated = models.BooleanField(default=False)
    held_pieces = models.FloatField(null=True, help_text="of open suspects: there, no food")
    held_grams = models.FloatField(null=True)
    last_look = models.DateField(null=True)
    look_on = models.DateField(null=True, help_text="an earlier day a decision asks for")
    last_entry = models.DateField(null=True)
    tallies = models.JSONField(default=dict, help_text="grams by what became of them")

    class Meta(Thing.Meta):
        indexes = [
            Index(
                fields=["household", "space"],
                name="store_lot_to_look_over",
                condition=Q(stands=True, finished=False),
            )
        ]

    def __str__(self) -> str:
        return f"{self.crop} {self.variety} {self.code}".strip()


class Happening(Dated):
    """One thing that happened to one lot, as written: put away, take, cull, trim, move, count and so on.

    An entry that names several lots (put by) has a row for each; `born` is the lot it began.
    """

    entry = models.UUIDField()
    kind = models.CharField(max_length=16)
    lot = ForeignKey(Lot, CASCADE, related_name="happenings")
    born = ForeignKey(Lot, CASCADE, null=True, related_name="+")
    person = by_person()
    pieces = models.FloatField(null=True)
    grams = models.PositiveIntegerField(null=True)
    measured = models.CharField(max_length=8, blank=True, default="")
    purpose = models.CharField(max_length=8, blank=True, default="", help_text="of a take: eat, give, seed")
    gone = models.CharField(max_length=8, blank=True, default="", help_text="of a count: what became of it")
    whole = models.BooleanField(default=False, help_text="of a move: all of it; of others: nothing is left")
    space = ForeignKey(Space, CASCADE, null=True, related_name="+", help_text="where to")

    class Meta:
        constraints = [UniqueConstraint(fields=["household", "entry", "lot"], name="store_happening_once")]
        indexes = [Index(fields=["household", "day"], name="store_happening_day")]

    def __str__(self) -> str:
        return f"{self.day} {self.kind}"


class Went(OfHousehold):
    """What went where: one row for each part of what left a lot, and of scraps; whichever kind brought it.

    Grams are as the fold resolves them: written, else by the ratio, else not known.
    """

    lot = ForeignKey(Lot, CASCADE, null=True, related_name="went")
    entry = models.UUIDField()
    place = models.PositiveIntegerField(help_text="its place among the rows of its lot, or of its entry")
    kind = models.CharField(max_length=16)
    day = models.DateField()
    crop = models.CharField(max_length=64, blank=True, default="")
    way = models.CharField(max_length=8, help_text="a use step, or what became of it otherwise")
    bucket = models.CharField(max_length=8, help_text="where the balance puts it")
    pieces = models.FloatField(null=True)
    grams = models.FloatField(null=True)
    findings = models.JSONField(default=list)
    part = models.CharField(max_length=64, blank=True, default="")
    cut_in = models.CharField(max_length=8, blank=True, default="")
    animals = models.UUIDField(null=True, help_text="the group, where it went to one")
    accident = models.BooleanField(default=False)
    unwritten = models.BooleanField(default=False, help_text="told only by the difference of a count")

    class Meta:
        constraints = [
            UniqueConstraint(fields=["household", "lot", "entry", "place"], name="store_went_once"),
        ]
        indexes = [
            Index(fields=["household", "day"], name="store_went_day"),
            Index(fields=["household", "entry"], name="store_went_entry"),
        ]

    def __str__(self) -> str:
        return f"{self.day} {self.way}"


class Reading(Dated, Thing):
    """The air of a space, as read."""

    space = ForeignKey(Space, CASCADE, related_name="readings")
    round = models.UUIDField(null=True)
    person = by_person()
    temp_c = models.FloatField(null=True)
    rh_pct = models.PositiveSmallIntegerField(null=True)
    low_c = models.FloatField(null=True)
    high_c = models.FloatField(null=True)
    since = models.DateField(null=True)

    class Meta(Thing.Meta):
        indexes = [Index(fields=["household", "space", "when"], name="store_reading_when")]

    def __str__(self) -> str:
        return f"{self.when:%Y-%m-%d %H:%M}"


class OwnCrop(Thing):
    """A crop the table has not; `like` lends it the table's figures. Record `crop`."""

    name = models.CharField(max_length=500)
    like = models.CharField(max_length=64, blank=True, default="")
    count_unit = models.CharField(max_length=16, blank=True, default="")
    archived = models.BooleanField(default=False)

    def __str__(self) -> str:
        return self.name


class WeeklyUse(Thing):
    """How much of a crop the household expects to use in a week. Record `weekly_use`."""

    crop = models.CharField(max_length=64)
    grams = models.PositiveIntegerField(null=True)
    pieces = models.FloatField(null=True)
    archived = models.BooleanField(default=False)

    def __str__(self) -> str:
        return self.crop


class Guests(Thing):
    """People at table for some days. Record `guests`."""

    number = models.PositiveSmallIntegerField()
    first_day = models.DateField()
    last_day = models.DateField()
    archived = models.BooleanField(default=False)

    def __str__(self) -> str:
        return f"{self.number}, {self.first_day} to {self.last_day}"


class Vessel(Thing):
    """A crate, basket, jar or bucket whose weight is known, full or empty. Record `vessel`."""

    name = models.CharField(max_length=500)
    kind = models.CharField(max_length=8, blank=True, default="")
    grams = models.PositiveIntegerField(help_text="what it holds when full; 0: not known [g]")
    empty_g = models.PositiveIntegerField(null=True, help_text="what it weighs empty [g]")
    archived = models.BooleanField(default=False)

    def __str__(self) -> str:
        return self.name


class OwnFigure(Thing):
    """A figure of the household's own, laid beside the published one. Record `figure`."""

    table = models.CharField(max_length=64)
    row = models.CharField(max_length=200, help_text="the row's key columns, joined by /")
    column = models.CharField(max_length=64)
    value = models.FloatField(null=True)
    unit = models.CharField(max_length=16, blank=True, default="")
    note = models.CharField(max_length=500, blank=True, default="")
    archived = models.BooleanField(default=False)

    def __str__(self) -> str:
        return f"{self.table} {self.row} {self.column}"
