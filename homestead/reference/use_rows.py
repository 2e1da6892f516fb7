"""Headers of the tables about use: the ladder, feeding, law, kitchen, who is at table, what becomes of the
rest.

A column's type is what its cells must be; None is an empty cell; a tuple is a list in one cell.
"""

from __future__ import annotations

from dataclasses import dataclass

from homestead.reference.reading import Ids, Names, TableRow


@dataclass(frozen=True, kw_only=True)
class Rung(TableRow):
    """Crop, part, condition: `steps_down` from the best step, and who of the animals may have it.

    `after_days`: on rows for `old`, the age from which the crop counts as old.
    """

    crop_id: str
    part: str
    condition: str
    best_step: str
    steps_down: str
    people_how: str
    animals_offered: Ids
    animals_limited: Ids
    animals_avoid: Ids
    animals_never: Ids
    caution: str
    kitchen_topic: str
    feed_rows: str
    after_days: int | None

    @property
    def steps(self) -> tuple[str, ...]:
        return tuple(self.steps_down.split(" > "))

    @property
    def drawn_from(self) -> tuple[str, ...]:
        """Rows of feed_safety without their animal, each once."""
        return tuple(dict.fromkeys(row.strip() for row in self.feed_rows.split(";") if row.strip()))


@dataclass(frozen=True, kw_only=True)
class FeedSafety(TableRow):
    animal: str
    crop_id: str
    crop_part: str
    condition: str
    verdict: str
    limit_note: str
    hazard: str

    @property
    def limit(self) -> str:
        """The note, where it is a limit to be kept."""
        return self.limit_note if self.verdict == "limited" else ""

    @property
    def why_not(self) -> str:
        """The note, where it says why it is good, to be avoided or never."""
        return "" if self.verdict == "limited" else self.limit_note


@dataclass(frozen=True, kw_only=True)
class FeedingLaw(TableRow):
    """One rule of one place. `countries` ISO 3166-1 or 3166-2, `*` anywhere; `animal_ids` whom it binds;
    `kitchen` what it says of what was cut in a kitchen: prohibited, no_animal_matter, ask, none."""

    jurisdiction: str
    countries: Ids
    animal: str
    animal_ids: Ids
    rule: str
    kitchen: str
    kitchen_scraps: str
    garden_produce_never_in_kitchen: str
    citation: str
    as_of: str


@dataclass(frozen=True, kw_only=True)
class KitchenSafety(TableRow):
    """`keeps_days`: the shorter of the times in `numbers`, where a clock runs by it."""

    topic: str
    rule: str
    numbers: str
    keeps_days: int | None


@dataclass(frozen=True, kw_only=True)
class Eater(TableRow):
    """Who must not have what. An empty list of crops, parts or conditions means any."""

    id: str
    eaters: Ids
    crops: Ids
    parts: Names
    conditions: Ids
    steps: Ids
    caution: str
    kitchen_topic: str


@dataclass(frozen=True, kw_only=True)
class SoilDisease(TableRow):
    """A disease that lives on in soil. `findings` say that it is there, `maybe` that it may be, on its
    `carriers`; `kin`: the crops whose beds get no compost that took it in."""

    id: str
    name: str
    findings: Ids
    maybe: Ids
    carriers: Ids
    kin: Ids
    kin_words: str
    kitchen_topic: str


@dataclass(frozen=True, kw_only=True)
class Animal(TableRow):
    """One quantity of one kind of animal, with low, high and unit."""

    animal: str
    sort: str
    quantity: str
    condition: str
    low: float | None
    high: float | None
    unit: str


@dataclass(frozen=True, kw_only=True)
class FeedValue(TableRow):
    row_type: str
    feedstuff: str
    dry_matter_pct: str
    crude_protein_pct_dm: str
    metabolisable_energy_mj_per_kg_dm_poultry: float | None
    calcium_pct_dm: float | None
    value: str
    unit: str


@dataclass(frozen=True, kw_only=True)
class Dish(TableRow):
    """A kind of dish for 4; `uses` is `crop[.part]:state/state:kg`, joined by `; `."""

    dish_id: str
    name: str
    use_step: str
    uses: str
    kg_per_4_people: float
    minutes: int
    minutes_hands_on: int
    keeps_days: int
    freezes: bool


@dataclass(frozen=True, kw_only=True)
class PreserveYield(TableRow):
    crop: str
    process: str
    form: str
    fresh_kg_per_unit: str
    unit: str
    yield_ratio: float | None
    blanch_minutes: str
    storage_months: str
    storage_temp_c: str


@dataclass(frozen=True, kw_only=True)
class CompostMaterial(TableRow):
    material: str
    nitrogen_pct_dm: str
    c_to_n: str
    moisture_pct: str
    bulk_density_kg_m3: str


@dataclass(frozen=True, kw_only=True)
class CompostExample(TableRow):
    """A worked sum as JSON, for tests."""

    id: str
    inputs: str
    expected: str
