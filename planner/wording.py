"""Masses and dates in words, the same on a terminal, a page and in a file."""

import datetime as dt


def grams_text(grams: float) -> str:
    """A mass for people: ``6.5 g``, ``640 g``, ``1.87 kg``."""
    if round(grams) >= 1000:
        return f"{grams / 1000:.2f} kg"
    return f"{grams:.0f} g" if grams >= 10 else f"{grams:.1f} g"


def short_date(date: dt.date) -> str:
    """A date within a year, as on labels: ``Thu 26 Nov``."""
    return f"{date:%a} {date.day} {date:%b}"
