"""What `start` makes ready with Django's help, each step only when it is needed."""

from __future__ import annotations

import shutil
import sqlite3

from django.conf import settings
from django.core.management import call_command
from django.utils import timezone
from django_q.models import Schedule

from homestead import environment as env
from homestead.household.models import Household
from homestead.jobs import addresses, certificates, preflight
from homestead.jobs.schedules import EVERY_MINUTE

#: where a phone fetches the authority it is to trust
PHONES_FETCH = "winter-rounds.crt"


def settle() -> list[str]:
    """Returns sentences for the person who started it."""
    notes = preflight.affected_sqlite(sqlite3.sqlite_version_info[:3])
    for name in settings.DATABASES:
        call_command("migrate", database=name, verbosity=0, interactive=False)
    ensure_schedule()
    told = ensure_certificates()
    if not Household.objects.exists():
        call_command("demo")
    return [note for note in (notes, told) if note]


def ensure_schedule() -> None:
    """The queue's one row. The time of its next run is left alone when it stands already."""
    fixed = {"func": EVERY_MINUTE, "schedule_type": Schedule.MINUTES, "minutes": 1, "repeats": -1}
    Schedule.objects.update_or_create(name="minute", defaults=fixed)


def ensure_certificates() -> str | None:
    """Certificates for the phones' door, and the authority where phones can fetch it."""
    folder = certificates.Folder(env.CERTIFICATES)
    here = addresses.of_this_computer(env.NAME)
    made = certificates.ensure(folder, here, timezone.now())
    settings.STATIC_ROOT.mkdir(parents=True, exist_ok=True)
    shutil.copyfile(folder.authority, settings.STATIC_ROOT / PHONES_FETCH)
    if made:
        return f"Phones must trust this computer once: https://{here.name}:{env.PHONE_PORT}/static/{PHONES_FETCH}"
    missing = [number for number in here.numbers if number not in certificates.names_of(folder.leaf)]
    return _moved(here.name, missing[0]) if missing else None


def _moved(name: str, number: str) -> str:
    return (
        f"This computer now has the number {number}, which phones do not trust. Those that use {name} "
        "go on as before. For the others give this computer its old number again, in your router."
    )
