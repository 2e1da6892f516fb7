"""A minder and a chore, through the ledger: `python -m tests.journeys.minding`. Prints the minder's id."""

from __future__ import annotations

import datetime as dt

import django


def main() -> None:
    django.setup()
    from django.utils import timezone

    from homestead.household.models import Device, Household, Person
    from homestead.jobs.schedules import work_named
    from homestead.ledger.actions import write_down
    from tests.factories import line, new_id, wire_time

    household, now = Household.objects.get(), timezone.now()
    keeper = Person.rows.of(household).get(role="keeper")
    until = (now.date() + dt.timedelta(days=20)).isoformat()
    bea = new_id()
    records = [
        ("person", bea, {"name": "Bea", "role": "minder", "until": until}),
        ("chore", new_id(), {"name": "Shut the hens in", "at": "16:30", "note": "All on the perch"}),
    ]
    lines = [
        line(
            household=str(household.pk),
            device=str(Device.rows.of(household).first().pk),
            device_no=900_000 + number,
            person=str(keeper.uuid),
            kind="edit",
            happened_at=wire_time(now),
            body={"type": kind, "record": record, "base_rev": 0, "set": values},
        )
        for number, (kind, record, values) in enumerate(records)
    ]
    assert [one.result for one in write_down(household.pk, lines, now=now)] == ["accepted", "accepted"]
    work_named("roster").make(household.pk)
    print(bea)


if __name__ == "__main__":
    main()
