"""From a kitchen to everything that is stored of its plan: where planner's parts are joined."""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from planner.kitchen.document import Kitchen
from planner.plan import Plan
from planner.schedule.timetable import Progress
from planner.sheet.types import KitchenSheet
from service.values import PlanChoices, PlanTexts

OnProgress = Callable[[Progress], None]


@dataclass(frozen=True, slots=True)
class Made:
    """A plan, its sheet, and the texts that are stored of them."""

    plan: Plan
    sheet: KitchenSheet
    texts: PlanTexts


class MakePlan(Protocol):
    """Makes a plan; a function of a module, since it runs in a process of its own."""

    def __call__(
        self,
        kitchen: Kitchen,
        date: dt.date,
        choices: PlanChoices,
        on_progress: OnProgress | None = None,
    ) -> Made:
        """Plan ``date``; report each improving plan."""
