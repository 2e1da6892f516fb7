"""Tables of the byproducts, worked out from the ledger: animals, scraps, eggs, pails, heaps."""

from __future__ import annotations

from django.db import models
from django.db.models import CASCADE, ForeignKey, Index

from homestead.household.rows import Thing
from homestead.store.models import Dated, Lot, by_person


class AnimalGroup(Thing):
    """Animals kept together. Record `animals`."""

    name = models.CharField(max_length=500)
    kind = models.CharField(max_length=32, help_text="as in the feeding tables")
    number = models.PositiveIntegerField(null=True)
    feed_g_a_day = models.PositiveIntegerField(
        null=True, help_text="bought feed a day, all of them together [g]"
    )
    withheld = models.BooleanField(default=False, help_text="ill or under treatment: gets no scraps")
    withheld_until = models.DateField(null=True)
    eggs_held_until = models.DateField(null=True, help_text="last day their eggs are no food")
    meat_held_until = models.DateField(null=True, help_text="last day their meat is no food")
    housed = models.BooleanField(default=False, help_text="kept in and fed under cover")
    note = models.CharField(max_length=500, blank=True, default="")
    archived = models.BooleanField(default=False)

    def __str__(self) -> str:
        return self.name


class Scrap(Dated, Thing):
    """Scraps and where they went; the amounts stand in what went where."""

    crop = models.CharField(max_length=64, blank=True, default="")
    lot = ForeignKey(Lot, CASCADE, null=True, related_name="+", help_text="for the story only")
    person = by_person()
    findings = models.JSONField(default=list)
    measured = models.CharField(max_length=8, blank=True, default="")

    def __str__(self) -> str:
        return f"{self.day} {self.crop}"


class Lay(Thing):
    """Eggs of one animal group, as counted once; a day may have several."""

    animals = ForeignKey(AnimalGroup, CASCADE, related_name="laid")
    person = by_person()
    when = models.DateTimeField()
    day = models.DateField(help_text="the day they were laid")
    eggs = models.PositiveIntegerField()
    broken = models.PositiveIntegerField(default=0, help_text="of the eggs: laid, but no food")
    hens = models.PositiveIntegerField(null=True)

    class Meta(Thing.Meta):
        indexes = [Index(fields=["household", "day"], name="byproducts_lay_day")]

    def __str__(self) -> str:
        return f"{self.day} {self.eggs}"


class PailLook(Dated, Thing):
    """An adult's look into the pail of one group."""

    animals = ForeignKey(AnimalGroup, CASCADE, related_name="looked_into")
    person = by_person()
    mixed = models.BooleanField(help_text="not to be fed: compost")

    def __str__(self) -> str:
        return f"{self.day} {'mixed' if self.mixed else 'for them'}"


class Heap(Thing):
    """A compost heap. Record `heap`: what goes to compost between its two days is on it."""

    name = models.CharField(max_length=500)
    fills_from = models.DateField()
    fills_until = models.DateField(null=True)
    note = models.CharField(max_length=500, blank=True, default="")
    archived = models.BooleanField(default=False)

    def __str__(self) -> str:
        return self.name


class HeapWork(Dated, Thing):
    """Something done to a heap."""

    heap = ForeignKey(Heap, CASCADE, related_name="worked")
    person = by_person()
    did = models.CharField(max_length=8)
    material = models.CharField(max_length=64, blank=True, default="")
    grams = models.PositiveIntegerField(null=True)
    temp_c = models.FloatField(null=True)
    bed = models.CharField(max_length=500, blank=True, default="")
    grows = models.CharField(max_length=64, blank=True, default="", help_text="crop, on the bed")
    accident = models.BooleanField(default=False, help_text="spread on kin of a disease it took in")

    def __str__(self) -> str:
        return f"{self.day} {self.did}"
