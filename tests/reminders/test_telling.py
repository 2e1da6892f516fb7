"""Who is told what and when: once a day, never in quiet hours, nothing secret, nobody twice."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from django.core import mail

from homestead.reminders.models import PushPhone, Reminding
from homestead.reminders.reads import due_for
from homestead.reminders.telling import NotReached, households_to_remind, is_quiet, remind
from tests.factories import Home
from tests.reminders.conftest import SEVEN, PushService, push_phone, roster, wishes


def minutes(count: int) -> dt.datetime:
    return SEVEN + dt.timedelta(minutes=count)


@pytest.fixture
def ruth(home: Home) -> str:
    """The keeper; a walk and two chores are hers today, one of them before dark."""
    cellar = home.space("Root cellar")
    home.lot(cellar, at=SEVEN - dt.timedelta(days=40))
    home.edit("chore", {"name": "Feed the hens", "doer": home.keeper, "minutes": 10})
    roster(home)
    return home.keeper


def told(home: Home) -> list[Any]:
    return list(mail.outbox)


def test_a_days_summary_comes_by_mail_once(home: Home, ruth: str) -> None:
    wishes(home, ruth, mail_to="ruth@example.org", mail_on=True)
    remind(home.id, now=minutes(-1))
    assert mail.outbox == []
    assert households_to_remind(minutes(0)) == [home.id]
    remind(home.id, now=minutes(0))
    [letter] = mail.outbox
    assert letter.to == ["ruth@example.org"]
    assert letter.subject == "2 things for you today."
    assert "- Walk: Root cellar" in letter.body
    assert "- Feed the hens" in letter.body
    remind(home.id, now=minutes(5))
    assert households_to_remind(minutes(5)) == []
    assert len(mail.outbox) == 1
    roster(home, SEVEN + dt.timedelta(days=1))
    remind(home.id, now=minutes(24 * 60))
    assert len(mail.outbox) == 2


def test_who_has_nothing_to_do_is_told_nothing(home: Home) -> None:
    roster(home)
    wishes(home, home.keeper, mail_to="ruth@example.org", mail_on=True)
    remind(home.id, now=minutes(0))
    assert mail.outbox == []


def test_who_does_not_wish_it_is_told_nothing(home: Home, ruth: str, service: PushService) -> None:
    wishes(home, ruth, mail_to="ruth@example.org")
    remind(home.id, now=minutes(0), post=service)
    assert mail.outbox == []
    assert service.asked == []


def test_what_was_done_is_not_told(home: Home, ruth: str) -> None:
    wishes(home, ruth, mail_to="ruth@example.org", mail_on=True)
    for one in due_for(home.household, Reminding.rows.of(home.id).get().person):
        home.write("chore_done", {"chore": one.key}, at=SEVEN - dt.timedelta(hours=1))
    remind(home.id, now=minutes(0))
    assert mail.outbox == []


def test_a_notice_tells_numbers_and_no_names(home: Home, ruth: str, service: PushService) -> None:
    """Encrypted for the browser (test_push_encryption), it still says nothing a stranger may not read."""
    from homestead.reminders import sending

    lines: list[str] = []
    plain = sending.encrypt

    def seen(body: bytes, p256dh: str, auth: str) -> bytes:
        lines.append(body.decode())
        return plain(body, p256dh, auth)

    wishes(home, ruth)
    push_phone(home, ruth)
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(sending, "encrypt", seen)
        remind(home.id, now=minutes(0), post=service)
    assert lines == ["2 things for you today."]
    [(endpoint, body, headers)] = service.asked
    assert endpoint == "https://push.example.net/send/abc"
    assert lines[0].encode() not in body
    assert headers["Content-Encoding"] == "aes128gcm"
    assert headers["Authorization"].startswith("vapid t=")
    assert int(headers["TTL"]) <= 24 * 3600


@pytest.mark.parametrize("status", [404, 410])
def test_a_browser_that_took_it_back_is_asked_no_more(
    home: Home, ruth: str, service: PushService, status: int
) -> None:
    """RFC 8030 section 7.3 (memory): 404 or 410 is the end of a subscription."""
    wishes(home, ruth)
    push_phone(home, ruth)
    service.status = status
    remind(home.id, now=minutes(0), post=service)
    assert not PushPhone.rows.of(home.id).exists()


@pytest.mark.parametrize("status", [0, 429, 500])
def test_who_could_not_be_told_is_told_later_and_not_twice(
    home: Home, ruth: str, service: PushService, status: int
) -> None:
    wishes(home, ruth)
    push_phone(home, ruth)
    service.status = status
    with pytest.raises(NotReached):
        remind(home.id, now=minutes(0), post=service)
    service.status = 201
    remind(home.id, now=minutes(3), post=service)
    remind(home.id, now=minutes(4), post=service)
    assert len(service.asked) == 2


def test_a_phone_that_was_shut_out_is_told_nothing(home: Home, ruth: str, service: PushService) -> None:
    wishes(home, ruth)
    phone = push_phone(home, ruth)
    phone.device.revoked_at = SEVEN
    phone.device.save()
    remind(home.id, now=minutes(0), post=service)
    assert service.asked == []


def test_nothing_comes_in_quiet_hours_and_then_it_does(home: Home, ruth: str) -> None:
    wishes(
        home,
        ruth,
        mail_to="ruth@example.org",
        mail_on=True,
        at=dt.time(6, 0),
        quiet_from=dt.time(21, 0),
        quiet_until=dt.time(7, 30),
    )
    remind(home.id, now=minutes(20))
    assert mail.outbox == []
    remind(home.id, now=minutes(30))
    assert len(mail.outbox) == 1


@pytest.mark.parametrize(
    ("hour", "quiet"), [(20, False), (21, True), (0, True), (6, True), (7, False), (12, False)]
)
def test_quiet_hours_may_go_over_midnight(hour: int, quiet: bool) -> None:
    assert is_quiet(dt.time(hour), dt.time(21), dt.time(7)) is quiet


def test_the_same_hour_twice_is_no_quiet_at_all() -> None:
    assert not any(is_quiet(dt.time(hour), dt.time(7), dt.time(7)) for hour in range(24))


def test_what_comes_up_for_tonight_is_told_once_by_noon(
    home: Home, ruth: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It says so by noon, and does not rest on the notice: Rounds tells it first."""
    from homestead.rounds import asked

    wishes(home, ruth, mail_to="ruth@example.org", mail_on=True)
    remind(home.id, now=minutes(0))
    day = SEVEN.date()
    frost = asked.Asked(f"frost/x/{day}", "frost", day, day, 5, tonight=True, about={"space": "x"})
    monkeypatch.setattr(asked, "_sources", [lambda household, today: [frost]])
    roster(home, minutes(60))
    remind(home.id, now=minutes(4 * 60 + 29))
    assert len(mail.outbox) == 1
    remind(home.id, now=minutes(4 * 60 + 30))
    remind(home.id, now=minutes(4 * 60 + 31))
    assert [letter.subject for letter in mail.outbox[1:]] == [
        "Something is to be done before dark: see Rounds."
    ]
    assert "Before dark: Against frost" in mail.outbox[1].body


def test_a_summary_that_knew_of_tonight_is_not_followed_by_another(
    home: Home, ruth: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    from homestead.rounds import asked

    day = SEVEN.date()
    frost = asked.Asked(f"frost/x/{day}", "frost", day, day, 5, tonight=True, about={"space": "x"})
    monkeypatch.setattr(asked, "_sources", [lambda household, today: [frost]])
    roster(home)
    wishes(home, ruth, mail_to="ruth@example.org", mail_on=True)
    remind(home.id, now=minutes(0))
    assert mail.outbox[0].subject == "3 things for you today, 1 before dark."
    remind(home.id, now=minutes(5 * 60))
    assert len(mail.outbox) == 1


@pytest.mark.parametrize(("day", "hour"), [(dt.date(2026, 3, 29), 5), (dt.date(2026, 10, 25), 6)])
def test_seven_is_seven_on_the_day_the_clocks_change(home: Home, ruth: str, day: dt.date, hour: int) -> None:
    """Europe/Vienna: from 29 March 2026 two hours ahead of UTC, from 25 October one (IANA, by zoneinfo)."""
    wishes(home, ruth)
    seven = dt.datetime.combine(day, dt.time(hour), dt.UTC)
    assert households_to_remind(seven - dt.timedelta(minutes=1)) == []
    assert households_to_remind(seven) == [home.id]
