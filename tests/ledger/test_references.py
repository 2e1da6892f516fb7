"""Finding the ids a body refers to."""

from __future__ import annotations

import uuid
from typing import Annotated

from pydantic import Field

from homestead.ledger.kinds import AnimalsId, Body, LotId, Maybe, RoundId, SpaceId
from homestead.ledger.references import references_in


class Inner(Body):
    animals: Maybe[AnimalsId] = None


class Outer(Body):
    lot_: Annotated[LotId, Field(alias="lot")]
    space: SpaceId | None = None
    round: Maybe[RoundId] = None
    plain: Maybe[uuid.UUID] = None
    lots: tuple[LotId, ...] = ()
    inner: Maybe[Inner] = None
    inners: list[Inner] = []
    either: Inner | SpaceId | None = None


IDS = [uuid.UUID(int=n) for n in range(10)]


def found(**fields: object) -> list[tuple[str, str, int]]:
    body = Outer.model_validate({"lot": IDS[0]} | fields)
    return [(one.thing, one.where, one.id.int) for one in references_in(body, "body")]


def test_it_finds_a_plain_field_under_its_name_on_the_wire() -> None:
    assert found() == [("lot", "body.lot", 0)]


def test_it_finds_optional_fields_lists_and_nested_bodies() -> None:
    told = found(
        space=IDS[1],
        lots=(IDS[2], IDS[3]),
        inner=Inner(animals=IDS[4]),
        inners=[Inner(), Inner(animals=IDS[5])],
        either=IDS[6],
    )
    assert told == [
        ("lot", "body.lot", 0),
        ("space", "body.space", 1),
        ("lot", "body.lots.0", 2),
        ("lot", "body.lots.1", 3),
        ("animals", "body.inner.animals", 4),
        ("animals", "body.inners.1.animals", 5),
        ("space", "body.either", 6),
    ]


def test_it_finds_either_side_of_a_union() -> None:
    assert ("animals", "body.either.animals", 7) in found(either=Inner(animals=IDS[7]))


def test_it_leaves_out_what_need_not_exist_and_ids_that_refer_to_nothing() -> None:
    assert found(round=IDS[8], plain=IDS[9]) == [("lot", "body.lot", 0)]
