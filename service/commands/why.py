"""``why``: explain a quantity, from the guests down to the shelf."""

import datetime as dt
from pathlib import Path

from planner.why import UnknownItem, trace_lines, why
from service.commands.exits import Exit
from service.commands.inputs import day_of, usable_kitchen
from service.commands.output import say
from service.errors import UserError
from service.planning import MakePlan
from service.values import PlanChoices


def explain(
    path: Path, item: str, date: dt.datetime | None, choices: PlanChoices, make: MakePlan
) -> Exit:
    """Print the trace of one ingredient or component on one day."""
    _, kitchen = usable_kitchen(path)
    try:
        # Quantities do not depend on the search, so the first plan will do.
        made = make(kitchen, day_of(kitchen, date), choices.first_only)
        trace = why(kitchen, made.plan, item)
    except UnknownItem as error:
        raise UserError(f"COMPONENT: {error}") from None
    except ValueError as error:
        raise UserError(f"{path}: {error}") from None
    for line in trace_lines(trace):
        say(line)
    return Exit.ON_TIME
