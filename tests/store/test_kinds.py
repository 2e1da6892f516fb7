"""Each kind of the store writes the rows one expects."""

from __future__ import annotations

import datetime as dt

import pytest

from homestead.store.models import Happening, Lot, Reading, Went
from tests.bodies import out
from tests.factories import Home, LotFactory, SpaceFactory

DAY = dt.date(2026, 11, 25)


@pytest.fixture
def cellar(home: Home) -> str:
    return home.space()


def happenings(home: Home, entry: str) -> list[Happening]:
    return list(Happening.rows.of(home.id).filter(entry=entry).order_by("lot__uuid"))


def went(home: Home, entry: str) -> list[tuple[str, float | None, float | None]]:
    """Way, pieces, grams of each row that an entry brought."""
    rows = Went.rows.of(home.id).filter(entry=entry).order_by("lot__uuid", "place")
    return [(row.way, row.pieces, row.grams) for row in rows]


def test_a_lot_put_away_stands_in_its_space(home: Home, cellar: str) -> None:
    told = {"variety": "Long Ember", "pack": "sand", "spot": "box 2", "code": "31"}
    lot = home.row(home.lot(cellar, "carrot", grams=24_000, **told))
    assert (lot.crop, lot.variety, lot.pack, lot.spot, lot.code) == (
        "carrot",
        "Long Ember",
        "sand",
        "box 2",
        "31",
    )
    assert lot.space
    assert (str(lot.space.uuid), lot.stands, lot.finished, lot.born_by) == (cellar, True, False, "put_away")
    assert (lot.put_away_day, lot.born_day, lot.last_look, lot.winter) == (DAY, DAY, DAY, 2026)
    assert lot.grams == 24_000


def test_a_lot_without_a_code_is_given_the_next_number(home: Home, cellar: str) -> None:
    first, second = home.row(home.lot(cellar)), home.row(home.lot(cellar))
    assert first.code
    assert int(second.code) == int(first.code) + 1


def test_a_curing_lot_says_until_when(home: Home, cellar: str) -> None:
    lot = home.row(home.lot(cellar, "onion", cures_until="2026-12-09"))
    assert (lot.curing, lot.cures_until, lot.pack) == (True, dt.date(2026, 12, 9), "")


def test_a_take_is_kept_as_written_and_leaves_the_lot(home: Home, cellar: str) -> None:
    lot = home.lot(cellar, grams=24_000, pieces=240)
    entry = home.write("take", {"lot": lot, "grams": 2_000, "measured": "vessel", "for": "give"})
    [row] = happenings(home, entry)
    assert (row.kind, row.grams, row.pieces, row.measured, row.purpose) == (
        "take",
        2_000,
        None,
        "vessel",
        "give",
    )
    assert str(row.person.uuid) == home.keeper
    assert went(home, entry) == [("given", 20, 2_000)]
    assert home.row(lot).grams == 22_000


def test_a_cull_goes_where_it_says_and_the_rest_takes_what_is_left(home: Home, cellar: str) -> None:
    """F9: the one place without a weight has the rest of what left."""
    lot = home.lot(cellar, grams=10_000, pieces=100)
    body = out(pieces=10, went=[{"step": "compost", "grams": 300}, {"step": "cook"}])
    entry = home.write("cull", {"lot": lot} | body)
    assert [(way, grams) for way, _, grams in went(home, entry)] == [("compost", 300), ("cook", 700)]
    assert (home.row(lot).pieces, home.row(lot).grams) == (90, 9_000)


def test_a_trim_takes_weight_and_no_pieces(home: Home, cellar: str) -> None:
    lot = home.lot(cellar, "cabbage", pieces=23, grams=46_000)
    cut = {"step": "compost", "grams": 600}
    entry = home.write("trim", {"lot": lot, "pieces": 2, "findings": ["yellowing"], "cut": cut})
    [row] = happenings(home, entry)
    assert (row.pieces, row.grams) == (2, 600)
    assert (home.row(lot).pieces, home.row(lot).grams) == (23, 45_400)
    [left] = Went.rows.of(home.id).filter(entry=entry)
    assert (left.way, left.findings, left.crop) == ("compost", ["yellowing"], "cabbage")


def test_a_lot_moved_whole_stands_elsewhere(home: Home, cellar: str) -> None:
    lot, loft = home.lot(cellar), home.space("Loft")
    entry = home.write("move", {"lot": lot, "all": True, "space": loft, "spot": "by the stairs"})
    [row] = happenings(home, entry)
    assert row.whole
    assert row.born is None
    moved = home.row(lot)
    assert moved.space
    assert (str(moved.space.uuid), moved.spot) == (loft, "by the stairs")


def test_a_part_moved_is_a_lot_with_the_same_past(home: Home, cellar: str) -> None:
    """F15: born with the crop, the put-away day and the weight of a piece of the lot it came from."""
    lot, loft = home.lot(cellar, grams=10_000, pieces=100, variety="Long Ember"), home.space("Loft")
    part = home.write("move", {"lot": lot, "all": False, "space": loft, "pieces": 40, "code": "7"}, day=9)
    born = home.row(part)
    assert (born.pieces, born.grams, born.crop, born.variety, born.code) == (
        40,
        4_000,
        "carrot",
        "Long Ember",
        "7",
    )
    assert born.parent == home.row(lot)
    assert (born.put_away_day, born.born_day) == (DAY, DAY + dt.timedelta(days=9))
    [row] = happenings(home, part)
    assert row.born == born
    assert (home.row(lot).pieces, home.row(lot).grams) == (60, 6_000)


def test_a_part_of_a_part_moved_in_one_push_finds_where_it_came_from(home: Home, cellar: str) -> None:
    lot = home.lot(cellar, grams=10_000, pieces=100)
    first = home.line("move", {"lot": lot, "all": False, "space": cellar, "pieces": 40})
    second = home.line("move", {"lot": first["id"], "all": False, "space": cellar, "pieces": 10})
    assert [receipt.result for receipt in home.write_lines([first, second])] == ["accepted"] * 2
    assert home.row(second["id"]).grams == 1_000
    assert home.row(first["id"]).pieces == 30


def test_what_comes_late_to_a_lot_changes_the_parts_moved_from_it(home: Home, cellar: str) -> None:
    """An entry that does not sort last refolds its lot and the parts moved from it."""
    lot = home.lot(cellar, grams=10_000, pieces=100)
    part = home.write("move", {"lot": lot, "all": False, "space": cellar, "pieces": 40}, day=5)
    assert home.row(part).grams == 4_000
    home.write("count", {"lot": lot, "pieces": 100, "grams": 9_000}, day=2)
    assert home.row(part).grams == pytest.approx(3_600)


def test_a_count_settles_what_is_there(home: Home, cellar: str) -> None:
    lot = home.lot(cellar, "cabbage", pieces=120, grams=18_000)
    entry = home.write("count", {"lot": lot, "pieces": 105, "grams": 14_700, "gone": "dried"}, day=3)
    [row] = happenings(home, entry)
    assert (row.pieces, row.grams, row.gone) == (105, 14_700, "dried")
    [left] = Went.rows.of(home.id).filter(entry=entry)
    assert (left.way, left.bucket, left.grams, left.unwritten) == ("dried", "shrink", 3_300, True)
    assert home.row(lot).counted_on == DAY + dt.timedelta(days=3)


def test_what_is_kept_for_seed_is_told_beside_the_lot(home: Home, cellar: str) -> None:
    lot = home.lot(cellar, "garlic", pieces=174, grams=8_000)
    home.write("set_aside", {"lot": lot, "pieces": 40, "treated": True})
    assert (home.row(lot).seed_pieces, home.row(lot).seed_treated) == (40, True)
    home.write("set_aside", {"lot": lot, "pieces": 0})
    assert home.row(lot).seed_pieces == 0


def test_what_is_put_by_leaves_its_lots_and_begins_a_new_one(home: Home, cellar: str) -> None:
    carrot, beet, pantry = home.lot(cellar), home.lot(cellar, "beet"), home.space("Pantry")
    entry = home.write(
        "put_by",
        {
            "from": [
                {"lot": carrot, "grams": 6_000},
                {"lot": beet, "grams": 1_000},
                {"lot": carrot, "grams": 400},
            ],
            "method": "ferment",
            "crop": "ferment",
            "label": "Carrot and beet, sour",
            "space": pantry,
            "pack": "crock",
            "pieces": 2,
            "grams": 7_000,
            "keeps_until": "2027-05-01",
            "trimmed": {"step": "compost", "grams": 400},
        },
    )
    assert {(str(row.lot.uuid), row.grams) for row in happenings(home, entry)} == {
        (carrot, 6_400),
        (beet, 1_000),
    }
    jar = home.row(entry)
    assert (jar.crop, jar.label, jar.method, jar.pieces, jar.grams) == (
        *("ferment", "Carrot and beet, sour", "ferment"),
        *(2, 7_000),
    )
    assert (jar.keeps_until, jar.parent) == (dt.date(2027, 5, 1), None)
    assert home.row(carrot).grams == 17_600
    assert home.row(beet).grams == 23_000


def test_a_reading_keeps_what_was_read_and_leaves_the_rest_open(home: Home, cellar: str) -> None:
    entry = home.write("reading", {"space": cellar, "temp_c": 2.5, "high_c": 4, "since": "2026-11-18"})
    row = Reading.rows.of(home.id).get(uuid=entry)
    assert (row.temp_c, row.rh_pct, row.low_c, row.high_c) == (2.5, None, None, 4)
    assert (row.since, row.day, str(row.space.uuid)) == (dt.date(2026, 11, 18), DAY, cellar)


def test_a_finished_lot_is_no_longer_listed_and_opens_again(home: Home, cellar: str) -> None:
    """F12: only `last` or a count of nought finishes a lot; a later entry opens it."""
    lot = home.lot(cellar, pieces=10, grams=1_000)
    home.write("take", {"lot": lot, "pieces": 9, "for": "eat", "last": True})
    assert home.row(lot).finished
    home.write("count", {"lot": lot, "pieces": 2})
    assert not home.row(lot).finished


def test_a_struck_lot_keeps_its_names_and_nothing_else(home: Home, cellar: str) -> None:
    lot = home.lot(cellar, "carrot", variety="Long Ember", code="31")
    home.write("take", {"lot": lot, "grams": 500, "for": "eat"})
    home.strike(lot)
    row = home.row(lot)
    assert (row.stands, row.code, row.variety, row.crop) == (False, "31", "Long Ember", "carrot")
    assert (row.pieces, row.grams, row.space, row.put_away_day, row.tallies) == (None, None, None, None, {})
    assert not Went.rows.of(home.id).exists()


def test_an_own_weighing_changes_what_is_known_of_every_lot_of_its_crop(home: Home, cellar: str) -> None:
    """F5: the household's own figure goes before the table's."""
    lot = home.lot(cellar, "cabbage", pieces=10)
    before = home.row(lot).grams
    figure = {"table": "piece_weights", "key": "cabbage", "column": "piece_g", "value": 1_500, "unit": "g"}
    home.edit("figure", figure)
    assert before != 15_000
    assert home.row(lot).grams == 15_000


def test_an_own_crop_borrows_the_figures_of_what_it_is_like(home: Home, cellar: str) -> None:
    own = home.edit("crop", {"name": "Pointed cabbage", "like": "cabbage"})
    plain, borrowed = home.lot(cellar, "cabbage", pieces=10), home.lot(cellar, own, pieces=10)
    assert home.row(borrowed).grams == home.row(plain).grams


def test_an_own_crop_not_here_yet_is_waited_for(home: Home, cellar: str) -> None:
    unknown = "01a0c450-6c02-7eb3-9445-9c79dd4231ba"
    receipt = home.refused("put_away", {"crop": unknown, "space": cellar, "grams": 1})
    assert (receipt.code, receipt.permanent) == ("unknown_reference", False)


def test_what_no_table_has_is_refused_by_name(home: Home, cellar: str) -> None:
    put_away, cull = {"crop": "carrot", "space": cellar, "grams": 1}, {"lot": home.lot(cellar)} | out()
    for kind, body, named, code in (
        ("put_away", put_away | {"crop": "moonfruit"}, "moonfruit", "crop_unknown"),
        ("put_away", put_away | {"pack": "hatbox"}, "hatbox", "pack_unknown"),
        ("cull", cull | {"findings": ["sadness"]}, "sadness", "finding_unknown"),
    ):
        receipt = home.refused(kind, body)
        assert (receipt.code, receipt.permanent) == (code, True)
        assert named in (receipt.message or "")


def test_the_factories_go_through_the_ledger(home: Home) -> None:
    space = SpaceFactory(home=home, name="Clamp")
    lot = LotFactory(home=home, space=str(space.uuid), crop="beet", grams=500)
    assert (lot.crop, lot.grams, lot.space) == ("beet", 500, space)
    assert Lot.rows.of(home.id).count() == 1
