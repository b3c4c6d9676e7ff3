"""What people type into a form's fields, as values; what cannot be read says what to write."""

import datetime as dt
import math
import re
from dataclasses import dataclass

from planner.kitchen.base import parse_clock


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
        raise BadFieldError("", "nothing is entered", f"write a whole number, such as {example}")
    if not (text.isascii() and text.isdecimal() and len(text) <= _DIGITS):
        raise BadFieldError(
            text, "this is not a whole number", f"write digits only, such as {example}"
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
        raise BadFieldError("", "nothing is entered", f"write a number, such as {example}")
    fraction = _FRACTION.fullmatch(text)
    if fraction and int(fraction[3]):
        return int(fraction[1] or 0) + int(fraction[2]) / int(fraction[3])
    if _THOUSANDS.fullmatch(text):
        plain = re.sub(r"[.,]", "", text)
        raise BadFieldError(
            text,
            "the comma may stand for thousands or for decimals",
            f"write {plain}, or a point for decimals",
        )
    if len(text) > _DIGITS or not _DECIMAL.fullmatch(text):
        raise BadFieldError(text, "this is not a number", f"write a number, such as {example}")
    number = float(text.replace(",", "."))
    return number if math.isfinite(number) else 0.0


def clock_text(text: str) -> str:
    """A wall-clock time as ``HH:MM``, from ``7``, ``730``, ``07:30``, ``7.30``; up to ``29:59``.

    Raises
    ------
    BadFieldError
        It is none.
    """
    remedy = "write hours and minutes, such as 0630 or 06:30; past midnight goes on: 2 is 26:00"
    match = _CLOCK.fullmatch(text) if text.isascii() else None
    if match is None and text.isascii() and re.fullmatch(r"\d{3}", text):
        match = _CLOCK.fullmatch(f"0{text}")
    if not match:
        message = "this is not a time" if text else "nothing is entered"
        raise BadFieldError(text, message, remedy)
    try:
        return str(parse_clock(f"{int(match[1]):02d}:{match[2] or '00'}"))
    except ValueError:
        raise BadFieldError(text, "there is no such time", remedy) from None


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
        message = "this is not a date" if text else "nothing is entered"
        raise BadFieldError(text, message, "write it as 2026-03-02") from None


def plain(number: float) -> str:
    """A number as one types it: without trailing zeros, with a point."""
    return f"{number:.10g}"
