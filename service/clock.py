"""The time of day, passed in where it is needed so that tests can choose it."""

import datetime as dt
from collections.abc import Callable
from zoneinfo import ZoneInfo

Now = Callable[[], dt.datetime]
"""Returns the present moment, aware, in UTC."""


def utc_now() -> dt.datetime:
    """The present moment in UTC."""
    return dt.datetime.now(dt.UTC)


def today_in(time_zone: str, now: Now) -> dt.date:
    """The date on a kitchen's wall.

    Parameters
    ----------
    time_zone
        IANA name, as the kitchen file gives it.
    now
        The clock.
    """
    return now().astimezone(ZoneInfo(time_zone)).date()
