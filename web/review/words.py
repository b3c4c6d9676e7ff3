"""Minutes, money and days on the manager's pages."""

import datetime as dt

from babel.dates import format_date

from web.language import _, language
from web.presenters.clock import clock
from web.presenters.preferences import Preferences
from web.presenters.typography import MINUS


def minutes(seconds: int) -> str:
    """Seconds as whole minutes."""
    return f"{seconds / 60:.0f}"


def signed(value: float, digits: int = 0) -> str:
    """A difference with its sign: ``+12``, ``-3``, ``0``."""
    rounded = round(value, digits)
    sign = "+" if rounded > 0 else MINUS if rounded < 0 else ""
    return f"{sign}{abs(rounded):,.{digits}f}"


def money(hundredths: int) -> str:
    """An amount with two decimals."""
    return f"{hundredths / 100:,.2f}"


def per_cover(seconds: float, covers: int) -> str:
    """Minutes for each guest; empty where there are none."""
    return f"{seconds / 60 / covers:.2f}" if covers else ""


def moment(at: float | None, preferences: Preferences) -> str:
    """When something was ticked."""
    return _("not ticked") if at is None else str(clock(int(at), preferences))


def short_day(date: dt.date) -> str:
    """A day within a year in the language of the page: ``Thu 26 Nov``."""
    return format_date(date, "EEE d MMM", locale=language())


def day_mark(date: dt.date) -> str:
    """A day for a chart's axis: ``26 Nov``."""
    return format_date(date, "d MMM", locale=language())
