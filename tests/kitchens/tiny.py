"""A kitchen small enough to draw on paper: two dishes, three components, two cooks.

Onions are peeled and diced for both dishes; their ends go to the stock. Stock simmers in the one
pot; thighs roast on the one rack of trays. All figures are made up.
"""

from typing import Any

from planner.kitchen.document import Kitchen

DATE = "2025-03-04"


def tiny_kitchen() -> dict[str, Any]:
    """Return a fresh, valid kitchen file as plain JSON values, free to be changed."""
    return {
        "format": "prepwright-kitchen",
        "version": 1,
        "name": "Tiny kitchen",
        "as_of": DATE,
        "units": [{"name": "ladle", "equals": "120 ml"}],
        "ingredients": _ingredients(),
        "operations": _operations(),
        "components": _components(),
        "dishes": [
            {
                "id": "onion_soup",
                "name": "Onion soup",
                "components": [
                    {"item": "stock", "amount": "2 ladle"},
                    {"item": "diced_onion", "amount": "40 g"},
                ],
            },
            {
                "id": "chicken_plate",
                "name": "Chicken plate",
                "components": [
                    {"item": "roast_thigh", "amount": "1 each"},
                    {"item": "diced_onion", "amount": "30 g"},
                ],
            },
        ],
        "services": [
            {
                "id": "dinner",
                "name": "Dinner",
                "date": DATE,
                "opens": "17:30",
                "closes": "21:30",
                "covers": 40,
                "mix": [
                    {"dish": "onion_soup", "per_cover": 0.5},
                    {"dish": "chicken_plate", "per_cover": 0.6},
                ],
            }
        ],
        "stations": [
            {"id": "board", "name": "Boards", "places": 2},
            {"id": "stove", "name": "Stove", "places": 1, "food_contact": False},
        ],
        "equipment": [
            {"id": "pot", "name": "Stock pot", "count": 1, "holds": "12 l"},
            {"id": "tray", "name": "Oven tray", "count": 2, "holds": "2.5 kg"},
        ],
        "cooks": [
            {
                "id": "ana",
                "name": "Ana",
                "initials": "AN",
                "wage_per_hour": 20,
                "skills": [{"skill": "knife"}, {"skill": "heat", "pace": 1.2}],
                "shifts": [
                    {
                        "start": "08:00",
                        "end": "16:00",
                        "breaks": [{"start": "12:00", "minutes": 30}],
                    }
                ],
            },
            {
                "id": "ben",
                "name": "Ben",
                "initials": "BE",
                "wage_per_hour": 18,
                "skills": [{"skill": "knife", "pace": 0.8}],
                "stations": ["board"],
                "shifts": [
                    {
                        "start": "10:00",
                        "end": "18:00",
                        "on_line": [{"start": "17:00", "end": "18:00"}],
                    }
                ],
            },
        ],
        "prepared": [
            {"item": "stock", "amount": "2 l", "made": "2025-03-03", "use_by": "2025-03-06"}
        ],
        "raw_stock": [
            {"item": "onion", "amount": "20 each", "received": "2025-03-03"},
            {"item": "thigh", "amount": "1 case", "received": "2025-03-03"},
            {"item": "bones", "amount": "10 kg", "received": "2025-03-03"},
        ],
        "deliveries": [{"item": "onion", "amount": "1 bag", "date": DATE, "at": "09:00"}],
    }


def tiny() -> Kitchen:
    """Return the same kitchen as the planner holds it."""
    return Kitchen.model_validate(tiny_kitchen())


def _ingredients() -> list[dict[str, Any]]:
    return [
        {
            "id": "onion",
            "name": "Onions",
            "purchase": {"unit": "bag", "holds": "10 kg", "cost": 12},
            "pull_unit": "each",
            "weights": [{"unit": "each", "weight": "160 g"}],
        },
        {
            "id": "onion_ends",
            "name": "Onion ends",
            "purchase": {"unit": "tub", "holds": "1 kg"},
            "by_product": True,
        },
        {
            "id": "thigh",
            "name": "Chicken thighs",
            "purchase": {"unit": "case", "holds": "60 each", "cost": 70},
            "pull_unit": "each",
            "weights": [{"unit": "each", "weight": "180 g"}],
            "raw_animal": "poultry",
            "tcs": True,
        },
        {
            "id": "bones",
            "name": "Chicken bones",
            "purchase": {"unit": "box", "holds": "10 kg", "cost": 15},
            "raw_animal": "poultry",
            "tcs": True,
        },
        {
            "id": "water",
            "name": "Water",
            "purchase": {"unit": "tap", "holds": "1 l"},
            "density": {"g_per_ml": 1.0},
            "counted": False,
        },
    ]


def _operations() -> list[dict[str, Any]]:
    return [
        {
            "id": "peel",
            "name": "Peel",
            "station": "board",
            "skill": "knife",
            "set_up_minutes": 4,
            "minutes_per": 3,
            "yields": [
                {
                    "food": "onion",
                    "fraction": 0.9,
                    "trim": [{"item": "onion_ends", "share": 0.6}],
                }
            ],
            "cautions": ["knife"],
        },
        {
            "id": "dice",
            "name": "Dice",
            "station": "board",
            "skill": "knife",
            "set_up_minutes": 3,
            "minutes_per": 6,
            "yields": [{"food": "onion", "fraction": 0.96}],
            "cautions": ["knife"],
        },
        {
            "id": "simmer",
            "name": "Simmer",
            "station": "stove",
            "skill": "heat",
            "set_up_minutes": 5,
            "each_lot_minutes": 6,
            "per": "lot",
            "unattended_minutes": 180,
            "finish_minutes": 8,
            "equipment": [{"equipment": "pot"}],
            "cooks_through": True,
            "cautions": ["hot surface", "steam", "lifting"],
        },
        {
            "id": "roast",
            "name": "Roast",
            "station": "stove",
            "skill": "heat",
            "set_up_minutes": 5,
            "minutes_per": 0.3,
            "per": "each",
            "unattended_minutes": 35,
            "finish_minutes": 3,
            "equipment": [{"equipment": "tray", "max_units": 2}],
            "yields": [{"food": "thigh", "fraction": 0.75}],
            "cooks_through": True,
            "cautions": ["hot surface"],
        },
    ]


def _components() -> list[dict[str, Any]]:
    return [
        {
            "id": "diced_onion",
            "name": "Diced onion",
            "inputs": [{"item": "onion"}],
            "route": [{"operation": "peel"}, {"operation": "dice", "cut": "medium_dice"}],
            "shelf_life_days": 2,
        },
        {
            "id": "stock",
            "name": "Chicken stock",
            "inputs": [
                {"item": "bones", "amount": "4 kg"},
                {"item": "diced_onion", "amount": "500 g", "may_use": ["onion_ends"]},
                {"item": "water", "amount": "8 l"},
            ],
            "makes": "8 l",
            "route": [{"operation": "simmer"}],
            "shelf_life_days": 4,
            "density": {"g_per_ml": 1.0},
        },
        {
            "id": "roast_thigh",
            "name": "Roast thighs",
            "inputs": [{"item": "thigh"}],
            "route": [{"operation": "roast", "temperature_c": 74}],
            "shelf_life_days": 3,
            "weights": [{"unit": "each", "weight": "135 g"}],
        },
    ]
