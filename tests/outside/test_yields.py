"""Yields and weights against USDA SR28, and worked yield tests from textbooks.

SR28 is read from ``data/usda_sr28.csv``; see the README beside it.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from planner.measures import (
    AsPurchased,
    EdiblePortion,
    cost_factor,
    edible_cost,
    gross,
    net,
    yield_percent,
)
from tests.outside.sr28 import Food, disagreements, figures, read_extract

SEED = Path(__file__).parents[2] / "seed_data"
SEED_FILES = sorted(SEED.glob("*.json"))
SR28 = read_extract()


@pytest.mark.parametrize(
    ("ndb", "refuse", "measure", "edible", "purchased"),
    [
        ("11282", 10, "medium", 110, 122),  # onion
        ("11124", 11, "medium", 61, 69),  # carrot
        ("11143", 11, "stalk, medium", 40, 45),  # celery
        ("11333", 18, "medium", 119, 145),  # green pepper
        ("11215", 13, "clove", 3, 3),  # garlic
        ("11352", 25, "Potato medium", 213, 284),
        ("11529", 9, "medium whole", 123, 135),  # tomato
        ("11251", 6, "head", 626, 666),  # romaine
        ("11090", 39, "bunch", 608, 997),  # broccoli
        ("11135", 61, "head medium", 588, 1508),  # cauliflower
        ("11260", 3, "medium", 18, 19),  # mushroom
        ("11246", 56, "leek", 89, 202),
        ("09150", 47, 'fruit (2-1/8" dia)', 58, 109),  # lemon without peel
        ("09037", 26, "avocado", 201, 272),
        ("09266", 49, "fruit", 905, 1775),  # pineapple
        ("11109", 20, "head, medium", 908, 1135),  # cabbage
        ("11205", 3, "cucumber", 301, 310),
        ("11080", 33, "beet", 82, 122),
        ("11457", 28, "bunch", 340, 472),  # spinach
        ("01123", 12, "large", 50, 57),  # egg
    ],
)
def test_a_piece_as_purchased_weighs_its_edible_grams_over_one_less_refuse(
    ndb: str, refuse: float, measure: str, edible: float, purchased: float
) -> None:
    """Whole grams as purchased were worked out by hand from the two printed figures."""
    food = SR28[ndb]
    assert (food.refuse_percent, food.edible(measure)) == (refuse, edible)
    assert round(food.as_purchased(measure)) == purchased
    piece = gross(EdiblePortion(edible), food.trim_yield)
    assert piece.grams == pytest.approx(food.as_purchased(measure))
    assert net(piece, food.trim_yield).grams == pytest.approx(edible)


@pytest.mark.parametrize(("ndb", "refuse"), [("11297", 5), ("11485", 16), ("11677", 12)])
def test_refuse_of_foods_that_have_no_piece(ndb: str, refuse: float) -> None:
    """Parsley, butternut squash, shallots."""
    assert SR28[ndb].refuse_percent == refuse


def test_eggplant_cross_checks_its_own_refuse() -> None:
    """458 g peeled, from 1 1/4 lb (567 g), is 0.808; refuse of 19 % says 0.81."""
    food = SR28["11209"]
    purchased = AsPurchased(1.25 * 453.59237)
    peeled = EdiblePortion(food.edible("eggplant, peeled (yield from 1-1/4 lb)"))
    assert peeled.grams == 458
    assert yield_percent(purchased, peeled) == pytest.approx(80.8, abs=0.05)
    assert yield_percent(purchased, peeled) == pytest.approx(food.trim_yield * 100, abs=0.5)


def kitchen_file(**onion: Any) -> dict[str, Any]:
    """Parts of a kitchen file that cite SR28 for onions, with figures changed."""
    source = "USDA SR28 11282 onion"
    return {
        "ingredients": [
            {"weights": [{"unit": "each", "weight": onion.get("each", "122 g"), "source": source}]}
        ],
        "operations": [
            {"yields": [{"food": "onion", "fraction": onion.get("peel", 0.9), "source": source}]}
        ],
        "components": [
            {"density": {"g_per_ml": onion.get("diced", 0.68), "source": source}}  # cup 160 g
        ],
    }


def test_figures_that_follow_from_sr28_are_accepted() -> None:
    assert len(list(figures(kitchen_file()))) == 3
    assert disagreements(kitchen_file(), SR28) == []


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"each": "110 g"}, "weight 110 g"),  # the edible portion taken for AP
        ({"each": "0.2 kg"}, "weight 0.2 kg"),
        ({"peel": 0.88}, "it says 0.900"),
        ({"diced": 0.9}, "density 0.9"),
    ],
)
def test_a_figure_that_does_not_follow_is_told(change: dict[str, Any], told: str) -> None:
    (found,) = disagreements(kitchen_file(**change), SR28)
    assert told in found


@pytest.mark.parametrize(
    ("words", "told"),
    [("refuse 12 %", "its refuse is 10 %"), ("medium 112 g", "none of its measures weighs 112 g")],
)
def test_a_source_that_misquotes_sr28_is_told(words: str, told: str) -> None:
    source = f"USDA SR28 11282: {words}"
    document = {"operations": [{"yields": [{"fraction": 0.9, "source": source}]}]}
    (found,) = disagreements(document, SR28)
    assert told in found


def test_juice_has_a_yield_of_its_own() -> None:
    """Lemon juice, 48 g a lemon; a lemon as purchased is 58 / 0.53 = 109 g (09150)."""
    source = "USDA SR28 09152: lemon yields 48 g juice, of 109 g as purchased"
    assert round(SR28["09150"].as_purchased('fruit (2-1/8" dia)')) == 109
    document = {"operations": [{"yields": [{"fraction": 0.44, "source": source}]}]}
    assert disagreements(document, SR28) == []
    document["operations"][0]["yields"][0]["fraction"] = 0.48
    assert len(disagreements(document, SR28)) == 1


def test_a_citation_of_a_food_outside_the_extract_is_told() -> None:
    document = {"operations": [{"yields": [{"fraction": 0.9, "source": "USDA SR28 99999 none"}]}]}
    (found,) = disagreements(document, SR28)
    assert "not in the extract" in found


@pytest.mark.parametrize("path", SEED_FILES, ids=lambda path: path.name)
def test_every_seed_figure_that_cites_sr28_follows_from_it(path: Path) -> None:
    assert disagreements(json.loads(path.read_text("utf-8")), SR28) == []


def test_the_seed_leans_on_sr28() -> None:
    """Else the check above would pass for want of anything to check."""
    assert any(list(figures(json.loads(path.read_text("utf-8")))) for path in SEED_FILES)


def test_a_food_knows_its_yield() -> None:
    assert Food("made up", 25, ((2, "each", 30),)).as_purchased("each") == 20


def test_bccampus_carrots() -> None:
    """1 kg as purchased, 800 g after trim: 80 %. BCcampus, *Basic Kitchen and Food Service
    Management* (BC Cook Articulation Committee, 2015, CC BY 4.0), yield testing.
    """
    assert yield_percent(AsPurchased(1000), EdiblePortion(800)) == pytest.approx(80)
    assert gross(EdiblePortion(800), 0.80).grams == pytest.approx(1000)


def test_bccampus_five_kilograms_at_eight_dollars() -> None:
    """5 kg at $8.00/kg trimmed to 4 kg cost $10.00 a usable kg. The same book, from a copy."""
    usable = net(AsPurchased(5000), 0.80)
    assert usable.grams == pytest.approx(4000)
    assert round(edible_cost(8.00, 0.80), 2) == 10.00
    assert round(5 * 8.00 / (usable.grams / 1000), 2) == 10.00


def test_bccampus_a_dearer_supplier() -> None:
    """12.14 -> 13.00 raises the usable cost by 1.49. The same book; that its cost factor is about
    1.73 is our arithmetic: 1.49 / 0.86.
    """
    fraction = 1 / 1.73
    rise = edible_cost(13.00, fraction) - edible_cost(12.14, fraction)
    assert round(rise, 2) == 1.49
    assert round(13.00 * cost_factor(fraction) - 12.14 * cost_factor(fraction), 2) == 1.49


def test_striploin() -> None:
    """5.2 kg -> 4.6 kg is 88.5 %; at $11.95/kg, $13.51 a usable kg; 85 portions of 170 g take
    16.33 kg as purchased. A cookery teacher's exercise page; the answers are our arithmetic.
    """
    percent = yield_percent(AsPurchased(5200), EdiblePortion(4600))
    assert round(percent, 1) == 88.5
    assert round(edible_cost(11.95, percent / 100), 2) == 13.51
    wanted = EdiblePortion(170).times(85)
    assert round(gross(wanted, percent / 100).grams / 1000, 2) == 16.33
