"""Bodies of the rounds' entries: what fits, what does not, and what is said about it."""

from __future__ import annotations

from typing import Any

import pytest

from homestead.ledger.kinds import Body
from homestead.rounds import bodies
from tests.bodies import DECISION, HENS, PERSON, ROUND, body, out, read, refusal

SHAPES: dict[str, type[Body]] = {
    "round": bodies.Round,
    "inspection": bodies.Inspection,
    "suspect": bodies.Suspect,
    "decision": bodies.Decision,
    "claim": bodies.Claim,
    "offer": bodies.Offer,
    "chore_done": bodies.ChoreDone,
}


@pytest.mark.parametrize("kind", SHAPES)
def test_it_takes_a_plain_body(kind: str) -> None:
    assert read(SHAPES[kind], body(kind))


@pytest.mark.parametrize("kind", SHAPES)
def test_it_refuses_a_field_it_does_not_know(kind: str) -> None:
    assert refusal(SHAPES[kind], body(kind, mood="cold"))[0] == "mood"


@pytest.mark.parametrize("kind", SHAPES)
def test_it_refuses_null_in_every_field(kind: str) -> None:
    for name, field in SHAPES[kind].model_fields.items():
        assert refusal(SHAPES[kind], body(kind, **{field.alias or name: None}))[0].split(".")[0] == name


@pytest.mark.parametrize(
    "moment",
    ["2026-11-25T10:24:53", "2026-11-25 10:24:53+01:00", 1_790_000_000, "2026-11-25T10:24:53.1234+01:00"],
)
def test_a_moment_is_written_with_its_offset(moment: Any) -> None:
    where, sentence = refusal(bodies.Round, body("round", began_at=moment))
    assert where == "began_at"
    assert "2026-11-25T10:24:53.123+01:00" in sentence


def test_a_round_that_ends_before_it_began_is_a_clock_set_back_and_no_refusal() -> None:
    assert read(bodies.Round, body("round", ended_at="2026-11-25T10:20:00.000+01:00"))


@pytest.mark.parametrize("way", ["all", "sample"])
def test_a_lot_is_looked_at_whole_or_by_sample(way: str) -> None:
    full = body(
        "inspection",
        way=way,
        round=ROUND,
        seen=[{"finding": "soft_rot", "pieces": 2}, {"finding": "shrivelled"}],
        out=[out(), out(findings=["black_mould"], pieces=1)],
        trims=[{"pieces": 1, "findings": ["black_mould"], "cut": {"step": "compost", "grams": 60}}],
    )
    assert read(bodies.Inspection, full)


@pytest.mark.parametrize("why", ["out_of_reach", "no_time", "other", ...])
def test_not_looked_at_says_why_or_nothing(why: Any) -> None:
    assert read(bodies.Inspection, body("inspection", way="none", looked=..., why_not=why))


@pytest.mark.parametrize(
    "evidence",
    [
        {"looked": 3},
        {"counted": True},
        {"seen": [{"finding": "sound"}]},
        {"out": [out()]},
        {"trims": [{"findings": ["yellowing"], "cut": {"step": "compost"}}]},
    ],
)
def test_not_looked_at_is_no_evidence(evidence: dict[str, Any]) -> None:
    unseen = body("inspection", way="none", looked=...) | evidence
    assert refusal(bodies.Inspection, unseen) == ("", "Not looked at, yet seen or counted: keep one.")


def test_a_reason_for_not_looking_needs_that_nobody_looked() -> None:
    where, sentence = refusal(bodies.Inspection, body("inspection", why_not="no_time"))
    assert where == ""
    assert "keep one" in sentence


def test_counted_says_how_many() -> None:
    assert "how many" in refusal(bodies.Inspection, body("inspection", counted=True, looked=...))[1]


@pytest.mark.parametrize("field", ["lot", "space", "way", "counted"])
def test_an_inspection_is_not_half_written(field: str) -> None:
    assert refusal(bodies.Inspection, body("inspection", **{field: ...}))[0] == field


def test_different_outs_have_different_findings() -> None:
    same = [out(findings=["soft_rot", "wet"]), out(findings=["wet", "soft_rot"], pieces=1)]
    assert refusal(bodies.Inspection, body("inspection", out=same))[1].startswith("Two outs have the same")
    assert read(bodies.Inspection, body("inspection", out=[out(), out(findings=["soft_rot", "wet"])]))


def test_one_finding_is_seen_once() -> None:
    twice = [{"finding": "soft_rot", "pieces": 1}, {"finding": "soft_rot"}]
    assert "add its pieces" in refusal(bodies.Inspection, body("inspection", seen=twice))[1]


@pytest.mark.parametrize("field", ["seen", "out", "trims"])
def test_a_list_ends_at_forty(field: str) -> None:
    lines = {
        "seen": [{"finding": f"rot_{n}"} for n in range(41)],
        "out": [out(findings=[f"rot_{n}"]) for n in range(41)],
        "trims": [{"findings": ["wet"], "cut": {"step": "bin"}}] * 41,
    }[field]
    assert refusal(bodies.Inspection, body("inspection", **{field: lines}))[0] == field
    assert read(bodies.Inspection, body("inspection", **{field: lines[:40]}))


@pytest.mark.parametrize("lies", ["held", "set_apart"])
def test_a_suspect_is_held_or_set_apart(lies: str) -> None:
    ring = {"x": 0.412, "y": 0, "r": 1}
    assert read(bodies.Suspect, body("suspect", lies=lies, ring=ring, pieces=0.5, grams=90))


@pytest.mark.parametrize(("field", "value"), [("lies", "thrown"), ("findings", []), ("pieces", 0.1)])
def test_a_suspect_refuses_other_words_and_amounts(field: str, value: Any) -> None:
    assert refusal(bodies.Suspect, body("suspect", **{field: value}))[0] == field


@pytest.mark.parametrize("share", [-0.001, 1.001, 0.1234, "0.5"])
def test_a_ring_lies_on_the_photo_in_thousandths(share: Any) -> None:
    assert refusal(bodies.Suspect, body("suspect", ring={"x": share, "y": 0, "r": 0}))[0] == "ring.x"


@pytest.mark.parametrize(
    "what", ["keep", "use_first", "trim", "raw", "cook", "pot", "animals", "compost", "bin"]
)
def test_a_decision_says_what_to_do(what: str) -> None:
    later = {"doer": PERSON, "by": "2026-11-28", "look_on": "2026-12-02"}
    assert read(bodies.Decision, body("decision", do=what) | later)


def test_a_decision_takes_no_other_word() -> None:
    assert refusal(bodies.Decision, body("decision", do="sell"))[0].split(".")[0] == "do"


def test_a_decision_names_a_group_only_when_it_goes_to_animals() -> None:
    assert "compost" in refusal(bodies.Decision, body("decision", animals=HENS))[1]
    assert read(bodies.Decision, body("decision", do="animals", animals=HENS))


def test_what_is_kept_does_not_go_out() -> None:
    assert "Kept" in refusal(bodies.Decision, body("decision", do="keep", out=out()))[1]
    assert read(bodies.Decision, body("decision", out=out()))


@pytest.mark.parametrize("key", [DECISION, f"{DECISION}/2026-11-25", "roster/2026-11-25"])
@pytest.mark.parametrize("kind", ["claim", "offer", "chore_done"])
def test_a_chore_is_named_by_its_key(kind: str, key: str) -> None:
    assert read(SHAPES[kind], body(kind, chore=key))


@pytest.mark.parametrize("key", ["", "x" * 201, 7])
@pytest.mark.parametrize("kind", ["claim", "offer", "chore_done"])
def test_a_chore_has_a_key_of_200_characters_at_most(kind: str, key: Any) -> None:
    assert refusal(SHAPES[kind], body(kind, chore=key))[0] == "chore"


@pytest.mark.parametrize("minutes", [-1, 1441, 7.5])
def test_a_chore_takes_at_most_a_day(minutes: Any) -> None:
    assert refusal(bodies.ChoreDone, body("chore_done", minutes=minutes))[0] == "minutes"
    assert read(bodies.ChoreDone, body("chore_done", minutes=1440, out=out()))
