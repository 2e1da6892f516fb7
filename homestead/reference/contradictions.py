"""Where two tables say different things of one piece. The cautious one is right; the other is to be
mended."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from homestead.reference import ids
from homestead.reference.amiss import Amiss
from homestead.reference.document import rules_document
from homestead.reference.feeds import feed_as, feed_words
from homestead.reference.tables import Tables
from homestead.reference.use_rows import FeedSafety, Rung
from homestead.storekeeping.ladder import uses_of
from homestead.storekeeping.rules import Question

#: parts that mean the whole of it
EVERY_PART = frozenset({"any", "all", "all parts"})
#: worst first
SEVERITY = ("never", "avoid", "limited", "good")


def between(tables: Tables) -> Iterator[Amiss]:
    """Contradictions between tables, and within one row of the ladder."""
    for rung in tables.ladder:
        yield from _steps(rung)
        yield from _animal_lists(rung)
    yield from _against_feed_safety(tables)
    yield from _spoilt_is_never_fed(tables)
    yield from _look_fors_milder(tables)
    missing = list(_piece_missing(tables))
    yield from missing
    if not missing:
        yield from _dishes_milder(tables)


def _steps(rung: Rung) -> Iterator[Amiss]:
    order = [ids.STEPS.index(step) for step in rung.steps if step in ids.STEPS]
    if order != sorted(set(order)):
        yield Amiss("steps", "ladder", rung.line, "steps_down", "steps do not go down")
    if rung.steps[0] != rung.best_step:
        yield Amiss("steps", "ladder", rung.line, "best_step", "is not the first of steps_down")
    if ("animals" in rung.steps) != bool(rung.animals_offered):
        yield Amiss(
            "steps",
            "ladder",
            rung.line,
            "animals_offered",
            "animals as a step, but none offered, or the reverse",
        )


def _animal_lists(rung: Rung) -> Iterator[Amiss]:
    offered = set(rung.animals_offered)
    if not set(rung.animals_limited) <= offered:
        yield Amiss("contradiction", "ladder", rung.line, "animals_limited", "limited, but not offered")
    lists = {"animals_avoid": set(rung.animals_avoid), "animals_never": set(rung.animals_never)}
    for column, animals in lists.items():
        if both := offered & animals:
            yield Amiss(
                "contradiction", "ladder", rung.line, column, f"offered too: {', '.join(sorted(both))}"
            )


def parts_of(rule: FeedSafety) -> frozenset[str]:
    """A row of feed_safety may name several parts."""
    return frozenset(part.strip() for part in rule.crop_part.split(","))


def bears_on(rule: FeedSafety, rung: Rung, fed: str, word: str) -> bool:
    """Does this feed rule speak of the ladder row's crop, part and state (the feeding tables' word for
    it)?"""
    if f"{rule.crop_id}/{rule.crop_part}/{rule.condition}" in rung.drawn_from:
        return True
    parts = parts_of(rule)
    # what is said of the whole piece holds for a part only where it is a never
    same_part = (
        rung.part in parts or bool(EVERY_PART & parts) or ("whole" in parts and rule.verdict == "never")
    )
    same_state = rule.condition in ("any", word)
    return rule.crop_id == fed and same_part and same_state


def _against_feed_safety(tables: Tables) -> Iterator[Amiss]:
    """Offered on the ladder only what feed_safety has and calls good or limited."""
    fed, words = feed_as(tables), feed_words(tables)
    by_animal: dict[str, list[FeedSafety]] = defaultdict(list)
    for rule in tables.feed_safety:
        by_animal[rule.animal].append(rule)
    for rung in tables.ladder:
        crop, word = fed.get(rung.crop_id, ""), words.get(rung.condition, "sound")
        for animal in rung.animals_offered:
            rules = [rule for rule in by_animal[animal] if bears_on(rule, rung, crop, word)]
            yield from _offered_against(rung, animal, rules)


def _offered_against(rung: Rung, animal: str, rules: list[FeedSafety]) -> Iterator[Amiss]:
    worst = min((SEVERITY.index(rule.verdict) for rule in rules if rule.verdict in SEVERITY), default=None)
    if worst is None:
        why = f"{animal} is offered, feed_safety has no row for it"
        yield Amiss("contradiction", "ladder", rung.line, "animals_offered", why)
    elif SEVERITY[worst] in ("never", "avoid"):
        why = f"{animal} is offered, feed_safety says {SEVERITY[worst]}"
        yield Amiss("contradiction", "ladder", rung.line, "animals_offered", why)
    elif SEVERITY[worst] == "limited" and animal not in rung.animals_limited:
        why = f"{animal} has a limit in feed_safety and none here"
        yield Amiss("contradiction", "ladder", rung.line, "animals_limited", why)


def _spoilt_is_never_fed(tables: Tables) -> Iterator[Amiss]:
    """Rot and mould go to no animal: every ladder row for them says never to each."""
    kinds = {finding.id: finding.kind for finding in tables.findings}
    every = {rule.animal for rule in tables.feed_safety}
    for rung in tables.ladder:
        if kinds.get(rung.condition) == "rot" and (left := every - set(rung.animals_never)):
            why = f"rot or mould, but not never for {', '.join(sorted(left))}"
            yield Amiss("contradiction", "ladder", rung.line, "animals_never", why)


def _look_fors_milder(tables: Tables) -> Iterator[Amiss]:
    """Look-fors and ladder begin at the same step for a crop and finding, and feed the bad part alike."""
    stored = {crop.crop_id: crop.stored_part for crop in tables.crops}
    broader = {finding.id: finding.broader for finding in tables.findings}
    written = _by_state(tables)
    for look in tables.look_fors:
        rungs = (
            written.get((look.crop_id, look.finding_id))
            or written.get((look.crop_id, broader.get(look.finding_id, "")))
            or []
        )
        main = [r for r in rungs if r.part in (stored.get(look.crop_id), "sound part")] or rungs
        steps = [look.sound_part_step, look.bad_part_step]
        mine = min(ids.STEPS.index(step) for step in steps if step != "none")
        if mine < (best := _best(rungs)):
            why = f"{ids.STEPS[mine]}, where the ladder begins at {ids.STEPS[best]}"
            yield Amiss("contradiction", "look_fors", look.line, "sound_part_step", why)
        if main and mine > (best := _best(main)):
            why = f"begins at {ids.STEPS[best]}, where look_fors.csv says {ids.STEPS[mine]}"
            yield Amiss("contradiction", "ladder", main[0].line, "best_step", why)
        if look.bad_part_step == "animals" and rungs and not any("animals" in rung.steps for rung in rungs):
            yield Amiss(
                "contradiction", "look_fors", look.line, "bad_part_step", "the ladder offers it to none"
            )


def _by_state(tables: Tables) -> dict[tuple[str, str], list[Rung]]:
    """The ladder's rows by crop and condition."""
    rungs: dict[tuple[str, str], list[Rung]] = defaultdict(list)
    for rung in tables.ladder:
        rungs[rung.crop_id, rung.condition].append(rung)
    return rungs


def _best(rungs: list[Rung]) -> int:
    return min((ids.STEPS.index(rung.best_step) for rung in rungs), default=0)


def _dishes_milder(tables: Tables) -> Iterator[Amiss]:
    """A dish takes nothing at a step that the ladder, asked as every screen asks it, has taken away."""
    rules = rules_document(tables)
    for dish in tables.dishes:
        for read in filter(None, map(ids.USE.fullmatch, dish.uses.split("; "))):
            for state in read["states"].split("/"):
                question = Question(crop=read["crop"], part=read["part"], findings=[state])
                uses = uses_of(rules, question)
                if not uses["known"] or dish.use_step not in [one["step"] for one in uses["steps"]]:
                    why = f"{read[0]}: {state} is not for {dish.use_step}"
                    yield Amiss("contradiction", "dishes", dish.line, "uses", why)


def _piece_missing(tables: Tables) -> Iterator[Amiss]:
    """Every stored crop has its rung, its look-fors or none on purpose, and its looking over."""
    looked = {row.crop_id for row in tables.looking_over}
    sound = {(rung.crop_id, rung.part) for rung in tables.ladder if rung.condition == "sound"}
    for crop in tables.crops:
        if crop.crop_id not in looked:
            yield Amiss("missing", "crops", crop.line, "crop_id", "no row in looking_over")
        if (crop.crop_id, crop.stored_part) not in sound:
            yield Amiss("missing", "crops", crop.line, "stored_part", "the ladder has no sound row for it")
    for kind in tables.in_hand:
        if (kind.id, kind.stored_part) not in sound:
            yield Amiss("missing", "in_hand", kind.line, "stored_part", "the ladder has no sound row for it")
