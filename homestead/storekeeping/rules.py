"""Shapes of the rules of the trade: what `ladder`, `feeding` and `due` read, ask and answer.

All are plain JSON: `Rules` is what `homestead.reference.rules()` serves and what the phone holds as
`frontend/src/reference/built/rules.json`, one and the same document. The twin of this file is
`frontend/src/storekeeping/rules.ts`.

A row of a table is named by a *row* string, `table:key/key/key` with the row's key columns, for example
`ladder:potato/tuber/greening`, `feed_safety:laying_hen/avocado/all parts/sound`, `kitchen_safety:mould_nuts`.
Answers carry such names, never texts: a screen looks the sentence and its source up by them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Literal, NotRequired, TypedDict

Step = Literal["raw", "cook", "pot", "animals", "compost", "bin"]
STEPS: tuple[Step, ...] = ("raw", "cook", "pot", "animals", "compost", "bin")
CutIn = Literal["store", "yard", "kitchen"]
Eater = Literal["infant", "small_child", "pregnant", "old", "ill", "no_nuts"]
Verdict = Literal["good", "limited", "avoid", "never", "not_known"]

Rules = Mapping[str, Any]


class Law(TypedDict):
    """What the household has set about feeding. Empty: nothing set, the strict start.

    `country` ISO 3166-1 alpha-2 or 3166-2 (`AT`, `AU-QLD`); `confirmed` the keeper has read what is commonly
    restricted there; `kitchen_to` kinds of animal that the keeper says may have what was cut in a kitchen;
    `housing_order` birds are kept in: nothing goes outside to them.
    """

    country: NotRequired[str | None]
    confirmed: NotRequired[bool]
    housing_order: NotRequired[bool]
    kitchen_to: NotRequired[Sequence[str]]


class Group(TypedDict):
    """A group of animals: `kind` as in `feed_safety.csv`; `withheld` ill or under treatment: gets no
    scraps; `housed` kept in and fed under cover."""

    kind: str
    withheld: NotRequired[bool]
    housed: NotRequired[bool]


class Question(TypedDict):
    """What someone has in hand.

    `part` absent: the whole piece as stored. `not_known`: cut off, nobody says which part; the most
    cautious row wins. `findings` finding ids and states (`sound old trimmed cooked spent salted treated
    unsure`); none at all counts as `unsure`. `cut_in` absent: not known. `age_days` since put away.
    """

    crop: str
    part: NotRequired[str | None]
    findings: Sequence[str]
    age_days: NotRequired[float | None]
    cut_in: NotRequired[CutIn | None]
    eaters: NotRequired[Sequence[str]]


class NotFor(TypedDict):
    eater: str
    row: str


class Allowed(TypedDict):
    """One use that is left. `rows` name the ladder rows that say how, `cautions` the rows whose caution is
    shown where the action is, `not_for` those at table who must not have it."""

    step: Step
    rows: list[str]
    cautions: list[str]
    not_for: list[NotFor]


class Withheld(TypedDict):
    """A use that is not offered, the reason and the rows that say so.

    `code`: begins_below, table, unsure, not_known, no_animal.
    """

    step: Step
    code: str
    rows: list[str]


class FeedAnswer(TypedDict):
    """May this kind of animal have it? `offered` only for good and limited.

    `code` when not offered: findings_needed, unsure, rot_or_mould, withheld, housing_order, salted, spent,
    treated, never, avoid, not_known, country_not_set, law_not_confirmed, law_not_known, law_prohibited,
    law_not_allowed, animal_matter. `refused` is true where the server refuses it at push; `avoid` is not
    offered but not refused. `limits` are the rows whose limit counts.
    """

    kind: str
    verdict: Verdict
    offered: bool
    refused: bool
    code: NotRequired[str]
    rows: list[str]
    limits: list[str]


class Uses(TypedDict):
    """The answer on one screen. `known` false: say "not known" and to ask, whatever steps are left."""

    known: bool
    steps: list[Allowed]
    withheld: list[Withheld]
    animals: list[FeedAnswer]


class Refusal(TypedDict):
    """Why a line that sends something to animals is refused: for the problem's code and its facts."""

    code: str
    kind: str
    crop: str
    rows: list[str]


class Standing(TypedDict):
    """A finding that stands on a lot. `share` of the looked it was seen on, 0 to 1; absent: not numbered."""

    finding: str
    share: NotRequired[float | None]


class Rung(TypedDict):
    """`rung` shows on the lot's mark; `turning` is the lowest among its findings (Kitchen)."""

    rung: Step
    turning: Step
