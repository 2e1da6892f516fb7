"""The jobs' part of the way of an inspection, by the function that their schedule names."""

from __future__ import annotations

import django


def main() -> None:
    django.setup()
    from homestead.household.models import Household
    from homestead.jobs.schedules import work_named

    for household in Household.objects.all():
        work_named("roster").make(household.pk)


if __name__ == "__main__":
    main()
