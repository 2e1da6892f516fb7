"""What the country's law, as far as the tables know it, and the household's own word say of kitchen scraps.

Twin: `frontend/src/storekeeping/law.ts`. Not legal advice: screens say to check the local rule and name the
row.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from homestead.storekeeping.rules import Group, Law, Question, Rules

LawRule = Mapping[str, Any]

#: kinds of crop that have been through a kitchen, wherever the pail stood
FROM_A_KITCHEN = frozenset(("animal", "preserve", "kitchen"))
#: kept in under a housing order
BIRDS = frozenset(("laying_hen", "duck", "goose"))
COOKED = frozenset(("cooked", "spent", "salted"))


def from_a_kitchen(question: Question, kind: str, conditions: Sequence[str]) -> bool:
    """Cut in a kitchen, cooked, or nobody says where: not known counts as kitchen."""
    where = question.get("cut_in")
    return where in (None, "kitchen") or kind in FROM_A_KITCHEN or bool(COOKED.intersection(conditions))


def holds_in(rule: LawRule, country: str) -> bool:
    """A rule of the country, of the part of it that is named, or, where none is named, of any part."""
    return any(
        code == country or country.startswith(f"{code}-") or code.startswith(f"{country}-")
        for code in rule["countries"]
    )


def kept_in(law: Law | None, group: Group) -> bool:
    """A housing order stops what goes outside: to birds that are not marked as housed."""
    ordered = bool((law or {}).get("housing_order"))
    return ordered and group["kind"] in BIRDS and not group.get("housed")


def law_refuses(
    rules: Rules, law: Law | None, animal: str, *, animal_matter: bool
) -> tuple[str, list[str]] | None:
    """Why kitchen scraps may not go to this kind of animal, with the rows that say so; None where they may.

    animal_matter: eggs, meat and what has touched them.
    """
    law = law or {}
    country = law.get("country")
    if not country:
        return "country_not_set", [r["row"] for r in rules["law"] if "*" in r["countries"]]
    held = [
        r for r in rules["law"] if animal in r["animals"] and holds_in(r, country) and r["kitchen"] != "none"
    ]
    if barred := [r["row"] for r in held if r["kitchen"] == "prohibited"]:
        return "law_prohibited", barred
    rows = [r["row"] for r in held]
    if not law.get("confirmed"):
        return ("law_not_confirmed" if held else "law_not_known"), rows
    plants_only = [r["row"] for r in held if r["kitchen"] == "no_animal_matter"]
    if animal_matter and plants_only:
        return "animal_matter", plants_only
    if animal not in law.get("kitchen_to", ()):
        return ("law_not_allowed" if held else "law_not_known"), rows
    return None
