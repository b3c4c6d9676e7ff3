"""The floor home: everybody who works today, with how far each has come."""

from dataclasses import dataclass

from planner.floor.progress import Stage, current, progress_of
from planner.floor.state import Floor
from planner.sheet.types import CookSheet, KitchenSheet
from web.presenters.clock import clock, long_date
from web.presenters.counting import counted
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
        done=f"{done} of {counted(len(stages), 'batch', 'batches')} done",
        at_hand=""
        if one is None
        else (
            f"{'now' if one.stage is Stage.UNDER_WAY else 'next'}: "
            f"{one.batch.operation_name} {one.batch.food_name}, "
            f"{clock(one.batch.start, preferences)}"
        ),
    )
