"""Headers of the tables about what is stored: crops, how they keep, are packed, weighed, grown, looked over.

A column's type here is what its cells must be; None is an empty cell. Units stand in the column names (`_c`
°C, `_pct` %, `_g` g, `_kg` kg, `_cm` cm). What a table says is told in fixtures/reference/README.md.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from homestead.reference.reading import Names, TableRow

Urgency = Literal["now", "days", "weeks", "note"]


@dataclass(frozen=True, kw_only=True)
class Crop(TableRow):
    """`jarred`: what a jar of it needs: acid, acidified (acid is added), low_acid; empty: no fresh crop."""

    crop_id: str
    name: str
    botanical_name: str
    family: str
    kind: str
    count_unit: str
    also_counted_in: Names
    parts_kept: str
    stored_part: str
    feed_crop_id: str
    jarred: Literal["", "acid", "acidified", "low_acid"]
    aliases: Names


@dataclass(frozen=True, kw_only=True)
class InHand(TableRow):
    """What comes to hand in kitchen and yard and is not stored: rhubarb, bread, lawn clippings."""

    id: str
    name: str
    kind: str
    stored_part: str
    feed_crop_id: str


@dataclass(frozen=True, kw_only=True)
class Name(TableRow):
    """What an id is called: packs, animals, states, those at table."""

    domain: Literal["pack", "animal", "state", "eater"]
    id: str
    name: str


@dataclass(frozen=True, kw_only=True)
class Storage(TableRow):
    crop_id: str
    condition: str
    rank: int
    temp_low_c: float | None
    temp_high_c: float | None
    rh_low_pct: float | None
    rh_high_pct: float | None
    life_low_days: int | None
    life_high_days: int | None
    life_basis: str
    survival: str
    freezing_point_c: float | None
    chilling_below_c: float | None
    ethylene_made: str
    ethylene_hurt: str
    resp_0c: float | None
    resp_5c: float | None
    resp_10c: float | None
    resp_15c: float | None
    resp_20c: float | None
    q10_low: float | None
    q10_high: float | None
    water_loss_limit_pct: float | None
    transpiration_ng_kg_s_pa: float | None
    shrink_pct_month_low: float | None
    shrink_pct_month_high: float | None
    cure: str


@dataclass(frozen=True, kw_only=True)
class Pack(TableRow):
    crop_id: str
    pack: str
    fit: str
    moisture_loss: str
    moisture_factor: float | None
    rot_spread: str
    rot_factor: float | None
    how: str
    cautions: str


@dataclass(frozen=True, kw_only=True)
class PieceWeight(TableRow):
    crop_id: str
    piece: str
    size: str
    edible_g: float | None
    refuse_pct: float | None
    refuse_part: str
    whole_g_low: float | None
    whole_g_high: float | None
    refuse_stored_pct_low: float | None
    refuse_stored_pct_high: float | None
    stored_months: float | None
    water_pct: float | None
    dry_matter_pct: float | None


@dataclass(frozen=True, kw_only=True)
class Planting(TableRow):
    crop_id: str
    rank: int
    kind: str
    yield_kg_per_m_low: float | None
    yield_kg_per_m_high: float | None
    yield_kg_per_m2_low: float | None
    yield_kg_per_m2_high: float | None
    yield_kg_per_plant_low: float | None
    yield_kg_per_plant_high: float | None
    row_apart_cm_low: float | None
    row_apart_cm_high: float | None
    in_row_cm_low: float | None
    in_row_cm_high: float | None
    seed_per_m_low: float | None
    seed_per_m_high: float | None
    seed_unit: str
    plants_per_person_low: float | None
    plants_per_person_high: float | None
    heads_per_m_low: float | None
    heads_per_m_high: float | None
    seeds_per_g_low: float | None
    seeds_per_g_high: float | None
    per_person_kg_low: float | None
    per_person_kg_high: float | None
    per_person_basis: str
    days_low: int | None
    days_high: int | None
    days_from: str
    sow_from_month: int | None
    sow_to_month: int | None
    harvest_from_month: int | None
    harvest_to_month: int | None
    put_away_from_month: int | None
    put_away_to_month: int | None
    new_harvest_month: int | None
    first_crop_years_low: float | None
    first_crop_years_high: float | None


@dataclass(frozen=True, kw_only=True)
class Finding(TableRow):
    """One thing seen on a round. `broader` is the plain word when unsure which: rot, mould."""

    id: str
    name: str
    description: str
    kind: str
    broader: str
    spreads: bool
    urgency: Urgency


@dataclass(frozen=True, kw_only=True)
class LookFor(TableRow):
    """A finding on a crop. `evidence` is about the sign, `use_basis` says what the two uses rest on."""

    crop_id: str
    finding_id: str
    where_on_piece: str
    what_it_means: str
    how_to_tell: str
    urgency: Urgency
    sound_part: str
    sound_part_step: str
    bad_part: str
    bad_part_step: str
    neighbours_at_risk: Literal["yes", "no", "maybe"]
    photo_hint: str
    use_basis: str


@dataclass(frozen=True, kw_only=True)
class LookingOver(TableRow):
    """Days between looks; a sample is the larger of number and share."""

    crop_id: str
    every_days: int
    every_days_late: int
    late_from_month: int
    way: Literal["all", "sample"]
    sample_pieces_min: int | None
    sample_share_pct: int
    minutes_per_10kg: float
    how: str
