"""A short stretch of the simulated winter: the same seed gives the same rosters. The long one is a script."""

from __future__ import annotations

import pytest
from django.db import transaction

from tests.family.simulate import Outcome, run


def tried(seed: int) -> Outcome:
    with transaction.atomic():
        outcome = run(seed, weeks=1)
        transaction.set_rollback(True)
    return outcome


@pytest.mark.django_db
def test_the_same_seed_gives_the_same_rosters_and_another_seed_others() -> None:
    first, again, other = tried(1), tried(1), tried(2)
    assert first.digest == again.digest
    assert first.digest != other.digest
    assert first.lot_weeks > 0
