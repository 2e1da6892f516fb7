"""Rows that belong to a household, and the one way to reach them: `Model.rows.of(household)`."""

from __future__ import annotations

import uuid
from typing import TYPE_CHECKING, Any, ClassVar, NoReturn, Self, TypeVar

from django.db import models

if TYPE_CHECKING:
    from homestead.household.models import Household

M = TypeVar("M", bound=models.Model)


class Unbounded(TypeError):
    """A query on family data did not say of which household."""


class HouseholdRows(models.Manager[M]):
    """Bounded: nothing can be asked before the household is named."""

    def of(self, household: uuid.UUID | Household) -> models.QuerySet[M]:
        key = household if isinstance(household, uuid.UUID) else household.pk
        return super().get_queryset().filter(household_id=key)

    def get_queryset(self) -> NoReturn:
        raise Unbounded("Name the household first: rows.of(household).")


def key_of(household: uuid.UUID, made: uuid.UUID) -> uuid.UUID:
    """The key of a row that is known by an id made on a phone.

    Such an id is unique in its household only, and is not a secret. The key is worked out from both (UUIDv5,
    RFC 9562 section 5.5), so a foreign id can neither hit nor block another family's row, and no query is
    needed to fill a foreign key: `lot_id=key_of(household, body.lot)`.
    """
    return uuid.uuid5(household, made.hex)


class OfHousehold(models.Model):
    """Base of every table with family data."""

    household = models.ForeignKey("household.Household", on_delete=models.CASCADE, related_name="+")

    #: crossing families: admin pages, replay and jobs that go from household to household
    everywhere: ClassVar[models.Manager[Self]] = models.Manager()
    rows: ClassVar[HouseholdRows[Self]] = HouseholdRows()

    class Meta:
        abstract = True


if TYPE_CHECKING:
    UUIDField = models.UUIDField[Any, Any]
else:
    UUIDField = models.UUIDField


class KeyField(UUIDField):
    """Fills itself from the row's household and `uuid` when the row is first kept, in bulk too."""

    def get_pk_value_on_save(self, instance: models.Model) -> uuid.UUID:
        assert isinstance(instance, Thing)
        return key_of(instance.household_id, instance.uuid)


class Thing(OfHousehold):
    """A row known by an id made on a phone (`uuid`, as in the lines); `key` is `key_of(household, uuid)`."""

    key = KeyField(primary_key=True, editable=False)
    uuid = models.UUIDField()

    class Meta:
        abstract = True
        constraints = [
            models.UniqueConstraint(fields=["household", "uuid"], name="%(app_label)s_%(class)s_once")
        ]
