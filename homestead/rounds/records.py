"""Standing chores: what comes again on its days until it is put away."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Field

from homestead.household.roles import Need
from homestead.household.rows import key_of
from homestead.ledger.kinds import AnimalsId, PersonId, SpaceId
from homestead.ledger.own_records import Weekday
from homestead.ledger.records import Fields, RecordState, RecordType
from homestead.rounds.models import Chore
from homestead.store.amounts import Day, Minutes, Text
from homestead.store.records import keep_row

Month = Annotated[int, Field(ge=1, le=12)]


class ChoreFields(Fields):
    name: Text
    weekdays: Annotated[tuple[Weekday, ...], Field(max_length=7, description="none: every day")] = ()
    on: Annotated[Day, Field(description="a free one: on that day, once")] | None = None
    at: Annotated[str, Field(pattern=r"^([01]\d|2[0-3]):[0-5]\d$", description="when on its day")] | None = (
        None
    )
    from_month: Month | None = None
    to_month: Month | None = None
    minutes: Minutes | None = None
    least_age: Annotated[int, Field(ge=0, le=99, description="[years]")] | None = None
    needs: Annotated[tuple[Need, ...], Field(max_length=4)] = ()
    doer: PersonId | None = None
    space: SpaceId | None = None
    animals: AnimalsId | None = None
    note: Text | None = None
    photo: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$", description="how it is done")] | None = None
    archived: bool = False


class ChoreRecord(RecordType[ChoreFields]):
    name = "chore"
    fields = ChoreFields

    def settle(self, record: RecordState[ChoreFields]) -> None:
        told = record.fields.model_dump(exclude={"doer", "space"})
        doer, space = record.fields.doer, record.fields.space
        keep_row(
            Chore,
            record,
            **told
            | {
                "weekdays": list(told["weekdays"]),
                "needs": list(told["needs"]),
                "at": told["at"] or "",
                "photo": told["photo"] or "",
            },
            doer_id=doer and key_of(record.household, doer),
            space_id=space and key_of(record.household, space),
        )


RECORDS: tuple[RecordType[Any], ...] = (ChoreRecord(),)
