"""Dishes and containers that several cooks of the example name."""

from planner.sheet.types import PullItem

SOUP = ("Onion soup with cheese toast (Lunch)", "Onion soup with cheese toast (Dinner)")
BEEF = ("Braised beef, root vegetables (Dinner)", "Braised beef, root vegetables (Banquet)")
VEGETABLE_PLATE = ("Winter vegetable plate (Lunch)", "Winter vegetable plate (Dinner)")
TART = ("Lemon tart (Dinner)", "Lemon tart (Banquet)")
SIXTH, THIRD, HALF = "sixth pan", "third pan", "half pan"
RAW = (2, 3, 1, 5)
"""Lead minutes where raw animal food comes after something else."""


def pull(
    name: str,
    kilos: float,
    units: float,
    unit: str,
    packs: float,
    pack: str,
    left: float = 0.0,
    storage: str = "walk-in",
    note: str = "",
) -> PullItem:
    """One line of a pull list, from kilos."""
    ingredient = name.lower().replace(" ", "_")
    return PullItem(
        ingredient, name, kilos * 1000, units, unit, packs, pack, left * 1000, storage, note
    )
