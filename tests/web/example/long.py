"""The longest shift there is: one cook with 43 batches, to see how many pages they print on.

The batches are those of the example's five cooks in the order of their start. Their times overlap,
which no planner would do; on paper they take the room that one cook's would.
"""

from dataclasses import replace

from planner.sheet.types import CookSheet, KitchenSheet
from tests.web.example import example_sheet

BATCHES = 43
PULLS = 24


def long_sheet() -> KitchenSheet:
    """The example morning with nobody but the busiest cook."""
    sheet = example_sheet()
    first = sheet.cooks[0]
    batches = sorted(
        (batch for cook in sheet.cooks for batch in cook.batches), key=lambda one: one.number
    )[:BATCHES]
    cook = CookSheet(
        cook="long",
        name=first.name,
        initials=first.initials,
        shift_start=first.shift_start,
        shift_end=first.shift_end,
        away=first.away,
        set_up=first.set_up,
        pulls=sheet.pulls[:PULLS],
        batches=tuple(replace(one, cook="long", cook_name=first.name) for one in batches),
        hands_on=sum(one.hands_on for one in batches),
        changeover=sum(one.changeover + one.hand_wash + one.clean for one in batches),
        finish=max(one.end for one in batches),
    )
    return replace(sheet, cooks=(cook,), pulls=cook.pulls)
