"""Which ids the tables know, and where one is used that none of them declares."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from homestead.reference.amiss import Amiss
from homestead.reference.tables import Tables

#: states beside the findings (fixtures/reference/README.md)
STATES = ("sound", "unsure", "old", "trimmed", "cooked", "spent", "salted", "treated")
#: what a row stands for that has no crop of its own
ANY = ("any_produce", "any_fruit", "any_vegetable")
#: conditions of the feeding tables
FEED_CONDITIONS = (
    *("any", "sound", "mouldy", "rotten", "cooked", "salted", "green", "wilted", "frosted", "sprouted"),
    *("bitter", "rancid", "blighted"),
)
#: crops that preserve_yields.csv knows fresh and the store does not keep
PRESERVED_FRESH = (
    *("asparagus", "avocado", "bean_broad_lima", "bean_green", "broccoli", "collards", "corn", "pea"),
    *("rhubarb", "spinach", "squash_summer", "stock"),
)
STEPS = ("raw", "cook", "pot", "animals", "compost", "bin")
KITCHEN = ("prohibited", "no_animal_matter", "ask", "none")
VERDICTS = ("good", "limited", "avoid", "never")
USE = re.compile(r"(?P<crop>[a-z_]+)(\.(?P<part>[a-z ]+))?:(?P<states>[a-z_/]+):(?P<kg>\d+(\.\d+)?)")


def crops(tables: Tables) -> set[str]:
    return {crop.crop_id for crop in tables.crops}


def in_hand(tables: Tables) -> set[str]:
    return crops(tables) | {kind.id for kind in tables.in_hand}


def conditions(tables: Tables) -> set[str]:
    return {finding.id for finding in tables.findings} | set(STATES)


def animals(tables: Tables) -> set[str]:
    return {rule.animal for rule in tables.feed_safety} | {row.animal for row in tables.animals}


def fed_crops(tables: Tables) -> set[str]:
    """Ids under which the feeding tables have rows."""
    return {rule.crop_id for rule in tables.feed_safety}


def _not_among(
    table: str, column: str, used: Iterable[tuple[int, Iterable[str]]], known: Iterable[str]
) -> Iterator[Amiss]:
    allowed = set(known)
    for line, words in used:
        for word in words:
            if word not in allowed:
                yield Amiss("unknown_id", table, line, column, f"{word!r} is declared nowhere")


def unknown(tables: Tables) -> Iterator[Amiss]:
    """Every id that is used is declared: crops, findings, animals, steps, topics, rows drawn from."""
    yield from _crops_used(tables)
    yield from _conditions_used(tables)
    yield from _animals_used(tables)
    yield from _steps_used(tables)
    yield from _topics_used(tables)
    yield from _rows_used(tables)
    yield from _dishes(tables)


def _cells(tables: Tables, table: str, column: str) -> Iterator[tuple[int, Sequence[str]]]:
    """Line and ids of each cell of a column; an empty cell names none."""
    for row in tables.rows(table):
        cell = vars(row)[column]
        yield row.line, cell if isinstance(cell, tuple) else [cell] if cell else []


def _check(tables: Tables, table: str, column: str, known: Iterable[str]) -> Iterator[Amiss]:
    return _not_among(table, column, _cells(tables, table, column), known)


def _crops_used(tables: Tables) -> Iterator[Amiss]:
    stored, ours = crops(tables) | set(ANY), in_hand(tables) | set(ANY)
    for table in ("storage", "packs", "piece_weights", "planting", "look_fors", "looking_over"):
        yield from _check(tables, table, "crop_id", stored)
    yield from _check(tables, "ladder", "crop_id", ours)
    yield from _check(tables, "preserve_yields", "crop", ours | set(PRESERVED_FRESH))
    yield from _check(tables, "eaters", "crops", ours)
    for column in ("carriers", "kin"):
        yield from _check(tables, "soil_diseases", column, crops(tables))
    for table in ("crops", "in_hand"):
        yield from _check(tables, table, "feed_crop_id", fed_crops(tables))


def _conditions_used(tables: Tables) -> Iterator[Amiss]:
    known = conditions(tables)
    yield from _check(tables, "ladder", "condition", known)
    yield from _check(tables, "eaters", "conditions", known)
    for column in ("findings", "maybe"):
        yield from _check(tables, "soil_diseases", column, known)
    yield from _check(tables, "look_fors", "finding_id", known)
    yield from _check(tables, "findings", "broader", known)
    yield from _check(tables, "feed_safety", "condition", FEED_CONDITIONS)


def _animals_used(tables: Tables) -> Iterator[Amiss]:
    known = animals(tables)
    for column in ("animals_offered", "animals_limited", "animals_avoid", "animals_never"):
        yield from _check(tables, "ladder", column, known)
    yield from _check(tables, "feeding_law", "animal_ids", known)


def _steps_used(tables: Tables) -> Iterator[Amiss]:
    yield from _not_among("ladder", "steps_down", ((r.line, r.steps) for r in tables.ladder), STEPS)
    yield from _check(tables, "eaters", "steps", STEPS)
    yield from _check(tables, "dishes", "use_step", STEPS)
    for column in ("sound_part_step", "bad_part_step"):
        yield from _check(tables, "look_fors", column, (*STEPS, "none"))
    yield from _check(tables, "feed_safety", "verdict", VERDICTS)
    yield from _check(tables, "feeding_law", "kitchen", KITCHEN)


def _topics_used(tables: Tables) -> Iterator[Amiss]:
    topics = {rule.topic for rule in tables.kitchen_safety}
    for table in ("ladder", "eaters", "soil_diseases"):
        yield from _check(tables, table, "kitchen_topic", topics)
    named = ((r.line, r.use_basis.removeprefix("kitchen_safety: ")) for r in tables.look_fors)
    bases = ((line, [base] if base != "common practice" else []) for line, base in named)
    yield from _not_among("look_fors", "use_basis", bases, topics)


def _rows_used(tables: Tables) -> Iterator[Amiss]:
    rows = {f"{r.crop_id}/{r.crop_part}/{r.condition}" for r in tables.feed_safety}
    yield from _not_among("ladder", "feed_rows", ((r.line, r.drawn_from) for r in tables.ladder), rows)


def _dishes(tables: Tables) -> Iterator[Amiss]:
    known = {(rung.crop_id, rung.condition) for rung in tables.ladder}
    for dish in tables.dishes:
        for use in dish.uses.split("; "):
            read = USE.fullmatch(use)
            if not read:
                yield Amiss("unknown_id", "dishes", dish.line, "uses", f"{use!r} is no use")
                continue
            for state in read["states"].split("/"):
                if (read["crop"], state) not in known:
                    why = f"the ladder has no row for {read['crop']} {state}"
                    yield Amiss("unknown_id", "dishes", dish.line, "uses", why)
