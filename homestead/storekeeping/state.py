"""What the fold takes and gives: plain dicts and lists, as parsed from JSON. Twin: `storekeeping/state.ts`.

Units: grams [g], pieces in quarters, days as `YYYY-MM-DD` in the household's zone, moments as `when_ms`,
whole milliseconds since 1970 in UTC, already corrected (docs/fold.md, F1). `None` always means: not known.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Literal, NotRequired, TypedDict

Measure = Literal["pieces", "grams"]
Known = Literal["counted", "worked_out", "presumed"]
Step = Literal["raw", "cook", "pot", "animals", "compost", "bin"]
Bucket = Literal["found", "eaten", "given", "seed", "shrink", "cured", "moved", "put_by", "unknown"]
#: what a row of what went where says: a use step, or what became of it otherwise
Way = Literal[
    "raw", "cook", "pot", "animals", "compost", "bin",
    "eaten", "given", "seed", "lost", "dried", "cured", "moved", "put_by", "unknown", "found",
]  # fmt: skip
#: `clock` F2, `more` F9, `other_space` F15, `nothing_there` F4, `second` and `after_finish` F19
Flag = Literal["clock", "more", "other_space", "nothing_there", "second", "after_finish"]
Do = Literal["keep", "use_first", "trim", "raw", "cook", "pot", "animals", "compost", "bin"]


class Line(TypedDict):
    """One line of the ledger. `seq` absent: not sent. `standing` refused: in the tray, outside the fold."""

    written: Mapping[str, Any]
    seq: NotRequired[int | None]
    clock_skew_ms: NotRequired[int | None]
    standing: NotRequired[str]


class StoredRefuse(TypedDict):
    months: float
    pct: float


class CropFigures(TypedDict, total=False):
    """Figures of one crop, the household's own already put before the table's. Absent: not known.

    count_unit: `kg`, else it is counted in pieces. piece_g: grams a piece (middle of medium, garden before
    shop). refuse_pct: refuse when fresh [%]. refuse_stored: middle of each `refuse_stored_pct`, by months,
    rising.
    """

    count_unit: str
    piece_g: float
    refuse_pct: float
    refuse_stored: Sequence[StoredRefuse]


class LotRecord(TypedDict, total=False):
    """Fields of a lot's record the fold shows in place of what its birth told."""

    code: str
    variety: str
    label: str
    winter: int


class Setting(TypedDict):
    """What a household's fold stands on. `zone` is an IANA name; `figures` by crop id; `lots` by lot id."""

    zone: str
    hemisphere: Literal["north", "south"]
    figures: Mapping[str, CropFigures]
    lots: NotRequired[Mapping[str, LotRecord]]


class Amount(TypedDict):
    pieces: float | None
    grams: float | None


class SeedKept(Amount):
    treated: bool


class Went(TypedDict):
    """One row of what went where. `unwritten`: told only by the difference of a count (F10).

    `lot` None: scraps that no lot's entry told of. `animals` the group's id, if one was named.
    """

    entry: str
    kind: str
    lot: str | None
    crop: str | None
    day: str
    when_ms: int
    person: str
    way: Way
    bucket: Bucket
    pieces: float | None
    grams: float | None
    findings: list[str]
    part: str | None
    cut_in: str | None
    animals: str | None
    accident: bool
    unwritten: bool


class Tallies(TypedDict):
    """Grams by what became of them (F15, balance); `steps` by use step, `unwritten` the part of a bucket
    that only counts told of, `unweighed` pieces by bucket where no weight is known.

    put_away + found = there + eaten + given + seed + shrink + cured + moved + put_by + unknown holds when
    `whole` is true: grams were known all along. `there` may be below nought.
    """

    whole: bool
    put_away: float | None
    there: float | None
    found: float
    eaten: float
    given: float
    seed: float
    shrink: float
    cured: float
    moved: float
    put_by: float
    unknown: float
    steps: dict[str, float]
    unwritten: dict[str, float]
    unweighed: dict[str, float]


class DecisionState(TypedDict):
    """`stands`: the lowest of a suspect's decisions (F19). `done`: something left by it."""

    id: str
    person: str
    when_ms: int
    do: Do
    animals: str | None
    doer: str | None
    by: str | None
    look_on: str | None
    with_out: bool
    stands: bool
    done: bool


class SuspectState(TypedDict):
    """`open` undecided; `kept`; `to_do` decided, chore open; `gone` it left; `closed` its lot finished."""

    id: str
    lot: str
    person: str
    when_ms: int
    day: str
    state: Literal["open", "kept", "to_do", "gone", "closed"]
    lies: str
    findings: list[str]
    pieces: float | None
    grams: float | None
    photos: list[str]
    decisions: list[DecisionState]


class StandingFinding(TypedDict):
    """A finding that still holds (F18). `share` of the looked, 0 to 1; None: not numbered, lowers it."""

    finding: str
    entry: str
    pieces: float | None
    looked: float | None
    share: float | None
    suspect: bool


class Mark(TypedDict):
    """An entry pointed at: the last look, the last count."""

    entry: str
    when_ms: int
    day: str


class PastEntry(TypedDict):
    """One entry of a lot's life, struck ones too. `counts` false: struck, or what it names is not there."""

    id: str
    kind: str
    person: str
    when_ms: int
    day: str
    counts: bool
    struck_by: str | None
    flags: list[Flag]
    photos: list[str]


class LotState(TypedDict):
    """A lot as of `today`.

    pieces, grams: the sum, may be below nought. shown: never below nought, lessened by use when presumed
    (F12, F16). held: pieces of suspects, no food (F13). edible_grams: None where refuse is not known (F14).
    last_look: inspection not `none`, birth, count (F17). look_on: the earliest day a standing decision asks
    for, not looked at since. counted_until: last day the word is `counted`, if it is now.
    """

    id: str
    crop: str
    variety: str | None
    label: str | None
    code: str | None
    parent: str | None
    born_by: Literal["put_away", "put_by", "move"]
    method: str | None
    space: str
    spot: str | None
    pack: str | None
    put_away_day: str
    born_day: str
    winter: int
    curing: bool
    cures_until: str | None
    keeps_until: str | None
    pieces: float | None
    grams: float | None
    ratio: float | None
    own_measure: Measure
    known: Known
    counted_until: str | None
    shown: Amount
    seed: SeedKept
    held: Amount
    food: Amount
    edible_grams: float | None
    asks_count: bool
    finished: bool
    tallies: Tallies
    suspects: list[SuspectState]
    standing: list[StandingFinding]
    last_look: Mark
    last_count: Mark | None
    last_entry: Mark
    look_on: str | None
    first_photo: str | None
    last_photo: str | None
    history: list[PastEntry]


class OpenChore(TypedDict):
    """A standing decision not done yet. `key` is what `chore_done` and `claim` name: the decision's id."""

    key: str
    lot: str
    suspect: str
    do: Do
    animals: str | None
    doer: str | None
    by: str | None
    pieces: float | None
    grams: float | None


class ChoreDone(TypedDict):
    """The first `chore_done` of a key by F2; `others` are only shown."""

    entry: str
    person: str
    when_ms: int
    day: str
    minutes: int | None
    others: list[str]


class Claim(TypedDict):
    """Who took it: of several the lowest `seq`, those not sent yet after; `others` are only shown."""

    entry: str
    person: str
    when_ms: int
    others: list[str]


class Offer(TypedDict):
    """A chore that whoever had it gave away and nobody has taken yet."""

    entry: str
    person: str
    when_ms: int


class Fact(TypedDict):
    """An entry outside the lots that counts: `round`, `reading`, `lay`, `pail`, `heap`."""

    id: str
    kind: str
    person: str
    when_ms: int
    day: str
    body: Mapping[str, Any]
    flags: list[Flag]


class FoldState(TypedDict):
    """The whole result. `went` holds every row of every lot and of `scrap`, in order (F2)."""

    lots: dict[str, LotState]
    went: list[Went]
    accidents: list[Went]
    chores: list[OpenChore]
    chores_done: dict[str, ChoreDone]
    claims: dict[str, Claim]
    offers: dict[str, Offer]
    facts: list[Fact]
    past: dict[str, PastEntry]
