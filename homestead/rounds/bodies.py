"""Bodies of the entries rounds own: a walk, what was seen on it, a doubt, what was decided, a chore."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import Field, model_validator

from homestead.ledger.kinds import (
    AnimalsId,
    Body,
    LotId,
    Maybe,
    PersonId,
    RoundId,
    SpaceId,
    SuspectId,
)
from homestead.store.amounts import (
    ChoreKey,
    Cut,
    Day,
    FindingId,
    Findings,
    Grams,
    Lines,
    Minutes,
    Moment,
    Out,
    Pieces,
    Share,
    Step,
    Text,
    same_findings_twice,
    wrong,
)


class Round(Body):
    """One walk through a space, closed. The entry's id was made when the round began."""

    space: SpaceId
    began_at: Moment
    ended_at: Moment


class Seen(Body):
    """One finding, and on how many of the pieces looked at."""

    finding: FindingId
    pieces: Maybe[Pieces] = Field(default=None, description="absent: not numbered")


class Inspection(Body):
    """What was seen of one lot: every piece, a sample, or not looked at."""

    lot: LotId
    round: Maybe[RoundId] = None
    space: SpaceId = Field(description="where it was seen")
    way: Literal["all", "sample", "none"]
    why_not: Maybe[Literal["out_of_reach", "no_time", "other"]] = None
    looked: Maybe[Pieces] = Field(default=None, description="pieces looked at")
    counted: bool = Field(description="the number was set or touched by hand")
    seen: Lines[Seen] = ()
    out: Lines[Out] = ()
    trims: Lines[Cut] = ()

    @model_validator(mode="after")
    def _not_looked_at_means_nothing_seen(self) -> Self:
        if self.way != "none" and self.why_not:
            raise wrong("why_not_but_looked", "It says why it was not looked at, and that it was: keep one.")
        evidence = self.looked is not None or self.counted or self.seen or self.out or self.trims
        if self.way == "none" and evidence:
            raise wrong("evidence_without_look", "Not looked at, yet seen or counted: keep one.")
        return self

    @model_validator(mode="after")
    def _counted_says_how_many(self) -> Self:
        if self.counted and self.looked is None:
            raise wrong("looked_missing", "Counted, but how many is missing: write how many were looked at.")
        return self

    @model_validator(mode="after")
    def _each_finding_once(self) -> Self:
        if len({seen.finding for seen in self.seen}) < len(self.seen):
            raise wrong("finding_twice", "One finding is written twice: add its pieces together.")
        if same_findings_twice(self.out):
            raise wrong("out_twice", "Two outs have the same findings: write them as one.")
        return self


class Ring(Body):
    """A ring drawn on the photo, in shares of its longer side; x and y from the top left."""

    x: Share
    y: Share
    r: Share


class Suspect(Body):
    """A piece someone is unsure of, waiting for a decision."""

    lot: LotId
    round: Maybe[RoundId] = None
    findings: Findings
    lies: Literal["held", "set_apart"]
    pieces: Maybe[Pieces] = Field(default=None, description="1 unless said")
    grams: Maybe[Grams] = None
    ring: Maybe[Ring] = None


class Decision(Body):
    """What shall be done with a suspect; with `out` it was done on the spot."""

    suspect: SuspectId
    do: Literal["keep", "use_first", "trim"] | Step
    animals: Maybe[AnimalsId] = None
    doer: Maybe[PersonId] = None
    by: Maybe[Day] = None
    look_on: Maybe[Day] = None
    out: Maybe[Out] = None

    @model_validator(mode="after")
    def _a_group_goes_with_animals_only(self) -> Self:
        if self.animals and self.do != "animals":
            raise wrong("animals_without_step", f"An animal group is named, but it says {self.do}: keep one.")
        return self

    @model_validator(mode="after")
    def _what_is_kept_stays(self) -> Self:
        if self.do == "keep" and self.out:
            raise wrong("kept_and_out", "Kept, yet pieces went out: say where they went, or leave them out.")
        return self


class Claim(Body):
    """Someone takes a chore on."""

    chore: ChoreKey


class Offer(Body):
    """Whoever has a chore cannot do it: it is free to be taken."""

    chore: ChoreKey


class ChoreDone(Body):
    """A chore is done; with `out` where it is a decision's and what left was told."""

    chore: ChoreKey
    minutes: Maybe[Minutes] = None
    found: Maybe[Text] = Field(default=None, description="what was found, in words")
    out: Maybe[Out] = None
