"""An invented restaurant's sales, with a week, a season, holidays and noise that are known."""

import datetime as dt
import math

import numpy as np

from planner.forecast.history import COVERS, Sale

WEEK = (0.8, 0.85, 0.9, 1.0, 1.4, 1.5, 0.0)
"""Closed on Sundays."""
DISHES = {"stew": 0.35, "fish": 0.22, "salad": 0.18, "game": 0.05, "tart": 0.15}
FIRST = dt.date(2025, 1, 6)


def invented_sales(
    seed: int,
    weeks: int = 40,
    covers: float = 90.0,
    spread: float = 0.12,
    holidays: frozenset[dt.date] = frozenset(),
    holiday_factor: float = 1.4,
) -> list[Sale]:
    """Lines of a history, one service."""
    dice = np.random.default_rng(seed)
    found = []
    for day in range(weeks * 7):
        date = FIRST + dt.timedelta(day)
        factor = WEEK[date.weekday()]
        if factor == 0:
            continue
        season = 1 + 0.15 * math.sin(2 * math.pi * day / 365)
        mean = covers * factor * season * (holiday_factor if date in holidays else 1.0)
        guests = int(dice.poisson(mean * math.exp(dice.normal(0, spread) - spread**2 / 2)))
        found.append(Sale(date, "dinner", COVERS, guests))
        found += [
            Sale(date, "dinner", dish, int(dice.binomial(guests, share)))
            for dish, share in DISHES.items()
        ]
    return found
