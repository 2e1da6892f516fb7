"""Bodies of the store's entries: what fits, what does not, and what is said about it."""

from __future__ import annotations

from typing import Any

import pytest

from homestead.ledger.kinds import Body
from homestead.store import bodies
from tests.bodies import HENS, LOT, OTHER_LOT, body, out, read, refusal

SHAPES: dict[str, type[Body]] = {
    "put_away": bodies.PutAway,
    "take": bodies.Take,
    "cull": bodies.Cull,
    "trim": bodies.Trim,
    "move": bodies.Move,
    "count": bodies.Count,
    "set_aside": bodies.SetAside,
    "put_by": bodies.PutBy,
    "reading": bodies.Reading,
}


@pytest.mark.parametrize("kind", SHAPES)
def test_it_takes_a_plain_body(kind: str) -> None:
    assert read(SHAPES[kind], body(kind))


@pytest.mark.parametrize("kind", SHAPES)
def test_it_refuses_a_field_it_does_not_know(kind: str) -> None:
    assert refusal(SHAPES[kind], body(kind, colour="red"))[0] == "colour"


@pytest.mark.parametrize("kind", SHAPES)
def test_it_refuses_null_where_a_field_may_be_absent(kind: str) -> None:
    optional = [name for name, field in SHAPES[kind].model_fields.items() if not field.is_required()]
    assert optional
    for name in optional:
        assert refusal(SHAPES[kind], body(kind, **{name: None}))[0].split(".")[0] == name


@pytest.mark.parametrize("kind", SHAPES)
def test_its_schema_gives_an_absent_field_no_default(kind: str) -> None:
    schema = SHAPES[kind].model_json_schema()
    shapes = [schema, *schema.get("$defs", {}).values()]
    assert not [name for shape in shapes for name, field in shape["properties"].items() if "default" in field]


@pytest.mark.parametrize("pieces", [0, 0.25, 1, 99_999.75, 100_000])
def test_it_takes_pieces_in_quarters(pieces: float) -> None:
    assert read(bodies.Count, body("count", pieces=pieces)).model_dump()["pieces"] == pieces


@pytest.mark.parametrize("pieces", [-0.25, 0.3, 100_000.25, "12", True, 1e308])
def test_it_refuses_other_pieces_in_plain_words(pieces: Any) -> None:
    where, sentence = refusal(bodies.Count, body("count", pieces=pieces))
    assert where == "pieces"
    assert sentence == "Pieces run from 0 to 100,000, in quarters. Write the number so."


@pytest.mark.parametrize("grams", [0, 1, 5_000_000])
def test_it_takes_whole_grams(grams: int) -> None:
    assert read(bodies.Count, body("count", pieces=..., grams=grams))


@pytest.mark.parametrize("grams", [-1, 5_000_001, 12.5, "300", False])
def test_it_refuses_other_grams_in_plain_words(grams: Any) -> None:
    where, sentence = refusal(bodies.Count, body("count", pieces=..., grams=grams))
    assert where == "grams"
    assert "0 to 5,000,000" in sentence


@pytest.mark.parametrize("name", ["not-a-number", "NaN", "Infinity"])
def test_it_refuses_numbers_json_does_not_know(name: str) -> None:
    with pytest.raises(ValueError, match=r"pieces|JSON"):
        bodies.Count.model_validate_json(f'{{"lot": "{LOT}", "pieces": {name}}}')


@pytest.mark.parametrize("kind", ["put_away", "take", "cull", "count", "set_aside"])
def test_an_amount_needs_pieces_or_grams(kind: str) -> None:
    where, sentence = refusal(SHAPES[kind], body(kind, pieces=..., grams=...))
    assert where == ""
    assert sentence == "How much is missing: write pieces, grams or both."


def test_a_measure_needs_an_amount() -> None:
    whole = body("move", all=True, pieces=..., measured="weighed")
    assert "pieces or grams" in refusal(bodies.Move, whole)[1]


@pytest.mark.parametrize("measured", ["weighed", "guessed", "vessel"])
def test_it_takes_the_ways_to_measure(measured: str) -> None:
    assert read(bodies.Take, body("take", measured=measured))


def test_it_refuses_another_way_to_measure() -> None:
    assert refusal(bodies.Take, body("take", measured="eyed"))[0] == "measured"


@pytest.mark.parametrize("text", ["", "x" * 501])
def test_it_refuses_text_that_is_empty_or_too_long(text: str) -> None:
    where, sentence = refusal(bodies.PutAway, body("put_away", variety=text))
    assert where == "variety"
    assert "1 to 500 characters" in sentence


def test_it_takes_text_of_500_characters() -> None:
    assert read(bodies.PutAway, body("put_away", variety="x" * 500, spot="y" * 500))


@pytest.mark.parametrize(
    "day", ["2026-2-3", "2026-02-30", "25.11.2026", 1_790_000_000, "2026-11-25T00:00:00"]
)
def test_a_day_has_one_spelling(day: Any) -> None:
    where, sentence = refusal(bodies.PutAway, body("put_away", pack=..., cures_until=day))
    assert where == "cures_until"
    assert sentence == "A day is written like 2026-11-25."


@pytest.mark.parametrize("crop", ["carrot", "radish_winter", LOT])
def test_a_crop_is_one_of_the_table_or_ones_own(crop: str) -> None:
    assert read(bodies.PutAway, body("put_away", crop=crop))


@pytest.mark.parametrize("crop", ["Carrot", "", "carrot ", "a" * 65, LOT.upper()])
def test_a_crop_is_never_free_text(crop: str) -> None:
    assert refusal(bodies.PutAway, body("put_away", crop=crop))[0] == "crop"


def test_a_lot_is_not_packed_while_it_cures() -> None:
    both = body("put_away", cures_until="2026-12-09")
    assert refusal(bodies.PutAway, both)[1] == "A lot is packed or is curing: leave out the pack, or the day."
    assert read(bodies.PutAway, body("put_away", pack=..., cures_until="2026-12-09"))


@pytest.mark.parametrize("code", ["", "12 b", "a" * 17])
def test_it_refuses_a_code_no_label_would_hold(code: str) -> None:
    assert refusal(bodies.PutAway, body("put_away", code=code))[0] == "code"


@pytest.mark.parametrize("purpose", ["eat", "give", "seed"])
def test_a_take_says_what_for(purpose: str) -> None:
    assert read(bodies.Take, body("take", **{"for": purpose}))


@pytest.mark.parametrize("purpose", [..., "sell"])
def test_a_take_without_a_known_purpose_is_refused(purpose: Any) -> None:
    assert refusal(bodies.Take, body("take", **{"for": purpose}))[0] == "for"


def test_no_more_is_tossed_than_was_taken() -> None:
    assert read(bodies.Take, body("take", grams=..., pieces=3, tossed=3))
    assert "More pieces tossed" in refusal(bodies.Take, body("take", grams=..., pieces=3, tossed=3.25))[1]


def test_what_a_take_trimmed_off_is_weighed() -> None:
    assert refusal(bodies.Take, body("take", trimmed={"step": "compost"}))[0] == "trimmed.grams"
    assert read(bodies.Take, body("take", trimmed={"step": "compost", "grams": 120}))


@pytest.mark.parametrize("kind", ["take", "put_by"])
def test_trimmings_for_animals_name_their_findings(kind: str) -> None:
    """F20: `animals` needs findings on the line."""
    to_hens = {"step": "animals", "grams": 600, "animals": HENS}
    assert refusal(SHAPES[kind], body(kind, trimmed=to_hens))[0] == "trimmed"
    assert read(SHAPES[kind], body(kind, trimmed=to_hens | {"findings": ["sound"]}))


@pytest.mark.parametrize("findings", [[], ["sound"] * 41])
def test_an_out_names_one_to_forty_findings(findings: list[str]) -> None:
    where, sentence = refusal(bodies.Cull, body("cull", findings=findings))
    assert where == "findings"
    assert "1 to 40" in sentence


@pytest.mark.parametrize("went", [[], [{"step": "compost", "grams": 1}] * 41])
def test_an_out_went_to_one_to_forty_places(went: list[Any]) -> None:
    assert refusal(bodies.Cull, body("cull", went=went))[0] == "went"


def test_a_finding_is_never_free_text() -> None:
    assert refusal(bodies.Cull, body("cull", findings=["soft_rot", "Soft, smelly"]))[0] == "findings.1"


def test_only_one_place_may_lack_its_weight() -> None:
    """F9: it has the rest of what left."""
    assert read(bodies.Cull, body("cull", went=[{"step": "cook"}, {"step": "compost", "grams": 200}]))
    where, sentence = refusal(bodies.Cull, body("cull", went=[{"step": "cook"}, {"step": "compost"}]))
    assert where == ""
    assert "Weigh the others" in sentence


@pytest.mark.parametrize("step", ["raw", "cook", "pot", "compost", "bin"])
def test_a_group_of_animals_goes_with_the_step_animals_only(step: str) -> None:
    where, sentence = refusal(bodies.Cull, body("cull", went=[{"step": step, "animals": HENS}]))
    assert where == "went.0"
    assert step in sentence
    assert read(bodies.Cull, body("cull", went=[{"step": "animals", "animals": HENS}]))


@pytest.mark.parametrize(("field", "value"), [("step", "stew"), ("cut_in", "cellar"), ("part", "Skin")])
def test_it_refuses_an_unknown_step_place_or_part(field: str, value: str) -> None:
    went = {"step": "compost"} | {field: value}
    assert refusal(bodies.Cull, body("cull", went=[went]))[0] == f"went.0.{field}"


def test_a_part_may_be_named_as_the_ladder_names_it() -> None:
    went = {"step": "compost", "part": "root, peel", "cut_in": "kitchen", "accident": False}
    assert read(bodies.Trim, body("trim", cut=went))


def test_a_trim_names_its_findings() -> None:
    assert refusal(bodies.Trim, body("trim", findings=...))[0] == "findings"


def test_a_part_moved_says_how_much() -> None:
    assert "write pieces, grams or all" in refusal(bodies.Move, body("move", pieces=...))[1]
    assert read(bodies.Move, body("move", all=True, pieces=...))


def test_a_lot_moved_whole_keeps_its_code() -> None:
    assert "leave the code out" in refusal(bodies.Move, body("move", all=True, code="31"))[1]
    assert read(bodies.Move, body("move", code="31"))


@pytest.mark.parametrize("gone", ["eaten", "given", "lost", "dried", "unknown"])
def test_a_count_says_what_became_of_the_difference(gone: str) -> None:
    assert read(bodies.Count, body("count", gone=gone))


def test_a_count_takes_no_other_word_for_it() -> None:
    assert refusal(bodies.Count, body("count", gone="stolen"))[0] == "gone"


def test_nought_frees_what_was_kept_for_seed() -> None:
    assert read(bodies.SetAside, body("set_aside", pieces=0, treated=False))


def test_something_put_by_comes_from_somewhere() -> None:
    assert refusal(bodies.PutBy, body("put_by", **{"from": []}))[0] == "from"
    two = [{"lot": LOT, "grams": 400}, {"lot": OTHER_LOT, "pieces": 2}]
    assert read(bodies.PutBy, body("put_by", **{"from": two}))
    assert refusal(bodies.PutBy, body("put_by", **{"from": [{"lot": LOT}]}))[0] == "from.0"


@pytest.mark.parametrize(("field", "value"), [("method", "salt"), ("crop", "carrot"), ("keeps_until", "may")])
def test_it_is_put_by_in_one_of_four_ways(field: str, value: str) -> None:
    assert refusal(bodies.PutBy, body("put_by", **{field: value}))[0] == field


@pytest.mark.parametrize(
    ("field", "value"), [("temp_c", -40), ("temp_c", 60), ("temp_c", 0.3), ("rh_pct", 100)]
)
def test_a_reading_takes_warmth_in_tenths_and_whole_percents(field: str, value: float) -> None:
    assert read(bodies.Reading, body("reading", temp_c=...) | {field: value})


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("temp_c", -40.1),
        ("temp_c", 60.1),
        ("low_c", 2.55),
        ("high_c", "4"),
        ("rh_pct", 101),
        ("rh_pct", 80.5),
    ],
)
def test_a_reading_refuses_what_no_instrument_says(field: str, value: Any) -> None:
    where, sentence = refusal(bodies.Reading, body("reading") | {field: value})
    assert where == field
    assert sentence.endswith("so.")


def test_a_reading_has_one_value_at_least() -> None:
    empty = body("reading", temp_c=..., since="2026-11-18")
    assert refusal(bodies.Reading, empty)[1] == "Nothing was read: write warmth, humidity, low or high."


def test_a_low_above_the_high_is_asked_about() -> None:
    swapped = body("reading", low_c=4.0, high_c=1.5)
    assert refusal(bodies.Reading, swapped)[1] == "The low stands above the high: they may be swapped."


def test_an_id_has_one_spelling() -> None:
    for spelt in (LOT.upper(), LOT.replace("-", ""), f"{{{LOT}}}", f"urn:uuid:{LOT}"):
        assert refusal(bodies.Take, body("take", lot=spelt))[0] == "lot"


def test_an_out_may_be_written_flat_in_a_cull() -> None:
    assert read(bodies.Cull, {"lot": LOT, "last": True} | out(grams=340, measured="weighed"))
