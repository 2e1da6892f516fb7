"""The model server of the simulator is no authority: what it answers, the real views must answer alike."""

from __future__ import annotations

import copy

import pytest

from tests.ledger_replay.schedules import Json, Played, recorded

FIRST_SEED = 1
SEEDS = 50


@pytest.fixture(scope="module")
def runs() -> dict[int, Json]:
    made = {run["seed"]: run for run in recorded(FIRST_SEED, SEEDS)}
    assert len(made) == SEEDS
    return made


@pytest.mark.django_db
@pytest.mark.parametrize("seed", range(FIRST_SEED, FIRST_SEED + SEEDS))
def test_the_views_answer_a_recorded_run_as_the_model_did(
    seed: int, runs: dict[int, Json], monkeypatch: pytest.MonkeyPatch
) -> None:
    """invariants 4, 5, 6, 10, 14, 17, 18, 21 and 22 hold of the views as far as they hold of the model."""
    played = Played(runs[seed], monkeypatch)
    played.play()
    assert played.asked > 20
    assert not played.differences, "\n".join(played.differences[:3])


def test_the_runs_hold_what_they_are_meant_to_try(runs: dict[int, Json]) -> None:
    """A comparison in which nothing hard happens proves nothing."""
    text = "\n".join(str(run) for run in runs.values())
    needed = "restore reset duplicate recovered unknown_reference parent_refused role conflicts sheet strikes"
    assert [one for one in needed.split() if one not in text] == []


@pytest.mark.django_db
def test_an_answer_that_is_not_alike_is_told(runs: dict[int, Json], monkeypatch: pytest.MonkeyPatch) -> None:
    tampered = copy.deepcopy(runs[FIRST_SEED])
    pushes = [event for event in tampered["events"] if event.get("path") == "/api/v1/sync/push"]
    accepted = next(push for push in pushes if push["answer"]["receipts"])
    accepted["answer"]["receipts"][0]["seq"] += 1
    played = Played(tampered, monkeypatch)
    played.play()
    assert [difference.splitlines()[0] for difference in played.differences] == [
        f"seed {FIRST_SEED}, request {1 + events_before(tampered, accepted)}, /api/v1/sync/push:"
    ]


def events_before(run: Json, event: Json) -> int:
    asked = [one for one in run["events"] if one["event"] == "asked"]
    return asked.index(event)
