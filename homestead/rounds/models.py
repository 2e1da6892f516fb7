"""Tables of the rounds, worked out from the ledger: walks, looks, doubts, what was decided, chores."""

from __future__ import annotations

from django.db import models
from django.db.models import CASCADE, ForeignKey, Index, Q, UniqueConstraint

from homestead.household.models import Person
from homestead.household.rows import OfHousehold, Thing
from homestead.store.models import Dated, Lot, Space, by_person, one_of


class Round(Dated, Thing):
    """One walk through a space that was closed. Inspections name it by `uuid`, also one never closed."""

    space = ForeignKey(Space, CASCADE, related_name="rounds")
    person = by_person()
    with_people = models.JSONField(default=list, help_text="ids of those who walked along")
    began_at = models.DateTimeField()
    ended_at = models.DateTimeField()

    def __str__(self) -> str:
        return f"{self.day}"


class Inspection(Dated, Thing):
    """What was seen of one lot; `way` none is no look and no evidence."""

    lot = ForeignKey(Lot, CASCADE, related_name="inspections")
    space = ForeignKey(Space, CASCADE, related_name="+", help_text="where it was seen")
    round = models.UUIDField(null=True)
    person = by_person()
    with_people = models.JSONField(default=list)
    way = models.CharField(max_length=6, choices=one_of("all", "sample", "none"))
    why_not = models.CharField(max_length=12, blank=True, default="")
    looked = models.FloatField(null=True, help_text="pieces looked at")
    counted = models.BooleanField(default=False)
    photos = models.JSONField(default=list, help_text="SHA-256 of each")

    class Meta(Thing.Meta):
        indexes = [Index(fields=["household", "lot", "when"], name="rounds_inspection_when")]

    def __str__(self) -> str:
        return f"{self.day} {self.way}"


class FindingSeen(OfHousehold):
    """One finding of an inspection: seen on pieces that stay, on pieces that went out, or cut off."""

    inspection = ForeignKey(Inspection, CASCADE, related_name="findings")
    finding = models.CharField(max_length=64)
    told_in = models.CharField(max_length=5, choices=one_of("seen", "out", "trims"))
    place = models.PositiveSmallIntegerField(help_text="which of the outs or trims")
    pieces = models.FloatField(null=True, help_text="none: not numbered")
    grams = models.PositiveIntegerField(null=True, help_text="of the out or the cut [g]")

    class Meta:
        constraints = [
            UniqueConstraint(
                fields=["inspection", "told_in", "place", "finding"], name="rounds_findingseen_once"
            )
        ]
        indexes = [Index(fields=["household", "finding"], name="rounds_findingseen_finding")]

    def __str__(self) -> str:
        return self.finding


class Suspect(Dated, Thing):
    """A piece someone is unsure of. The row stays when struck, since decisions go on naming it."""

    lot = ForeignKey(Lot, CASCADE, related_name="suspects")
    round = models.UUIDField(null=True)
    person = by_person()
    findings = models.JSONField(default=list)
    lies = models.CharField(max_length=9, choices=one_of("held", "set_apart"))
    pieces = models.FloatField(default=1)
    grams = models.PositiveIntegerField(null=True)
    ring = models.JSONField(null=True, help_text="x, y, r in shares of the photo's longer side")
    photos = models.JSONField(default=list)
    state = models.CharField(
        max_length=6,
        blank=True,
        default="",
        choices=one_of("open", "kept", "to_do", "gone", "closed"),
        help_text="told by the fold; empty: struck, or its lot is",
    )

    class Meta(Thing.Meta):
        indexes = [
            Index(fields=["household", "when"], name="rounds_suspect_open", condition=Q(state="open")),
        ]

    def __str__(self) -> str:
        return f"{self.day} {self.state}"


class Decision(Dated, Thing):
    """What shall be done with a suspect. The row stays when struck, since chores go on naming it."""

    suspect = ForeignKey(Suspect, CASCADE, related_name="decisions")
    person = by_person()
    do = models.CharField(max_length=9)
    animals = models.UUIDField(null=True)
    doer = ForeignKey(Person, CASCADE, null=True, related_name="+")
    by = models.DateField(null=True)
    look_on = models.DateField(null=True)
    on_the_spot = models.BooleanField(default=False)
    stands = models.BooleanField(default=False, help_text="the lowest of the suspect's decisions")
    done = models.BooleanField(default=False, help_text="something left by it")

    def __str__(self) -> str:
        return f"{self.day} {self.do}"


class Claim(Thing):
    """Someone takes a chore on; of two the one the server took first has it."""

    chore = models.CharField(max_length=200)
    person = by_person()
    when = models.DateTimeField()
    seq = models.PositiveBigIntegerField()

    class Meta(Thing.Meta):
        indexes = [Index(fields=["household", "chore"], name="rounds_claim_chore")]

    def __str__(self) -> str:
        return self.chore


class Offer(Thing):
    """Someone cannot do a chore they have: until the next claim it is free."""

    chore = models.CharField(max_length=200)
    person = by_person()
    when = models.DateTimeField()
    seq = models.PositiveBigIntegerField()

    class Meta(Thing.Meta):
        indexes = [Index(fields=["household", "chore"], name="rounds_offer_chore")]

    def __str__(self) -> str:
        return self.chore


class ChoreDone(Dated, Thing):
    """A chore was done; of several of one chore the first by time counts."""

    chore = models.CharField(max_length=200)
    decision = ForeignKey(Decision, CASCADE, null=True, related_name="done_by")
    person = by_person()
    minutes = models.PositiveSmallIntegerField(null=True)
    told_out = models.BooleanField(default=False, help_text="it says itself what left")

    class Meta(Thing.Meta):
        indexes = [Index(fields=["household", "chore"], name="rounds_choredone_chore")]

    def __str__(self) -> str:
        return self.chore


class Chore(Thing):
    """A standing chore. Record `chore`; its key on a day is `<uuid>/<day>`."""

    name = models.CharField(max_length=500)
    weekdays = models.JSONField(default=list, help_text="1 Monday to 7 Sunday; empty: every day")
    on = models.DateField(null=True, help_text="a free one: on that day, once")
    at = models.CharField(max_length=5, blank=True, default="", help_text="HH:MM on its day")
    from_month = models.PositiveSmallIntegerField(null=True)
    to_month = models.PositiveSmallIntegerField(null=True)
    minutes = models.PositiveSmallIntegerField(null=True)
    least_age = models.PositiveSmallIntegerField(null=True)
    needs = models.JSONField(default=list)
    doer = ForeignKey(Person, CASCADE, null=True, related_name="+")
    space = ForeignKey(Space, CASCADE, null=True, related_name="+")
    animals = models.UUIDField(null=True)
    note = models.CharField(max_length=500, blank=True, default="")
    photo = models.CharField(max_length=64, blank=True, default="", help_text="SHA-256: how it is done")
    archived = models.BooleanField(default=False)

    def __str__(self) -> str:
        return self.name
