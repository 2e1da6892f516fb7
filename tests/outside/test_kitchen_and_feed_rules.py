"""What the project offers and refuses, against pages of public bodies and universities.

Each rule below was read in the page named; the words are ours.
"""

from __future__ import annotations

import pytest

from homestead.reference import rules
from homestead.storekeeping.feeding import may_feed
from homestead.storekeeping.ladder import uses_of
from homestead.storekeeping.rules import Question

KEEPER_SAYS_YES = ["laying_hen", "duck", "pig", "goat", "sheep", "cattle", "rabbit"]


def food_left(crop: str, finding: str, part: str | None = None) -> set[str]:
    question: Question = {"crop": crop, "part": part, "findings": [finding], "cut_in": "store"}
    steps = {allowed["step"] for allowed in uses_of(rules(), question)["steps"]}
    return steps & {"raw", "cook", "pot"}


# Academy of Nutrition and Dietetics, Should I worry about moldy food?
# http://www.eatright.org/Public/content.aspx?id=6442451911
# firm: cut 1 inch round; names cabbage, bell pepper, carrot
@pytest.mark.parametrize("crop", ["cabbage", "pepper"])
def test_firm_vegetables_with_a_small_mould_spot_are_trimmed_and_cooked(crop: str) -> None:
    assert food_left(crop, "mould") == {"cook"}


def test_a_carrot_with_a_small_black_spot_is_trimmed_and_cooked() -> None:
    assert food_left("carrot", "black_mould") == {"cook"}


# The same page, and NC State University food safety FAQ (Fraser & Lackey 2004),
# http://www.foodsafetysite.com/consumers/faq/?m_knowledgebase_article=328
# out: soft ones, jam, nuts, beans, grain, bread, leftovers
@pytest.mark.parametrize(
    "crop",
    [
        "tomato",
        "plum",
        "grape",
        "jar",
        "walnut",
        "hazelnut",
        "almond",
        "bean_dry",
        "grain",
        "bread",
        "grain_cooked",
    ],
)
def test_soft_or_porous_food_with_mould_is_no_food(crop: str) -> None:
    assert food_left(crop, "mould") == set()


# US FDA, Patulin in apple juice (2001), copy at webharvest.gov: patulin survives heat
@pytest.mark.parametrize("finding", ["mould", "blue_mould", "grey_mould", "rot_spot", "soft_rot"])
def test_no_mouldy_or_rotten_apple_goes_into_a_dish(finding: str) -> None:
    assert food_left("apple", finding) == set()


# USDA Complete Guide to Home Canning, identifying and handling spoiled canned food,
# copy at gopherproxy.meulie.net
@pytest.mark.parametrize("finding", ["lid_up", "working", "mould"])
def test_a_suspect_jar_is_not_tasted_and_goes_to_the_bin(finding: str) -> None:
    uses = uses_of(rules(), {"crop": "jar", "findings": [finding]})
    assert [allowed["step"] for allowed in uses["steps"]] == ["bin"]


# NCHFP, For safety's sake: low acid is pH above 4.6, pressure canner only; an outbreak from beets in jars:
# http://foodsafetyinfosheets.org/2012/08/02/home-canned-beets-in-oregon-linked-to-three-botulism-hospitalizations/
def test_a_jar_shows_the_caution_for_low_acid_where_it_is_eaten() -> None:
    cook = next(
        s for s in uses_of(rules(), {"crop": "jar", "findings": ["sound"]})["steps"] if s["step"] == "cook"
    )
    assert "kitchen_safety:canning_low_acid" in cook["cautions"]


# NCHFP, Freezing garlic-in-oil (2015): at most 4 days at 4 °C
def test_garlic_shows_the_caution_for_oil() -> None:
    for allowed in uses_of(rules(), {"crop": "garlic", "findings": ["sound"]})["steps"]:
        if allowed["step"] in ("raw", "cook", "pot"):
            assert "kitchen_safety:garlic_in_oil" in allowed["cautions"]


# Kansas State University on the FDA Bad Bug Book: raw or half-cooked kidney beans make ill
def test_dry_beans_are_never_raw() -> None:
    assert food_left("bean_dry", "sound") == {"cook"}


# Institut national de santé publique du Québec: honey, never under one year
def test_honey_is_not_for_an_infant() -> None:
    uses = uses_of(rules(), {"crop": "honey", "findings": ["sound"], "eaters": ["infant"]})
    food = [allowed for allowed in uses["steps"] if allowed["step"] in ("raw", "cook")]
    assert food
    assert all({"eater": "infant", "row": "eaters:honey_infant"} in allowed["not_for"] for allowed in food)


def verdict(animal: str, crop: str, finding: str = "sound", part: str | None = None) -> str:
    law = {"country": "NZ", "confirmed": True, "kitchen_to": KEEPER_SAYS_YES}
    question: Question = {"crop": crop, "part": part, "findings": [finding], "cut_in": "yard"}
    return may_feed(rules(), question, {"kind": animal}, law)["verdict"]


# Colorado State University, Guide to Poisonous Plants, avocado,
# https://poisonousplants.cvmbs.colostate.edu/Plants/Details/145
# cattle, goats, sheep, rabbits, chickens among others
@pytest.mark.parametrize("animal", ["cattle", "goat", "sheep", "rabbit", "laying_hen"])
def test_avocado_is_never_fed_where_poisoning_was_seen(animal: str) -> None:
    assert verdict(animal, "avocado") == "never"


# University of Pennsylvania, Poisonous Plants, onion: cattle most susceptible; goats and sheep fairly
# resistant; over 25 % of dry matter brings anaemia,
# http://research.vet.upenn.edu/poisonousplants/Plants/PlantsbyLatinName/Alliumcepacanadense
@pytest.mark.parametrize("animal", KEEPER_SAYS_YES)
@pytest.mark.parametrize("crop", ["onion", "shallot", "garlic", "leek"])
def test_no_animal_is_offered_onion_or_its_kin(animal: str, crop: str) -> None:
    assert verdict(animal, crop) in ("avoid", "never")


# University of Nebraska-Lincoln Extension G1437, Green potatoes (2001), copy at studylib.net; Canadian
# Poisonous Plants Information System on Solanum tuberosum (from memory): green and sprouted harm livestock
@pytest.mark.parametrize("animal", KEEPER_SAYS_YES)
@pytest.mark.parametrize("finding", ["greening", "sprouting"])
def test_green_and_sprouted_potatoes_are_never_fed(animal: str, finding: str) -> None:
    assert verdict(animal, "potato", finding) == "never"


# Rhubarb blades hold soluble oxalate: the row's source, and most lists of poisonous plants (from memory)
@pytest.mark.parametrize("animal", KEEPER_SAYS_YES)
def test_rhubarb_leaves_are_never_fed(animal: str) -> None:
    assert verdict(animal, "rhubarb", part="leaves") == "never"


# Regulation (EC) No 1069/2009 Art. 11(1)(b), German text at https://freirecht.de/g/EG2009VO1069:11
# The Animal By-Products (Enforcement) (Wales) Regulations 2011, legislation.gov.uk/wsi/2011/600/regulation/5
@pytest.mark.parametrize("country", ["AT", "DE", "FR", "IE", "GB", "GB-WLS", "GB-NIR"])
@pytest.mark.parametrize("animal", KEEPER_SAYS_YES)
def test_kitchen_scraps_are_fed_to_no_farmed_animal_in_the_eu_and_the_uk(country: str, animal: str) -> None:
    law = {"country": country, "confirmed": True, "kitchen_to": KEEPER_SAYS_YES}
    question: Question = {"crop": "carrot", "part": "peel", "findings": ["sound"], "cut_in": "kitchen"}
    answer = may_feed(rules(), question, {"kind": animal}, law)
    assert (answer["offered"], answer["refused"]) == (False, True)


# 9 CFR 166.15 as it stood before December 2019, federal.elaws.us: states that prohibit garbage to swine
@pytest.mark.parametrize("state", ["US-IA", "US-NY", "US-WI", "US"])
def test_pigs_get_no_kitchen_scraps_in_states_that_prohibit_it(state: str) -> None:
    law = {"country": state, "confirmed": True, "kitchen_to": ["pig"]}
    question: Question = {"crop": "carrot", "findings": ["sound"], "cut_in": "kitchen"}
    assert may_feed(rules(), question, {"kind": "pig"}, law)["code"] == "law_prohibited"
