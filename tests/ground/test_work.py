"""The work that runs by itself, with the tables and the queue: asked for once, done once, kept."""

from __future__ import annotations

import datetime as dt
import uuid

import pytest
from django.utils import timezone
from django_q.models import OrmQ, Schedule

from homestead import environment as env
from homestead.household.models import Household
from homestead.jobs import reads, settling, work
from homestead.jobs.models import Beat, Run
from homestead.jobs.schedules import EVERY_MINUTE, LEASE, SILENCE, WORK, Work
from homestead.ledger.followers import Touched, followers_after_commit
from homestead.ledger.heads import last_lines

pytestmark = pytest.mark.django_db(databases=["default", "queue"])


@pytest.fixture(autouse=True)
def heartbeat_of_its_own(tmp_path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(env, "HEARTBEAT", tmp_path / "heartbeat")


@pytest.fixture
def household() -> Household:
    return Household.objects.create(name="Invented", zone="Europe/Vienna")


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[uuid.UUID]:
    """The work replaced by a list of the households it was called with."""
    calls: list[uuid.UUID] = []
    monkeypatch.setattr(Work, "make", lambda self, household: calls.append(household))
    return calls


def ask(household: Household, last_line: int = 0) -> int:
    return work.ask_for_what_is_due({household.pk: last_line}, timezone.now())


def test_every_piece_of_work_can_be_found_and_called() -> None:
    from django.utils.module_loading import import_string

    assert all(callable(import_string(piece.function)) for piece in WORK)


def test_what_is_due_is_put_into_the_queue_once(household: Household) -> None:
    assert ask(household) == len(WORK)
    assert ask(household) == 0
    assert OrmQ.objects.count() == len(WORK)


def test_two_who_ask_at_the_same_time_queue_it_once(household: Household) -> None:
    now = timezone.now()
    assert work._ask(household.pk, "roster", now)
    assert not work._ask(household.pk, "roster", now)


def test_done_work_is_kept_with_its_time_and_what_it_read(
    household: Household, made: list[uuid.UUID]
) -> None:
    ask(household)
    assert "roster in" in work.do("roster", str(household.pk))
    run = Run.rows.of(household).get(what="roster")
    assert made == [household.pk]
    assert (run.result, run.why, run.as_of) == (Run.Result.DONE, "", 0)
    assert run.started_at is None
    assert run.asked_at is None
    assert run.done_at == run.finished_at


def test_two_workers_do_it_once(household: Household, monkeypatch: pytest.MonkeyPatch) -> None:
    ask(household)
    answers: list[str] = []

    def asked_again_meanwhile(self: Work, key: uuid.UUID) -> None:
        Run.rows.of(key).filter(what="roster").update(asked_at=timezone.now())
        answers.append(work.do("roster", str(key)))

    monkeypatch.setattr(Work, "make", asked_again_meanwhile)
    work.do("roster", str(household.pk))
    assert answers == ["nothing is asked, somebody else is at it, or the household has left"]


def test_what_waits_in_a_long_queue_twice_is_done_once(
    household: Household, made: list[uuid.UUID], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A night of many households is longer than the lease: what waits is asked for again."""
    now = timezone.now()
    assert work._ask(household.pk, "roster", now)
    assert work._ask(household.pk, "roster", now + LEASE)
    assert OrmQ.objects.count() == 2
    for _ in range(2):
        work.do("roster", str(household.pk))
    assert made == [household.pk]


def test_a_worker_that_died_at_it_does_not_hold_it_for_ever(
    household: Household, made: list[uuid.UUID]
) -> None:
    long_ago = timezone.now() - dt.timedelta(hours=1)
    asked = {"asked_at": timezone.now(), "started_at": long_ago}
    Run.everywhere.create(household=household, what="roster", **asked)
    work.do("roster", str(household.pk))
    assert made == [household.pk]


def test_work_that_fails_is_told_with_its_reason_and_rests(
    household: Household, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(self: Work, household: uuid.UUID) -> None:
        raise ValueError("the root cellar has no door")

    ask(household)
    monkeypatch.setattr(Work, "make", fail)
    with pytest.raises(ValueError, match="no door"):
        work.do("roster", str(household.pk))
    seen = reads.jobs_of(household.pk, timezone.now())
    roster = next(run for run in seen.runs if run.what == "roster")
    assert (roster.result, roster.why) == ("failed", "ValueError: the root cellar has no door")
    assert roster.figures_as_of is None
    Run.rows.of(household).exclude(what="roster").update(asked_at=timezone.now())
    assert ask(household) == 0


def test_lines_that_came_while_it_ran_are_not_forgotten(
    household: Household, made: list[uuid.UUID], monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is as of the last line before it began, so the next minute asks again."""
    ask(household)
    monkeypatch.setattr(work, "last_line_of", lambda key: 41)
    work.do("roster", str(household.pk))
    before = timezone.now() - dt.timedelta(minutes=1)
    Run.rows.of(household).filter(what="roster").update(finished_at=before, done_at=before)
    assert work.ask_for_what_is_due({household.pk: 41}, timezone.now()) == 0
    assert work.ask_for_what_is_due({household.pk: 42}, timezone.now()) == 1


def test_work_for_a_household_that_left_is_let_go(made: list[uuid.UUID]) -> None:
    assert "has left" in work.do("roster", str(uuid.uuid4()))
    assert made == []


def test_a_minute_shows_life_and_asks_for_all(household: Household) -> None:
    other = Household.objects.create(name="Other")
    assert work.minute() == f"asked for {2 * len(WORK)}"
    assert Beat.objects.get(pk=1).at is not None
    assert env.HEARTBEAT.exists()
    assert last_lines() == {household.pk: 0, other.pk: 0}


def test_a_push_asks_at_once(household: Household) -> None:
    assert work.after_push in followers_after_commit()
    work.after_push(Touched(household=household.pk, head=1, lots=frozenset()))
    assert OrmQ.objects.count() == len(WORK)


def test_a_push_of_one_family_asks_nothing_for_another(household: Household) -> None:
    other = Household.objects.create(name="Other")
    work.after_push(Touched(household=household.pk, head=1, lots=frozenset()))
    assert not Run.rows.of(other).exists()


def test_the_household_page_sees_when_jobs_died(household: Household) -> None:
    now = timezone.now()
    assert not reads.jobs_of(household.pk, now).alive
    Beat.objects.create(pk=1, at=now - SILENCE)
    assert reads.jobs_of(household.pk, now).alive
    assert not reads.jobs_of(household.pk, now + dt.timedelta(seconds=1)).alive


def test_the_household_page_sees_how_far_behind_figures_are(
    household: Household, made: list[uuid.UUID], monkeypatch: pytest.MonkeyPatch
) -> None:
    ask(household)
    work.do("tally", str(household.pk))
    monkeypatch.setattr(reads, "last_line_of", lambda key: 12)
    tally = next(run for run in reads.jobs_of(household.pk, timezone.now()).runs if run.what == "tally")
    assert (tally.result, tally.as_of, tally.behind) == ("done", 0, 12)
    assert tally.figures_as_of is not None


def test_one_schedule_stands_however_often_it_is_settled() -> None:
    settling.ensure_schedule()
    first = Schedule.objects.get()
    settling.ensure_schedule()
    assert Schedule.objects.get().next_run == first.next_run
    assert (first.func, first.minutes) == (EVERY_MINUTE, 1)
