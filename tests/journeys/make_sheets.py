"""All that the jobs work out of a household in the night, at once: `python -m tests.journeys.make_sheets`."""

from __future__ import annotations

import django


def main() -> None:
    django.setup()
    from homestead.household.models import Household
    from homestead.jobs.schedules import REMIND, WORK

    for household in Household.objects.all():
        for work in WORK:
            if work.name != REMIND:
                work.make(household.pk)


if __name__ == "__main__":
    main()
