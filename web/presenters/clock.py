"""Times, dates and durations for people."""

import datetime as dt
from dataclasses import dataclass

from babel.dates import format_date

from web.language import _, language
from web.presenters.preferences import Preferences
from web.presenters.typography import MINUS, TO

_DAY = 24 * 60
_LONG = {"en": "EEEE d MMMM y", "es": "EEEE d 'de' MMMM 'de' y"}
_SHORT = "EEE d MMM"


@dataclass(frozen=True, slots=True)
class ClockText:
    """A wall-clock time in two parts, so that a page can set the day apart from the hour.

    ``day`` is empty on the planned day.
    """

    time: str
    day: str

    def __str__(self) -> str:
        return f"{self.time} {self.day}" if self.day else self.time


def clock(minutes: int, preferences: Preferences) -> ClockText:
    """Wall-clock time of ``minutes`` after midnight of the planned day: ``00:10 next day``."""
    day, minute = divmod(minutes, _DAY)
    return ClockText(_time(minute, preferences), _day_words(day))


def until(start: int, end: int, preferences: Preferences) -> str:
    """When something ends; the day is named only where it is another than the start's."""
    first, last = clock(start, preferences), clock(end, preferences)
    return last.time if first.day == last.day else str(last)


def clock_mark(minutes: int, preferences: Preferences) -> str:
    """A short clock time for a chart's axis: ``00:10 +1``."""
    day, minute = divmod(minutes, _DAY)
    time = _time(minute, preferences)
    return f"{time} {day:+}" if day else time


def span(start: int, end: int, preferences: Preferences) -> str:
    """From one time to another; the day is named once where both fall on the same one."""
    first, last = clock(start, preferences), clock(end, preferences)
    if first.day == last.day:
        tail = f" {last.day}" if last.day else ""
        return f"{first.time}{TO}{last.time}{tail}"
    return f"{first}{TO}{last}"


def duration(minutes: int) -> str:
    """Minutes as hours and minutes: ``1 h 25``, ``2 h``, ``25 min``."""
    if minutes < 0:
        return f"{MINUS}{duration(-minutes)}"
    hours, rest = divmod(minutes, 60)
    if hours == 0:
        return f"{rest} min"
    return f"{hours} h {rest:02}" if rest else f"{hours} h"


def long_date(date: dt.date) -> str:
    """A date in full, in the language of the page: ``Tuesday 9 March 2027``."""
    return format_date(date, _LONG[language()], locale=language())


def short_date(date: dt.date) -> str:
    """A date within a year, as on labels, in the language of the page: ``Thu 26 Nov``."""
    return format_date(date, _SHORT, locale=language())


def time_of_day(wall: dt.time, preferences: Preferences) -> str:
    """What a clock on the wall shows: ``14:05``."""
    return _time(wall.hour * 60 + wall.minute, preferences)


def moment(at: dt.datetime, zone: dt.tzinfo, preferences: Preferences) -> str:
    """A moment as the clock on the wall of ``zone`` showed it: ``Wed 25 Nov 14:05``."""
    wall = at.astimezone(zone)
    return f"{short_date(wall.date())} {time_of_day(wall.time(), preferences)}"


def _time(minute: int, preferences: Preferences) -> str:
    hour, rest = divmod(minute, 60)
    if preferences.clock == 24:
        return f"{hour:02}:{rest:02}"
    return f"{(hour - 1) % 12 + 1}:{rest:02} {'am' if hour < 12 else 'pm'}"


def _day_words(day: int) -> str:
    if day == 0:
        return ""
    if day in (1, -1):
        return _("next day") if day == 1 else _("the day before")
    return _("%(n)s days later", n=day) if day > 0 else _("%(n)s days before", n=-day)
