"""The floor home: everybody who works today, with how far each has come."""

from dataclasses import dataclass

from planner.floor.progress import BatchProgress, Stage, current, progress_of
from planner.floor.state import Floor
from planner.sheet.types import CookSheet, KitchenSheet
from web.language import _, ngettext
from web.presenters.clock import clock, long_date
from web.presenters.preferences import Preferences


@dataclass(frozen=True, slots=True)
class NameView:
    """A cook to be chosen."""

    id: str
    name: str
    done: str
    at_hand: str


@dataclass(frozen=True, slots=True)
class HomeView:
    """Everything the floor home shows."""

    kitchen: str
    date: str
    cooks: tuple[NameView, ...]


def home_view(sheet: KitchenSheet, floor: Floor, preferences: Preferences) -> HomeView:
    """All cooks in the order of the sheet."""
    return HomeView(
        kitchen=sheet.kitchen,
        date=long_date(sheet.date),
        cooks=tuple(_name(cook, floor, preferences) for cook in sheet.cooks),
    )


def _name(cook: CookSheet, floor: Floor, preferences: Preferences) -> NameView:
    stages = progress_of(cook, floor)
    done = sum(one.stage is Stage.DONE for one in stages)
    one = current(stages)
    return NameView(
        id=cook.cook,
        name=cook.name,
        done=ngettext(
            "%(done)s of %(n)s batch done", "%(done)s of %(n)s batches done", len(stages), done=done
        ),
        at_hand="" if one is None else _at_hand(one, preferences),
    )


def _at_hand(one: BatchProgress, preferences: Preferences) -> str:
    what = f"{one.batch.operation_name} {one.batch.food_name}"
    time = clock(one.batch.start, preferences)
    if one.stage is Stage.UNDER_WAY:
        return _("now: %(what)s, %(time)s", what=what, time=time)
    return _("next: %(what)s, %(time)s", what=what, time=time)
