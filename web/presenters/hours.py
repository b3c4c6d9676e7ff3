"""When hands are needed last, and what then still runs by itself."""

from collections.abc import Collection

from planner.sheet.batch_types import SheetBatch
from web.language import _
from web.presenters.clock import clock
from web.presenters.preferences import Preferences


def last_hands_on(batches: Collection[SheetBatch]) -> int | None:
    """Minute at which the last hands-on work ends; None where there is none."""
    return max((batch.end for batch in batches), default=None)


def runs_on(batches: Collection[SheetBatch], preferences: Preferences) -> str:
    """``to 03:57 next day`` where food soaks, cures or cools on after the last hands-on work."""
    hands_on = last_hands_on(batches)
    ends = [one.unattended_until for one in batches if one.unattended_until is not None]
    if hands_on is None or not ends or max(ends) <= hands_on:
        return ""
    return _("to %(time)s", time=clock(max(ends), preferences))
