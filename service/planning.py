"""From a kitchen to everything that is stored of its plan: where planner's parts are joined."""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Protocol

from planner.kitchen.document import Kitchen
from planner.plan import Plan
from planner.rates.types import SkillRates
from planner.schedule.timetable import Progress
from planner.sheet.types import KitchenSheet
from service.documents import sheet_text, traces_text
from service.values import PlanChoices, PlanTexts

if TYPE_CHECKING:
    from planner.morning import PlanOptions
    from planner.rates.under_way import UnderWay

OnProgress = Callable[[Progress], None]
"""Told of each improving plan; may raise ``StopPlanning``."""


class StopPlanning(Exception):  # noqa: N818 - a wish, not an error
    """End the search with the best plan so far."""


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


def make_plan(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """Plan one day of a kitchen, with planner's own search.

    Raises
    ------
    ValueError
        The kitchen cannot be planned on that day; says why.
    """
    # Imported here, in the process that plans: the solver takes a second to load.
    from planner.morning import plan_morning  # noqa: PLC0415

    plan = plan_morning(kitchen, date, plan_options(choices), heard(on_progress))
    return with_chances(kitchen, made_of(kitchen, plan))


def plan_options(choices: PlanChoices) -> "PlanOptions":
    """What the planner is asked for by what was chosen."""
    from planner.morning import PlanOptions  # noqa: PLC0415 - only where it plans

    return PlanOptions(
        seconds=choices.seconds,
        deterministic_limit=choices.deterministic_limit,
        seed=choices.seed,
        workers=choices.workers,
        # Each remedy is a search of its own: too slow for a first look.
        remedies=choices.seconds > 0,
    )


def heard(on_progress: OnProgress | None) -> OnProgress:
    """A listener for the search, by which a wish to stop reaches it."""
    from planner.schedule.search import StopSearch  # noqa: PLC0415 - only where it plans

    def report(progress: Progress) -> None:
        try:
            if on_progress is not None:
                on_progress(progress)
        except StopPlanning:
            raise StopSearch from None

    return report


def made_of(kitchen: Kitchen, plan: Plan) -> Made:
    """What is stored of a plan; ``kitchen`` is as it was counted for it."""
    from planner.plan_file import plan_document  # noqa: PLC0415 - loads the solver
    from planner.sheet.build import build_sheet  # noqa: PLC0415
    from planner.why import explained  # noqa: PLC0415

    sheet = build_sheet(kitchen, plan)
    texts = PlanTexts(
        document=plan_document(kitchen, plan).model_dump_json(),
        sheet=sheet_text(sheet),
        traces=traces_text(explained(kitchen, plan)),
    )
    return Made(plan, sheet, texts)


def with_chances(
    kitchen: Kitchen,
    made: Made,
    learned: tuple[SkillRates, ...] = (),
    under_way: "UnderWay | None" = None,
) -> Made:
    """The same with the chance of each service on its sheet, by what was ``learned`` of rates;
    ``under_way`` says how far the day has come.
    """
    from planner.quantities.compute import kitchenry  # noqa: PLC0415 - loads the solver
    from planner.rates.chances import service_chances  # noqa: PLC0415

    chances = service_chances(
        kitchenry(kitchen, made.plan.date), made.plan, learned, under_way=under_way
    )
    sheet = replace(made.sheet, chances=chances)
    return replace(made, sheet=sheet, texts=replace(made.texts, sheet=sheet_text(sheet)))
