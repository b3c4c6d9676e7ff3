"""What people type into a form's fields, as values; what cannot be read says what to write."""

import datetime as dt
import math
import re
from dataclasses import dataclass

from planner.kitchen.base import clock_minutes, parse_clock
from web.language import _
from web.presenters.clock import clock_mark
from web.presenters.preferences import Preferences


@dataclass(frozen=True, slots=True)
class FieldError:
    """What is wrong with one field: what stands there, why that cannot be, what to write."""

    value: str
    message: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.value}: {self.message}; {self.remedy}" if self.value else self.remedy


class BadFieldError(ValueError):
    """A field's text cannot be read; ``error`` says why."""

    def __init__(self, value: str, message: str, remedy: str) -> None:
        super().__init__(f"{value}: {message}; {remedy}")
        self.error = FieldError(value[:60], message, remedy)


_DECIMAL = re.compile(r"\d+(?:[.,]\d+)?|[.,]\d+", re.ASCII)
_FRACTION = re.compile(r"(?:(\d+) +)?(\d{1,3})/(\d{1,3})", re.ASCII)
_THOUSANDS = re.compile(r"\d{1,3}(?:[.,]\d{3})*,\d{3}", re.ASCII)
_CLOCK = re.compile(r"(\d{1,2})(?:[:.h ]?(\d{2}))?")
_TWELVE = re.compile(
    r"(\d{1,2})(?:[:.h ]?(\d{2}))? ?([ap])(?:\.? ?m)?\.?( ?\+1)?", re.ASCII | re.IGNORECASE
)
_NOON = 12
_DIGITS = 15
"""More are a slip of the hand, and more than a number keeps."""


def whole(text: str, *, example: str) -> int:
    """A whole number: ``70``.

    Raises
    ------
    BadFieldError
        It is none.
    """
    if not text:
        raise BadFieldError(
            "",
            _("nothing is entered"),
            _("write a whole number, such as %(example)s", example=example),
        )
    if not (text.isascii() and text.isdecimal() and len(text) <= _DIGITS):
        raise BadFieldError(
            text,
            _("this is not a whole number"),
            _("write digits only, such as %(example)s", example=example),
        )
    return int(text)


def decimal(text: str, *, example: str) -> float:
    """A number of zero or more: ``1.5``, ``1,5``, ``1 1/2``.

    Raises
    ------
    BadFieldError
        It is none, or a comma may stand for thousands.
    """
    if not text:
        raise BadFieldError(
            "", _("nothing is entered"), _("write a number, such as %(example)s", example=example)
        )
    fraction = _FRACTION.fullmatch(text)
    if fraction and int(fraction[3]):
        return int(fraction[1] or 0) + int(fraction[2]) / int(fraction[3])
    if _THOUSANDS.fullmatch(text):
        plain = re.sub(r"[.,]", "", text)
        raise BadFieldError(
            text,
            _("the comma may stand for thousands or for decimals"),
            _("write %(number)s, or a point for decimals", number=plain),
        )
    if len(text) > _DIGITS or not _DECIMAL.fullmatch(text):
        raise BadFieldError(
            text,
            _("this is not a number"),
            _("write a number, such as %(example)s", example=example),
        )
    number = float(text.replace(",", "."))
    return number if math.isfinite(number) else 0.0


def clock_text(text: str, preferences: Preferences) -> str:
    """A wall-clock time as ``HH:MM``, from ``7``, ``730``, ``07:30``, ``7.30``; up to ``29:59``.

    ``7:30 pm`` and ``2 am +1``, which is of the day after, are read by any clock. Who reads the
    12 h clock must say which half of the day is meant where it could be either.

    Raises
    ------
    BadFieldError
        It is none.
    """
    twelve = _TWELVE.fullmatch(text)
    match = _CLOCK.fullmatch(text) if text.isascii() else None
    if match is None and text.isascii() and re.fullmatch(r"\d{3}", text):
        match = _CLOCK.fullmatch(f"0{text}")
    if not match and not twelve:
        message = _("this is not a time") if text else _("nothing is entered")
        raise BadFieldError(text, message, _clock_remedy(preferences))
    if twelve:
        hour, minutes, half, later = twelve.groups()
        hours = int(hour) % _NOON + (_NOON if half in "pP" else 0) + (24 if later else 0)
        hours = hours if 1 <= int(hour) <= _NOON else -1
    else:
        assert match is not None  # noqa: S101 - one of the two has matched
        hours, minutes = int(match[1]), match[2]
        if preferences.clock == _NOON and 1 <= hours <= _NOON and not text.startswith("0"):
            raise BadFieldError(
                text, _("this may be morning or afternoon"), _clock_remedy(preferences)
            )
    try:
        return str(parse_clock(f"{hours:02d}:{minutes or '00'}"))
    except ValueError:
        raise BadFieldError(text, _("there is no such time"), _clock_remedy(preferences)) from None


def _clock_remedy(preferences: Preferences) -> str:
    if preferences.clock == _NOON:
        return _("write am or pm, such as 6:30 am; past midnight goes on: 2 am +1")
    return _("write hours and minutes, such as 0630 or 06:30; past midnight goes on: 2 is 26:00")


def clock_field(text: str, preferences: Preferences) -> str:
    """A checked ``HH:MM`` as a field shows it, and ``clock_text`` reads it; empty stays empty."""
    if not text or preferences.clock != _NOON:
        return text
    return clock_mark(clock_minutes(text), preferences)


def day(text: str) -> dt.date:
    """A date: ``2026-03-02``.

    Raises
    ------
    BadFieldError
        It is none.
    """
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        message = _("this is not a date") if text else _("nothing is entered")
        raise BadFieldError(text, message, _("write it as 2026-03-02")) from None


def plain(number: float) -> str:
    """A number as one types it: without trailing zeros, with a point."""
    return f"{number:.10g}"
