"""What people hold by hand of a batch, in words."""

from planner.sheet.batch_types import SheetBatch
from web.language import gettext as _
from web.presenters.clock import clock
from web.presenters.preferences import Preferences


def held_words(batch: SheetBatch, preferences: Preferences) -> str:
    """What of a batch is held by hand; empty: nothing."""
    held = batch.held
    if held is None:
        return ""
    if held.begin is None:
        return _("Held by hand: with this cook")
    time = str(clock(held.begin, preferences))
    if held.cook and held.exactly:
        return _("Held by hand: with this cook, work begins at %(time)s", time=time)
    if held.cook:
        return _("Held by hand: with this cook, work not before %(time)s", time=time)
    if held.exactly:
        return _("Held by hand: work begins at %(time)s", time=time)
    return _("Held by hand: work not before %(time)s", time=time)
