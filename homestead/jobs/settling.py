"""What `start` makes ready with Django's help, each step only when it is needed."""

from __future__ import annotations

import shutil
import sqlite3

from django.conf import settings
from django.core.management import call_command
from django.utils import timezone
from django_q.models import Schedule

from homestead import environment as env
from homestead.household.models import FirstKey, Household
from homestead.jobs import addresses, certificates, preflight
from homestead.jobs.schedules import EVERY_MINUTE
from homestead.ledger.founding import make_first_key

#: where a phone fetches the authority it is to trust
PHONES_FETCH = "winter-rounds.crt"


def settle() -> list[str]:
    """Returns sentences for the person who started it.

    A host has certificates of its own, and the invented household only when asked for.
    """
    for name in settings.DATABASES:
        call_command("migrate", database=name, verbosity=0, interactive=False)
    ensure_schedule()
    if settings.HOSTED:
        return []
    notice = preflight.affected_sqlite(sqlite3.sqlite_version_info[:3])
    told = [notice, ensure_certificates(), first_steps()]
    return [note for note in told if note]


def first_steps() -> str | None:
    """On the very first start: the invented household, and a key to make one's own with from a phone.

    The key stands for "has been started before", so an invented household that was left does not come back.
    """
    if FirstKey.objects.exists() or Household.objects.exists():
        return None
    call_command("demo")
    key = make_first_key(now=timezone.now())
    spaced = "-".join(key[at : at + 4] for at in range(0, len(key), 4))
    return f"To make your own household from a phone: key {spaced}, good once. Here none is needed."


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
        door = addresses.of_phones(here, env.PHONE_PORT)[:1]
        return f"Phones must trust this computer once: {door[0]}/static/{PHONES_FETCH}" if door else None
    missing = [number for number in here.numbers if number not in certificates.names_of(folder.leaf)]
    return _moved(here.name, missing[0]) if missing else None


def _moved(name: str, number: str) -> str:
    return (
        f"This computer now has the number {number}, which phones do not trust. Those that use {name} "
        "go on as before. For the others give this computer its old number again, in your router."
    )
