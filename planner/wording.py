"""Sentences, masses and dates in words, the same on a terminal, a page and in a file.

The planner speaks one language. What it says is made of whole patterns with named places, so that
a page can find the pattern behind a stored sentence and say it in its reader's language.
"""

import datetime as dt
import math

_KILO = 1000
_TOLERANCE = 1e-6
"""Grams come from products of fractions: 40.0000001 g are 40 g."""

_SCALES = ((10, 0.1), (_KILO, 1), (10 * _KILO, 10), (100 * _KILO, 100), (math.inf, _KILO))
"""(grams below which, step of the scale in grams)."""


def sentence(pattern: str, /, **values: object) -> str:
    """``pattern`` with its ``{places}`` filled: the text as it is stored and shown.

    The pattern is a literal, for the catalogues list what they find; so no call of this stands in
    another's brackets, nor in an f-string. A brace of the text's own is written twice. What a place
    is called says what it takes: ``n`` a figure, ``amount`` one with its unit, ``pulled`` what is
    taken off a shelf (`pulled_text`), ``at`` a time, ``warm`` a temperature (`degrees`),
    ``numbers`` what begins with a figure, and any other name any text, a sentence too. A name may
    go on after ``_``. Amounts, times and temperatures are told again in the reader's units and on
    the reader's clock.
    """
    return pattern.format(**values)


def counted(one: str, many: str, n: int) -> str:
    """The pattern that ``n`` asks for, its place ``{n}`` filled: ``1 portion``, ``2 portions``."""
    return (one if n == 1 else many).format(n=n)


def grams_text(grams: float) -> str:
    """A mass for people: ``6.5 g``, ``640 g``, ``1.87 kg``."""
    if round(grams) >= 1000:
        return f"{grams / 1000:.2f} kg"
    return f"{grams:.0f} g" if grams >= 10 else f"{grams:.1f} g"


def pulled_text(grams: float) -> str:
    """A mass to take off a shelf, never less than ``grams``: ``6.5 g``, ``641 g``, ``4.95 kg``.

    Rounded up to what a kitchen scale for such a load shows: 0.1 g below 10 g, 1 g below 1 kg, 10 g
    below 10 kg, 100 g below 100 kg, then 1 kg. Steps: starting guess.
    """
    for below, step in _SCALES:
        up = math.ceil(grams / step - _TOLERANCE) * step
        if up < below:
            break
    if up >= _KILO:
        return f"{_plain(up / _KILO)} kg"
    return f"{_plain(up)} g"


def degrees(celsius: float, fahrenheit: float | None = None) -> str:
    """A temperature as sentences store it, in both scales where both are given: ``5 C (41 F)``."""
    return f"{celsius:g} C" + ("" if fahrenheit is None else f" ({fahrenheit:.0f} F)")


def _plain(number: float) -> str:
    text = f"{number:.2f}"
    return text.rstrip("0").rstrip(".")


def short_date(date: dt.date) -> str:
    """A date within a year, as on labels: ``Thu 26 Nov``."""
    return f"{date:%a} {date.day} {date:%b}"
