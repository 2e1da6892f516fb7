"""The small shapes bodies are made of: numbers with their bounds, an amount, what went where, an out."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Any, Literal, Self, TypeVar

from pydantic import (
    Field,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    ValidationError,
    ValidatorFunctionWrapHandler,
    WrapValidator,
    model_validator,
)
from pydantic.json_schema import JsonSchemaValue
from pydantic.types import AwareDatetime
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from homestead.ledger.kinds import AnimalsId, Body, Maybe

LONGEST_LIST = 40
LONGEST_TEXT = 500


def wrong(code: str, sentence: str) -> PydanticCustomError:
    """What a rule across fields raises: a code for the phone and a sentence for people."""
    return PydanticCustomError("wrong", "{sentence}", {"code": code, "sentence": sentence})


def plainly(
    code: str, sentence: str, *, written_as: str | None = None, decimals: int | None = None
) -> WrapValidator:
    """Answers a value that does not fit in plain words.

    written_as: a pattern. Both twins compare days and moments as text, so there is one spelling only.
    decimals: digits after the point that a number may have.
    """
    pattern = re.compile(written_as) if written_as else None

    def check(value: Any, fit: ValidatorFunctionWrapHandler) -> Any:
        if pattern and not (isinstance(value, str) and pattern.fullmatch(value)):
            raise wrong(code, sentence)
        try:
            fitting = fit(value)
        except ValidationError as misfit:
            raise wrong(code, sentence) from misfit
        if decimals is not None and round(fitting, decimals) != fitting:
            raise wrong(code, sentence)
        return fitting

    return WrapValidator(check)


Pieces = Annotated[
    float,
    Field(ge=0, le=100_000, multiple_of=0.25, allow_inf_nan=False, description="pieces, in quarters"),
    plainly("pieces", "Pieces run from 0 to 100,000, in quarters. Write the number so."),
]
Grams = Annotated[
    int,
    Field(ge=0, le=5_000_000, description="weight [g]"),
    plainly("grams", "A weight is in whole grams, 0 to 5,000,000. Write it so."),
]
TempC = Annotated[
    float,
    Field(ge=-40, le=60, allow_inf_nan=False, description="air temperature [°C], in tenths"),
    plainly("temp_c", "Warmth runs from -40 to 60 °C, in tenths. Read it again and write it so.", decimals=1),
]
RhPct = Annotated[
    int,
    Field(ge=0, le=100, description="relative humidity [%]"),
    plainly("rh_pct", "Humidity is a whole number from 0 to 100 %. Write it so."),
]
Minutes = Annotated[
    int,
    Field(ge=0, le=1440, description="time it took [min]"),
    plainly("minutes", "Time is in whole minutes, 0 to 1,440. Write it so."),
]
Number = Annotated[
    int,
    Field(ge=0, le=100_000, description="a count of eggs or hens"),
    plainly("number", "Here goes a whole number from 0 to 100,000."),
]
Share = Annotated[
    float,
    Field(ge=0, le=1, allow_inf_nan=False, description="share of the picture's longer side, in thousandths"),
    plainly(
        "ring",
        "A ring is given in thousandths of the photo's longer side, 0 to 1. Draw it again.",
        decimals=3,
    ),
]
Text = Annotated[
    str,
    Field(min_length=1, max_length=LONGEST_TEXT),
    plainly("text", "Text has 1 to 500 characters: shorten it, or leave the field out."),
]
Day = Annotated[
    dt.date,
    Field(strict=False),
    plainly("day", "A day is written like 2026-11-25.", written_as=r"\d{4}-\d\d-\d\d"),
]
Moment = Annotated[
    AwareDatetime,
    Field(strict=False),
    plainly(
        "moment",
        "A moment is written with its offset, like 2026-11-25T10:24:53.123+01:00.",
        written_as=r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,3})?(Z|[+-]\d\d:\d\d)",
    ),
]

_SNAKE = r"[a-z][a-z0-9_]*"
_UUID = r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}"

CropId = Annotated[
    str,
    Field(
        max_length=64,
        pattern=rf"^({_SNAKE}|{_UUID})$",
        description="id in the crops table, or of an own crop",
    ),
    plainly("crop", "A crop is named by its id in the table, or by the id of one of your own."),
]
FindingId = Annotated[
    str,
    Field(max_length=64, pattern=rf"^{_SNAKE}$", description="id in the findings table; or sound, unsure"),
    plainly("finding", "A finding is named by its id in the table, or is sound or unsure."),
]
PackId = Annotated[
    str,
    Field(max_length=64, pattern=rf"^{_SNAKE}$", description="id in the packs table"),
    plainly("pack", "A pack is named by its id in the table."),
]
PartId = Annotated[
    str,
    Field(
        max_length=64, pattern=r"^[a-z][a-z0-9_, ]*$", description="part of the crop, as in the ladder table"
    ),
    plainly("part", "A part is named as in the ladder table; leave it out where it is not known."),
]
Code = Annotated[
    str,
    Field(max_length=16, pattern=r"^[A-Za-z0-9-]+$", description="what stands on the label"),
    plainly("code", "A lot's code has 1 to 16 letters, digits or dashes."),
]
ChoreKey = Annotated[
    str,
    Field(min_length=1, max_length=200, description="decision id, or <record>/<day>, or <sheet key>/<day>"),
    plainly("chore", "A chore's key has 1 to 200 characters."),
]

Step = Literal["raw", "cook", "pot", "animals", "compost", "bin"]
Where = Literal["store", "yard", "kitchen"]
Measured = Literal["weighed", "guessed", "vessel"]


@dataclass(frozen=True)
class _Length:
    """Holds a list to its length and says so in plain words; what is wrong inside keeps its own place."""

    least: int

    def __call__(self, lines: tuple[Any, ...]) -> tuple[Any, ...]:
        if not self.least <= len(lines) <= LONGEST_LIST:
            sentence = f"A list here has {self.least} to {LONGEST_LIST} lines: add one, or write two entries."
            raise wrong("list", sentence)
        return lines

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_after_validator_function(self, handler(source))

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        return handler(schema) | {"minItems": self.least, "maxItems": LONGEST_LIST}


E = TypeVar("E")
Lines = Annotated[tuple[E, ...], _Length(0)]
#: a list that has something in it
Listed = Annotated[tuple[E, ...], _Length(1)]
Findings = Listed[FindingId]


class MaybeAmount(Body):
    """How much, where it may also be left open."""

    pieces: Maybe[Pieces] = None
    grams: Maybe[Grams] = None
    measured: Maybe[Measured] = None

    @model_validator(mode="after")
    def _measured_means_an_amount(self) -> Self:
        if self.measured and self.pieces is None and self.grams is None:
            raise wrong(
                "amount_missing", "How it was measured is told, not how much: write pieces or grams too."
            )
        return self


class Amount(MaybeAmount):
    """A of the fold: pieces, grams or both."""

    @model_validator(mode="after")
    def _says_how_much(self) -> Self:
        if self.pieces is None and self.grams is None:
            raise wrong("amount_missing", "How much is missing: write pieces, grams or both.")
        return self


class Went(Body):
    """W of the fold: what left, by the step it went to."""

    step: Step
    grams: Maybe[Grams] = None
    part: Maybe[PartId] = None
    cut_in: Maybe[Where] = None
    animals: Maybe[AnimalsId] = None
    accident: Maybe[bool] = None

    @model_validator(mode="after")
    def _a_group_goes_with_animals_only(self) -> Self:
        if self.animals and self.step != "animals":
            raise wrong(
                "animals_without_step",
                f"A group of animals is named, but it went to {self.step}: take out one of the two.",
            )
        return self


class WeighedWent(Went):
    """What left, with its weight: where nothing else tells how much."""

    grams: Grams


class TrimmedOff(WeighedWent):
    """What was cut off and weighed on the way to the kitchen. To animals only with its findings (F20)."""

    findings: Maybe[Findings] = None

    @model_validator(mode="after")
    def _animals_need_findings(self) -> Self:
        if self.step == "animals" and not self.findings:
            raise wrong(
                "findings_missing",
                "Trimmings for animals need their findings: say what was seen, `sound` if nothing.",
            )
        return self


class Cut(Body):
    """Part of some pieces cut off; the rest stays. A trim without its lot."""

    pieces: Maybe[Pieces] = None
    findings: Findings
    cut: Went


class Out(Amount):
    """O of the fold: pieces that left, what was seen of them and where they went."""

    findings: Findings
    went: Listed[Went]

    @model_validator(mode="after")
    def _at_most_one_went_is_the_rest(self) -> Self:
        if sum(went.grams is None for went in self.went) > 1:
            raise wrong(
                "went_without_grams",
                "Only one place it went to may lack a weight: it has the rest. Weigh the others.",
            )
        return self


def same_findings_twice(outs: Sequence[Out]) -> bool:
    """Whether two outs name the same findings: then they are one out."""
    seen = [frozenset(out.findings) for out in outs]
    return len(set(seen)) < len(seen)
