"""The work that reminds: everyone who wishes it once a day, and of tonight once more if it came up since."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal
from zoneinfo import ZoneInfo

from django.core.mail import send_mail
from django.db.models import QuerySet
from django.utils import timezone

from homestead.household.models import Household
from homestead.reminders import sending
from homestead.reminders.models import PushPhone, Reminding
from homestead.reminders.reads import Due, due_for
from homestead.reminders.words import Words, words_in

#: what is to be done before dark is told by noon, if the summary did not know of it yet
TONIGHT_FROM = dt.time(11, 30)
TONIGHT_UNTIL = dt.time(16, 0)
#: a summary that could not be told by then is not told that day
SUMMARY_UNTIL = dt.time(21, 0)

#: the day's summary, or what came up since for tonight: the field that says on which day it was told
Turn = Literal["told_on", "tonight_told_on"]


class NotReached(Exception):
    """A mail or a notice could not be brought; the work is tried again later."""


@dataclass(frozen=True)
class Notice:
    """What is told: a line for a notice, and for a mail what is to be done."""

    line: str
    due: Sequence[Due]


def is_quiet(time: dt.time, quiet_from: dt.time, quiet_until: dt.time) -> bool:
    """Quiet hours may go over midnight; the same hour twice: none."""
    if quiet_from <= quiet_until:
        return quiet_from <= time < quiet_until
    return time >= quiet_from or time < quiet_until


def households_to_remind(now: dt.datetime) -> list[uuid.UUID]:
    """Where somebody may be to be told something now. Cheap: asked for every minute."""
    found = Reminding.everywhere.select_related("household")
    return sorted({one.household_id for one in found if _turn_of(one, _here(one.household, now))})


def remind(
    household_id: uuid.UUID, *, now: dt.datetime | None = None, post: sending.Post = sending.post
) -> None:
    """Tell everyone whose turn it is. Safe to run twice.

    Each is marked as told before they are told: a crash tells nobody twice. Raises NotReached when somebody
    could not be told; they are marked as not told, and the work comes again.
    """
    household = Household.objects.get(pk=household_id)
    here = _here(household, now or timezone.now())
    missed = 0
    for wishes in Reminding.rows.of(household).order_by("person"):
        turn = _turn_of(wishes, here)
        if turn and _claim(wishes, turn, here.date()):
            missed += not _tell(household, wishes, turn, here.date(), post)
    if missed:
        raise NotReached(f"{missed} could not be told")


def _here(household: Household, now: dt.datetime) -> dt.datetime:
    return now.astimezone(ZoneInfo(household.zone))


def _turn_of(wishes: Reminding, here: dt.datetime) -> Turn | None:
    """What they are to be told now, if anything."""
    time, today = here.time().replace(tzinfo=None), here.date()
    if is_quiet(time, wishes.quiet_from, wishes.quiet_until):
        return None
    if wishes.told_on != today and wishes.at <= time < max(SUMMARY_UNTIL, wishes.at):
        return "told_on"
    if wishes.told_on == today != wishes.tonight_told_on and TONIGHT_FROM <= time < TONIGHT_UNTIL:
        return "tonight_told_on"
    return None


def _claim(wishes: Reminding, turn: Turn, today: dt.date) -> bool:
    """True for one caller only, however many ask at once."""
    mine = Reminding.rows.of(wishes.household_id).filter(pk=wishes.pk).exclude(**{turn: today})
    return bool(mine.update(**{turn: today}))


def _tell(household: Household, wishes: Reminding, turn: Turn, today: dt.date, post: sending.Post) -> bool:
    words = words_in(household.language)
    due = [one for one in due_for(household, wishes.person) if one.day <= today]
    tonight = [one for one in due if one.tonight]
    if turn == "told_on":
        _row(wishes).update(told_keys=[one.key for one in tonight])
        notice = _summary(due, tonight, words)
    else:
        notice = _since(tonight, wishes.told_keys, words)
    if notice is None or _bring(household, wishes, notice, words, post):
        return True
    _row(wishes).filter(**{turn: today}).update(**{turn: None})
    return False


def _row(wishes: Reminding) -> QuerySet[Reminding]:
    return Reminding.rows.of(wishes.household_id).filter(pk=wishes.pk)


def _summary(due: Sequence[Due], tonight: Sequence[Due], words: Words) -> Notice | None:
    if not due:
        return None
    line = words.one_thing if len(due) == 1 else words.things.format(n=len(due))
    more = words.of_them_tonight.format(n=len(tonight)) if tonight else ""
    return Notice(f"{line}{more}.", [*tonight, *(one for one in due if not one.tonight)])


def _since(tonight: Sequence[Due], known: Iterable[str], words: Words) -> Notice | None:
    new = [one for one in tonight if one.key not in set(known)]
    return Notice(words.new_tonight, new) if new else None


def _bring(household: Household, wishes: Reminding, notice: Notice, words: Words, post: sending.Post) -> bool:
    """True when nobody is left to be told."""
    reached = _bring_mail(wishes, notice, words) if wishes.mail_on else True
    for phone in PushPhone.rows.of(household).filter(person=wishes.person, device__revoked_at=None):
        outcome = sending.send(phone, notice.line, post=post)
        if outcome == "gone":
            PushPhone.rows.of(household).filter(pk=phone.pk).delete()
        reached = reached and outcome != "later"
    return reached


def _bring_mail(wishes: Reminding, notice: Notice, words: Words) -> bool:
    lines = [f"- {words.tonight}: {one.title}" if one.tonight else f"- {one.title}" for one in notice.due]
    body = "\n".join([notice.line, "", *lines, "", words.nothing_secret])
    try:
        return bool(send_mail(notice.line, body, None, [wishes.mail_to]))
    except OSError:
        return False
