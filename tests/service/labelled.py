"""A planning function whose food goes into containers; light, since a process imports it anew."""

import datetime as dt
from dataclasses import replace

from planner.kitchen.document import Kitchen
from planner.sheet.batch_types import BatchOutput, ContainerLabel
from service.planning import Made, OnProgress
from service.values import PlanChoices
from tests.service import stubs


def make_with_labels(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """Every cook's two batches go into three sixth pans each."""
    plan = stubs.make_with_work(kitchen, date, choices, on_progress)
    label = ContainerLabel(
        component="Diced onion",
        made=date,
        use_by=date + dt.timedelta(days=1),
        allergens=("celery",),
        initials="A",
        container="sixth pan",
        containers=3,
        storage="cold",
    )
    cooks = tuple(
        replace(
            cook,
            batches=tuple(
                replace(
                    batch,
                    outputs=(
                        BatchOutput("diced_onion", "Diced onion", 4200.0, None, None, None, label),
                    ),
                )
                for batch in cook.batches
            ),
        )
        for cook in plan.sheet.cooks
    )
    return stubs.with_sheet(plan, replace(plan.sheet, cooks=cooks))
