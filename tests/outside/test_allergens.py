"""The allergens we know against the two laws that list them.

US: FALCPA (2004) and the FASTER Act (2021; sesame, since 2023-01-01). EU: Regulation (EU)
1169/2011, Annex II. The lists are written out here in the laws' own order.
"""

import pytest

from planner.kitchen.allergens import EU_FOURTEEN, US_NINE, eu_fourteen, us_nine
from planner.kitchen.foods import Allergen

US = [
    "milk",
    "egg",
    "fish",
    "crustacean shellfish",
    "tree nuts",
    "wheat",
    "peanuts",
    "soybeans",
    "sesame",
]
EU = [
    "cereals containing gluten",
    "crustacean shellfish",
    "egg",
    "fish",
    "peanuts",
    "soybeans",
    "milk",
    "tree nuts",
    "celery",
    "mustard",
    "sesame",
    "sulphites",
    "lupin",
    "molluscs",
]


def test_the_us_nine() -> None:
    assert len(US) == 9
    assert set(US) == US_NINE


def test_the_eu_fourteen() -> None:
    assert len(EU) == 14
    assert set(EU) == EU_FOURTEEN


def test_every_allergen_we_know_is_named_by_one_law_at_least() -> None:
    assert set(Allergen) == US_NINE | EU_FOURTEEN


@pytest.mark.parametrize("cereal", ["barley", "rye", "oats"])
def test_barley_rye_and_oats_are_declared_in_the_eu_only(cereal: str) -> None:
    """They are marked as cereals containing gluten; the US names wheat alone."""
    marked = {"cereals containing gluten"}
    assert (cereal, us_nine(marked)) == (cereal, frozenset())
    assert eu_fourteen(marked) == marked


def test_wheat_is_one_of_the_eu_cereals_containing_gluten() -> None:
    assert us_nine({"wheat"}) == {"wheat"}
    assert eu_fourteen({"wheat"}) == {"cereals containing gluten"}


@pytest.mark.parametrize("allergen", ["molluscs", "celery", "mustard", "sulphites", "lupin"])
def test_molluscs_and_others_are_not_among_the_us_nine(allergen: str) -> None:
    assert us_nine({allergen}) == frozenset()
    assert eu_fourteen({allergen}) == {allergen}
