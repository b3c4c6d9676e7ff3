"""Amounts, times and temperatures of stored sentences, in the reader's units and clock.

What is stored is metric and on the 24 h clock. A figure is told again by the presenters that write
it everywhere else. It was rounded when it was stored, so what is pulled is rounded up once more:
never less than was stored. Other masses are rounded to the nearest, as on all pages: none of them
is a limit of safety. Temperatures are limits, and are not rounded again: both scales are stored,
and change places.
"""

import datetime as dt
import re

from web.presenters.clock import time_of_day
from web.presenters.preferences import Preferences
from web.presenters.quantities import mass, pulled_mass, temperature

_MASS = re.compile(r"(\d+(?:\.\d+)?) (k?)g")
_TIME = re.compile(r"\b([01]\d|2[0-3]):([0-5]\d)\b")
_WARM = re.compile(r"(-?\d+(?:\.\d+)?) C(?: \((-?\d+) F\))?")


def mass_again(text: str, preferences: Preferences, *, pulled: bool = False) -> str | None:
    """The mass that ``text`` is; None where it is no mass. ``pulled`` ones are rounded up."""
    found = _MASS.fullmatch(text)
    if found is None:
        return None
    if preferences.units == "metric":
        return text
    grams = float(found[1]) * (1000 if found[2] else 1)
    return pulled_mass(grams, preferences) if pulled else mass(grams, preferences)


def times_again(text: str, preferences: Preferences) -> str:
    """``text`` with the times of the day in it, ``06:05``, as the reader's clock shows them."""
    if preferences.clock == 24:
        return text
    return _TIME.sub(
        lambda found: time_of_day(dt.time(int(found[1]), int(found[2])), preferences), text
    )


def warmth_again(text: str, preferences: Preferences) -> str:
    """The temperature that ``text`` is, ``5 C (41 F)``, with the reader's own scale first."""
    found = _WARM.fullmatch(text)
    if found is None or preferences.units == "metric":
        return text
    if found[2] is None:
        return temperature(float(found[1]), preferences)
    return f"{found[2]} °F ({found[1]} °C)"
